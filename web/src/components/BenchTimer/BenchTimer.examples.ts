import { example } from "../example";
import BenchTimer from "./BenchTimer.svelte";

export const examples = [
  example(BenchTimer, "just begun", { leftS: 300, wholeS: 300, label: "Nitrite" }, ["5:00"]),
  example(BenchTimer, "an hour and more, a long name", {
    leftS: 4501,
    wholeS: 5400,
    label: "Next: Alkalinity (KH) (count drops, 0.5 per drop, German degrees), Read",
  }),
  example(BenchTimer, "over", { leftS: -12, wholeS: 10, label: "Mix", overLabel: "Time is up" }, [
    "0:00",
    "Time is up",
  ]),
];
