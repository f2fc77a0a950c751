import { kit } from "../../fixtures/kits";
import { example } from "../example";
import BenchCard from "./BenchCard.svelte";

const [nitrite, ammonia] = kit.tests;
if (!nitrite || !ammonia) throw new Error("the invented kit has lost its colour tests");
const onread = () => undefined;
export const examples = [
  example(BenchCard, "with swatches and names", { test: nitrite, onread }, ["0.09", "petal", "Not sure"]),
  example(BenchCard, "without colours", { test: ammonia, onread }),
  example(BenchCard, "many steps, long numbers and names", {
    test: {
      ...nitrite,
      steps: [0.0125, 0.025, 0.05, 0.1, 0.2, 0.4, 0.8, 1.6, 3.2, 6.4, 12.8, 25.6],
      swatches: [],
      colour_names: Array.from({ length: 12 }, (_, step) => `a very long name of colour number ${step + 1}`),
    },
    onread,
  }),
];
