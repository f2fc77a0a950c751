import { actions, changeWater } from "../../fixtures/day";
import { example } from "../example";
import ActionCard from "./ActionCard.svelte";

const endless = "an-unbroken-word-from-a-note-that-somebody-typed-without-any-spaces-".repeat(3);
export const examples = [
  example(ActionCard, "open, with everything", { action: changeWater, rank: 1, open: true }, [
    "Change water",
    "70 litres",
    "today before 16:00",
    "entry 104",
    "and 2 more",
    "0.06 to 0.12 mg/L as N",
  ]),
  ...actions
    .slice(1)
    .map((action, index) => example(ActionCard, action.rule, { action, rank: index + 2 }, [action.what])),
  example(ActionCard, "bare", {
    action: {
      ...changeWater,
      how_much: "",
      because: [],
      would_change_if: [],
      cautions: [],
      sources: [],
      prediction: null,
      effort_minutes: 0,
    },
    rank: 3,
    open: true,
  }),
  example(ActionCard, "words without end", {
    action: { ...changeWater, what: endless, tone: "alarm" as const },
    rank: 12,
    open: true,
  }),
];
