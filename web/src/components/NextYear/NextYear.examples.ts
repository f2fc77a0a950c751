import type { NextYear } from "../../contract_next_year";
import { example } from "../example";
import NextYearList from "./NextYear.svelte";

/** Invented, like everything in the examples. */
const next: NextYear = {
  season: "Otter Lane 2030",
  invented: true,
  made_on: "2031-05-30",
  made_on_text: "Fri 30 May 2031",
  sentence: "1 thing to do better next year, worked out from the log until Fri 30 May.",
  lessons: [
    {
      key: "milestones",
      title: "Did the dates come true?",
      verdict: "keep",
      verdict_text: "Keep it so",
      found: "2 of 2 inside the days foretold when the eggs came. Hatch: 2 days later than most likely.",
      advice: "",
      sure: "A window is to hold nine times in ten.",
    },
    {
      key: "tests",
      title: "Was the water tested often enough?",
      verdict: "better",
      verdict_text: "To do better",
      found: "Ammonia or nitrite was last tested more than nine days ago on 12 of 101 days with animals.",
      advice: "Next year fix one weekday for the water test and name who makes it in the breaks.",
      sure: "Counted from the log.",
    },
    {
      key: "readiness",
      title: "Was the filter ready for the eggs?",
      verdict: "not_known",
      verdict_text: "Not known",
      found: "No test dose was logged as gone before the eggs came.",
      advice: "",
      sure: "",
    },
  ],
};

export const examples = [
  example(NextYearList, "three lessons", { next }, ["To do better.", "12 of 101 days", "Not known.", "Keep it so."]),
  example(NextYearList, "nothing to do better", {
    next: { ...next, sentence: "Nothing in the log asks to be done otherwise next year.", lessons: [next.lessons[0]!] },
  }),
];
