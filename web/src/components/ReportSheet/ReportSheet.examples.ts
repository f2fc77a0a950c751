import { emptyReport, report } from "../../fixtures/report";
import { example } from "../example";
import ReportSheet from "./ReportSheet.svelte";

const long = "Donaudampfschiffahrtsgesellschaftskapitänsaquariumsverein".repeat(2);

export const examples = [
  example(ReportSheet, "a whole season", { report }, [
    "162 released",
    "30 alevins, estimated",
    "inside what was foretold",
  ]),
  example(ReportSheet, "nothing yet", { report: emptyReport }, ["No dead are logged", "not noted"]),
  example(ReportSheet, "very long names", {
    report: {
      ...report,
      season: { ...report.season, name: long, place: long },
      keepers: [{ label: long, text: "1 entry" }],
    },
  }),
];
