import { putAside } from "../../fixtures/day";
import { example } from "../example";
import AnsweredList from "./AnsweredList.svelte";

const [done] = putAside;
if (!done?.answer) throw new Error("no invented answer");
export const examples = [
  example(AnsweredList, "done and put off", { actions: putAside, onundo: async () => undefined }, [
    "Top up the water",
    "Done today at 8:10.",
    "asked again on Monday 3 February",
  ]),
  example(AnsweredList, "words without end", {
    actions: [{ ...done, what: "unbroken-".repeat(20), answer: { ...done.answer, answer: "skipped" as const } }],
    onundo: async () => undefined,
  }),
];
