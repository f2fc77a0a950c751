import { example } from "../example";
import OwnQuestions from "./OwnQuestions.svelte";

/** Invented, like everything in the examples. */
const rows = [
  { question: "Were fish moved between tanks?", answer: "No." },
  { question: "Where did the rest of the eggs go?", answer: "" },
];
const onchange = () => undefined;

export const examples = [
  example(OwnQuestions, "two questions", { rows, onchange }, ["Question 1", "Answer 2", "not noted"]),
  example(OwnQuestions, "none yet", { rows: [], onchange }, ["Add a question"]),
];
