import type { Kit } from "../../contract";
import type { SittingOrder } from "../../contract_print";
import { kits } from "../../fixtures/kits";
import { example } from "../example";
import BenchTable from "./BenchTable.svelte";

const kit = kits.kits[0] as Kit;
const order: SittingOrder = {
  headline: "",
  turns: kit.tests
    .slice(0, 2)
    .map((test, index) => ({ test: test.key, starts_text: `${index}:40`, sentence: "", read_by_text: "8:10" })),
  later: [],
  remarks: [],
  safety: [],
};

export const examples = [
  example(BenchTable, "in the order of the sitting", { kit, order }, ["Begin at", "0:40"]),
  example(BenchTable, "order not known", { kit, order: null }, ["Team 2"]),
  example(BenchTable, "long words, a second card, a meter", {
    kit: {
      key: "long",
      name: "Long",
      tests: [
        {
          key: "a",
          quantity: "ph",
          method: "colour_steps" as const,
          unit: "ph",
          steps: [6, 6.2, 6.4, 6.6, 6.8, 7, 7.2, 7.4, 7.6],
        },
        { key: "b", quantity: "oxygen", method: "meter" as const, unit: "mg_per_l", accuracy: 0.4 },
        { key: "c", quantity: "alkalinity", method: "drop_count" as const, unit: "german_degrees", per_drop: 0.5 },
      ],
    },
    order: {
      headline: "",
      turns: [{ test: "b", starts_text: "0:00", sentence: "" }],
      later: [{ first: "b", then: "a", printed: 7.4, at_or_above: false }],
      remarks: [],
      safety: [],
    },
  }),
];
