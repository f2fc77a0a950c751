import { chipQuestion, rangeQuestion } from "../../fixtures/lessons";
import { example } from "../example";
import GuessForm from "./GuessForm.svelte";

const send = () => Promise.resolve({ ok: true as const, value: { id: 1 } });
export const examples = [
  example(GuessForm, "chips on a card", { question: chipQuestion, chips: 10, send }, [
    "10 chips left to lay.",
    "frost",
  ]),
  example(GuessForm, "a range of drops", { question: rangeQuestion, chips: 10, send }, ["Lowest you expect, drops"]),
  example(GuessForm, "steps without colours", {
    question: {
      ...chipQuestion,
      steps: chipQuestion.steps.map((step) => ({ ...step, colour: null, swatch: null })),
    },
    chips: 10,
    send,
  }),
];
