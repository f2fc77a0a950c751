import { t } from "../../messages";
import { example } from "../example";
import SaveLine from "./SaveLine.svelte";

const copy = { id: 40, at: "2031-02-14T16:00:00Z", name: "redd-willow-2031-02-14.json" };
const usual = {
  unsaved: 3,
  copy,
  copyDays: 2,
  nag: null,
  lasting: true,
  demo: false,
  onsave: () => undefined,
  onleave: () => undefined,
};
export const examples = [
  example(SaveLine, "three entries to save", usual, [t.copies.line.unsaved(3), t.copies.saveShort]),
  example(SaveLine, "one entry", { ...usual, unsaved: 1 }, ["1 entry not yet"]),
  example(SaveLine, "all saved", { ...usual, unsaved: 0 }, [t.copies.line.allSaved(copy.name)]),
  example(SaveLine, "many entries", { ...usual, unsaved: 40, nag: "entries" as const }, [t.copies.line.nagCount]),
  example(SaveLine, "an old file", { ...usual, copyDays: 19, nag: "days" as const }, [t.copies.line.nagDays(19)]),
  example(SaveLine, "a browser that keeps nothing", { ...usual, lasting: false }, [t.copies.line.memory]),
  example(SaveLine, "invented", { ...usual, demo: true, unsaved: 0 }, [t.copies.line.demo, t.copies.leaveDemo]),
  example(SaveLine, "nothing yet", { ...usual, unsaved: 0, copy: null, copyDays: null }, [t.copies.line.none]),
  example(
    SaveLine,
    "a long name",
    { ...usual, unsaved: 0, copy: { ...copy, name: `redd-${"willow-creek-".repeat(12)}.json` } },
    [],
  ),
];
