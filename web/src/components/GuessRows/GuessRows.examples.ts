import { settledChips, settledRange } from "../../fixtures/lessons";
import { example } from "../example";
import GuessRows from "./GuessRows.svelte";

export const examples = [
  example(GuessRows, "ranges, one far off", { question: settledRange }, ["Team Dipper", "-320 points", "6 drops"]),
  example(GuessRows, "chips, read between two steps, a long label", { question: settledChips }, ["74 points"]),
  example(GuessRows, "all the same, on the reading", {
    question: {
      ...settledRange,
      guesses: [{ ...settledRange.class, team: "Team Otter", low: 6, high: 6 }],
      class: { ...settledRange.class, low: 6, high: 6 },
    },
  }),
];
