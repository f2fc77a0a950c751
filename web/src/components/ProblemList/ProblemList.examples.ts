import { example } from "../example";
import ProblemList from "./ProblemList.svelte";

export const examples = [
  example(ProblemList, "two problems", {
    problems: [
      { code: "required", field: "/body/count", sentence: "How many: please fill this in." },
      { code: "range", field: "/body/ph", sentence: "A pH of 15 can't be right: it lies between 0 and 14." },
    ],
    inputOf: (problem: { field: string }) => (problem.field === "/body/count" ? "count" : ""),
  }),
];
