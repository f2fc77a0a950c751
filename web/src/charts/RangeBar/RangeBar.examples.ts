import { example } from "../../components/example";
import RangeBar from "./RangeBar.svelte";

export const examples = [
  example(
    RangeBar,
    "alive of received",
    {
      label: "210 to 224 of 240",
      low: 210,
      mid: 218,
      high: 224,
      to: 240,
      ends: ["0", "240 received"] as [string, string],
    },
    ["240 received"],
  ),
  example(RangeBar, "with a typical range", {
    label: "88 to 95 %",
    low: 0.88,
    mid: 0.92,
    high: 0.95,
    to: 1,
    typical: { low: 0.85, high: 0.97 },
  }),
  example(RangeBar, "nothing known", { label: "0 to 100 %", low: 0, mid: 0.5, high: 1, to: 1 }),
  example(RangeBar, "exact, at the end", { label: "none", low: 0, mid: 0, high: 0, to: 0 }),
];
