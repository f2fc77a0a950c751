import { kit } from "../../fixtures/kits";
import { example } from "../example";
import StepCard from "./StepCard.svelte";

const [nitrite, ammonia] = kit.tests;
if (!nitrite || !ammonia) throw new Error("the invented kit has lost its tests");
export const examples = [
  example(StepCard, "with colours, one pressed", { test: nitrite, chosen: "between-2", id: "coloured" }, [
    "0.09 to 0.18",
    "petal",
  ]),
  example(StepCard, "without colours", { test: ammonia, chosen: "", id: "plain" }),
  example(StepCard, "two steps", { test: { ...ammonia, steps: [5, 10] }, chosen: "", id: "two" }, [
    "below 5",
    "above 10",
  ]),
  example(StepCard, "sixteen steps", {
    test: { ...ammonia, steps: Array.from({ length: 16 }, (_, index) => index * 12.5) },
    chosen: "",
    id: "sixteen",
  }),
];
