import { changeWater } from "../../fixtures/day";
import { example } from "../example";
import PredictionTable from "./PredictionTable.svelte";

const rows = changeWater.prediction?.rows ?? [];
export const examples = [
  example(PredictionTable, "before and after", { rows }, ["0.09 to 0.18 mg/L as N", "8.1 °C"]),
  example(
    PredictionTable,
    "the day after as well",
    {
      rows: rows.map(({ after_tone: _, ...row }, index) => ({
        ...row,
        next_day_text: index === 0 ? "0.08 mg/L" : null,
      })),
    },
    ["0.08 mg/L", "The day after"],
  ),
  example(PredictionTable, "nothing to compare", { rows: [] }),
];
