import { changeWater } from "../../fixtures/day";
import { example } from "../example";
import ReasonList from "./ReasonList.svelte";

export const examples = [
  example(ReasonList, "with entries", { reasons: changeWater.because }, ["entry 104", "and 2 more"]),
  example(ReasonList, "in order", { reasons: changeWater.because, ordered: true }, ["chloride"]),
  example(ReasonList, "one entry named twice", { reasons: [{ sentence: "Invented.", record_ids: [7, 7] }] }, [
    "(entry 7)",
  ]),
  example(ReasonList, "none", { reasons: [] }),
];
