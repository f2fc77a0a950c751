import { firstEntries } from "../../fixtures/invented_server";
import { quickKinds } from "../../forms/kinds";
import { example } from "../example";
import RecordForm from "./RecordForm.svelte";

const props = {
  timeZone: "America/Denver",
  now: "2031-01-30T15:10:00Z",
  onsave: async () => ({ ok: false as const, problems: [] }),
  ondone: () => undefined,
};
const [, temperature] = firstEntries();
if (!temperature) throw new Error("no invented entries");
export const examples = [
  ...quickKinds.map((kind) => example(RecordForm, kind, { ...props, kind })),
  example(RecordForm, "season set-up", { ...props, kind: "season_setup", plain: true }),
  example(RecordForm, "correcting", { ...props, kind: "temperature", correcting: temperature }, [
    "You are correcting entry 103",
  ]),
];
