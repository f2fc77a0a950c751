import { changeWater } from "../../fixtures/day";
import { example } from "../example";
import ReasonList from "./ReasonList.svelte";

export const examples = [
  example(ReasonList, "with entries", { reasons: changeWater.because }, ["entry 104", "and 2 more"]),
  example(ReasonList, "in order", { reasons: changeWater.because, ordered: true }, ["chloride"]),
  example(ReasonList, "none", { reasons: [] }),
];
