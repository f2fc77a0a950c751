import { example } from "../../components/example";
import { counts, outbreak } from "../../fixtures/counts";
import LossChart from "./LossChart.svelte";

const props = (view: typeof counts) => ({
  looks: view.losses.looks,
  since: view.losses.since,
  title: "Dead found at each look",
  summary: view.losses.sentence,
});
export const examples = [
  example(LossChart, "as expected", props(counts), ["no more than expected"]),
  example(LossChart, "more than expected", props(outbreak), ["since Tuesday 28 January"]),
  example(LossChart, "one look", { ...props(counts), looks: counts.losses.looks.slice(0, 1) }),
  example(LossChart, "no look", { ...props(counts), looks: [] }),
];
