import type { Waiting } from "../../state/outbox";
import { example } from "../example";
import OutboxNote from "./OutboxNote.svelte";

const season = "A tank|A place|2031-01-06";
const waiting = (key: string, more: Partial<Waiting> = {}): Waiting => ({
  record: { kind: "temperature", author: "Team Otter", entry_key: key, body: { temperature_c: 8.4 } },
  asOf: null,
  written: "2031-02-14T09:00:00Z",
  season,
  order: 1,
  refused: [],
  ...more,
});
const calls = { season, ontry: async () => undefined, onagain: () => undefined, ondiscard: () => undefined };

export const examples = [
  example(
    OutboxNote,
    "no answer, nothing waits",
    { lost: true, shownOf: "Friday 14 February, 07:50", waiting: [], ...calls },
    ["Redd does not answer.", "What you see was true on Friday 14 February, 07:50."],
  ),
  example(OutboxNote, "no answer, entries wait", { lost: true, waiting: [waiting("a"), waiting("b")], ...calls }, [
    "2 entries are kept on this device",
  ]),
  example(
    OutboxNote,
    "refused, and one for another season",
    {
      lost: false,
      waiting: [
        waiting("c", {
          record: { kind: "note", author: "Team Otter", entry_key: "c", body: { text: "unbroken-".repeat(30) } },
          refused: [{ code: "too_long", field: "/body/text", sentence: "The note is longer than the log keeps." }],
        }),
        waiting("d", { season: "Another|Place|2030-01-01" }),
      ],
      ...calls,
    },
    ["The note is longer than the log keeps.", "For another season: Temperature", "Temperature: 8.4 °C"],
  ),
];
