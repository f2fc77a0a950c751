import { example } from "../../components/example";
import { shiftDay } from "../../days";
import DayChart from "./DayChart.svelte";

const days = Array.from({ length: 60 }, (_, index) => shiftDay("2031-01-20", index));
const growing = { key: "tgc", name: "Invented growth", days, mid: days.map((_, i) => 0.3 * 1.02 ** i) };
const banded = {
  ...growing,
  low: growing.mid.map((mid) => mid * 0.85),
  high: growing.mid.map((mid) => mid * 1.15),
};

export const examples = [
  example(
    DayChart,
    "band, second line, samples, limit",
    {
      title: "Weight of a fish",
      unit: "g",
      summary: "From 0.3 g to about 0.9 g.",
      traces: [banded, { ...growing, key: "second", name: "Second model", mid: growing.mid.map((mid) => mid * 0.95) }],
      marks: [{ day: "2031-01-28", low: 0.3, mid: 0.34, high: 0.38, text: "0.34 g, 20 fish" }],
      limits: [{ key: "l", value: 0.8, name: "invented mark" }],
      days: [{ day: "2031-02-20", name: "first feeding" }],
      now: "2031-01-30",
    },
    ["Invented growth", "invented mark", "first feeding"],
  ),
  example(DayChart, "four lines, a step, a range to lie in", {
    title: "Alive",
    unit: "%",
    summary: "",
    traces: [
      { ...banded, key: "a", step: true },
      { ...growing, key: "b", name: "Dashed", mid: growing.mid.map((mid) => mid * 0.7) },
      { ...growing, key: "c", name: "Dotted", mid: growing.mid.map((mid, i) => (i > 20 && i < 30 ? null : mid * 0.5)) },
      { ...growing, key: "d", name: "Dash and dot", mid: growing.mid.map((mid) => mid * 0.3) },
      { ...banded, key: "t", name: "Typical", backdrop: true, mid: days.map(() => null) },
    ],
    now: "2031-01-20",
    fromNought: false,
  }),
  example(DayChart, "nothing yet", { title: "Weight", unit: "g", summary: "Nothing weighed yet.", traces: [] }, [
    "Nothing weighed yet.",
  ]),
  example(DayChart, "one day, huge doubt", {
    title: "Weight",
    unit: "g",
    summary: "One day only.",
    traces: [{ key: "x", name: "One", days: ["2031-01-30"], mid: [1], low: [0], high: [900] }],
    now: "2031-01-30",
  }),
];
