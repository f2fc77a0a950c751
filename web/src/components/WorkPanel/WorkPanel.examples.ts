import type { FilterView } from "../../contract";
import { absent, cancelled, failed, working } from "../../fixtures/filter";
import { t } from "../../messages";
import { example } from "../example";
import WorkPanel from "./WorkPanel.svelte";

const show = (name: string, filter: FilterView, shows: string[]) => {
  if (filter.state === "ready") throw new Error("a panel for what is ready");
  return example(WorkPanel, name, { filter, onstop: async () => undefined, onstart: async () => undefined }, [
    filter.sentence,
    t.filter.whatNext[filter.state],
    ...shows,
  ]);
};
export const examples = [
  show("working", working(0.42), ["42\u00a0%", t.filter.stop]),
  show("just begun", working(0), [t.filter.stop]),
  show("cancelled", cancelled, [t.filter.start]),
  show("failed", failed, [t.filter.start]),
  show("absent", absent, [t.filter.toToday]),
  show("failed, at length", { ...failed, sentence: "no-simulated-tank-fits-".repeat(30) }, []),
];
