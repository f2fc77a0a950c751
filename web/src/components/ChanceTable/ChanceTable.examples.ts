import { whatIfAnswer } from "../../fixtures/whatif";
import { example } from "../example";
import ChanceTable from "./ChanceTable.svelte";

const chances = whatIfAnswer({ room_warmer_c: 6 }).chances;
export const examples = [
  example(ChanceTable, "more, less and the same", { chances }, ["more likely", "As planned"]),
  example(
    ChanceTable,
    "nothing can be said",
    {
      chances: chances.map((one) => ({
        ...one,
        probability: null,
        text: null,
        as_planned_text: null,
        standing: "unknown" as const,
        when_text: null,
      })),
    },
    ["cannot be said"],
  ),
];
