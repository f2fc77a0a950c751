import { actions, changeWater, putAside } from "../../fixtures/day";
import { example } from "../example";
import ActionCard from "./ActionCard.svelte";

const today = "2031-01-30";
const onanswer = async () => [];
const onundo = async () => undefined;
const [answered] = putAside;
const endless = "an-unbroken-word-from-a-note-that-somebody-typed-without-any-spaces-".repeat(3);
export const examples = [
  example(ActionCard, "open, with everything", { action: changeWater, rank: 1, open: true, today, onanswer, onundo }, [
    "Change water",
    "70 litres",
    "today before 16:00",
    "entry 104",
    "and 2 more",
    "0.06 to 0.12 mg/L as N",
    "falls from 60 % to 5 %",
    "for the animals",
  ]),
  ...actions
    .slice(1)
    .map((action, index) =>
      example(ActionCard, action.rule, { action, rank: index + 2, today, onanswer }, [
        action.what,
        action.moved_text ?? "",
      ]),
    ),
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
      benefit: "",
    },
    today,
    rank: 3,
    open: true,
  }),
  example(ActionCard, "words without end", {
    action: { ...changeWater, what: endless, tone: "alarm" as const },
    rank: 12,
    open: true,
    today,
    onanswer,
  }),
  example(
    ActionCard,
    "an alarm that was answered stays",
    {
      action: { ...changeWater, tone: "alarm" as const, answer: answered?.answer ?? null },
      rank: 1,
      today,
      onanswer,
      onundo,
    },
    ["Done today at 8:10.", "An alarm stays here"],
  ),
];
