import { outlook } from "../../fixtures/filter";
import { twoKits } from "../../fixtures/kits";
import { t } from "../../messages";
import { example } from "../example";
import NextReadings from "./NextReadings.svelte";

const { tests } = outlook.next_readings;
const [first] = tests;
if (!first) throw new Error("no invented test");
export const examples = [
  example(NextReadings, "three tests", { tests, kits: twoKits.kits }, ["between 0.03 and 0.09", "Second kit"]),
  example(NextReadings, "none", { tests: [], kits: [] }, [t.filter.noNext]),
  example(NextReadings, "sixteen steps, long names", {
    tests: [
      first,
      {
        ...first,
        name: "Total-ammonia-".repeat(8),
        kit: "the kit that the lower school borrowed ".repeat(4),
        possible: Array.from({ length: 16 }, (_, index) => ({
          text: `between ${index} and ${index + 1} mg/L as NH₄`,
          probability: index === 3 ? 0.9955 : 0.0003,
        })),
      },
    ],
    kits: twoKits.kits,
  }),
];
