import type { HistoryEntry } from "../../contract";
import { firstEntries } from "../../fixtures/invented_server";
import { example } from "../example";
import HistoryRow from "./HistoryRow.svelte";

const [reading] = firstEntries();
if (!reading) throw new Error("no invented entries");
const row = (name: string, more: Partial<HistoryEntry>, shows: string[] = [], writtenDown: string | null = null) =>
  example(
    HistoryRow,
    name,
    { entry: { ...reading, ...more }, writtenDown, oncorrect: () => undefined, onundo: async () => undefined },
    shows,
  );

export const examples = [
  row("current", {}, ["Correct", "Undo"]),
  row("corrected", { status: "corrected", superseded_by: 120 }, ["Corrected", "replaced by entry 120"]),
  row("correction", { supersedes: 90 }, ["replaces entry 90"]),
  row("written down later", {}, ["written down on Saturday"], "2031-02-01"),
  row("undone", { status: "undone", undone_by: 121 }, ["Undone"]),
  row("two thousand characters", { kind: "note", kind_text: "Note", text: "Observed. ".repeat(200), author: "" }),
];
