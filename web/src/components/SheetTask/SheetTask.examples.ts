import { lessons } from "../../fixtures/lessons";
import { example } from "../example";
import SheetTask from "./SheetTask.svelte";

const [warm, alive] = lessons.sheets.younger.tasks;
export const examples = [
  ...(warm ? [example(SheetTask, "with a table", { task: warm }, ["Warm and cold", "7.8 °C"])] : []),
  ...(alive ? [example(SheetTask, "answer", { task: alive, answers: true }, ["193.", "200 - 7 = 193"])] : []),
];
