import { example } from "../example";
import ReportFiles from "./ReportFiles.svelte";

export const examples = [
  example(ReportFiles, "the season report", { questions: [] }, ["PDF", "PDF for the class", "HTML"]),
];
