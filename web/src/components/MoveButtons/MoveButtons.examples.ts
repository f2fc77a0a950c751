import { example } from "../example";
import { t } from "../../messages";
import MoveButtons from "./MoveButtons.svelte";

const nothing = () => undefined;
const limits: [number, number] = [4, 20];

export const examples = [
  example(
    MoveButtons,
    "days and steps",
    {
      days: [
        { which: "egg_day" as const, day: "2031-01-31" },
        { which: "release_until" as const, day: "2031-05-16" },
      ],
      steps: [
        { day: "2031-01-31", c: 7.5 },
        { day: "2031-02-20", c: 9 },
      ],
      last: "2031-05-20",
      limits,
      onday: nothing,
      onsteps: nothing,
    },
    [t.season.addStep, "7.5 °C"],
  ),
  example(MoveButtons, "one step on one day", {
    days: [],
    steps: [{ day: "2031-01-31", c: 8.25 }],
    last: "2031-01-31",
    limits,
    onday: nothing,
    onsteps: nothing,
  }),
];
