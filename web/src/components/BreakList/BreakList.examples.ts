import { example } from "../example";
import BreakList from "./BreakList.svelte";

const onchange = () => undefined;

export const examples = [
  example(BreakList, "none yet", { id: "breaks-none", breaks: [], onchange }, ["Add a break"]),
  example(BreakList, "two, one unfinished", {
    id: "breaks-two",
    breaks: [
      { name: "Winter break of the upper and the lower school together", from: "2030-12-21", to: "2031-01-05" },
      { name: "", from: "", to: "" },
    ],
    onchange,
  }),
];
