import { example } from "../example";
import ChartFiles from "./ChartFiles.svelte";

export const examples = [
  example(ChartFiles, "of nitrite", { chart: "nitrite", title: "Nitrite" }, [
    "The season’s chart as a file:",
    "SVG",
    "PNG",
  ]),
];
