// What the season teaches the next one (docs/openapi.json: NextYear).
import type { Day } from "./contract";

export interface NextYear {
  season: string;
  invented: boolean;
  made_on: Day;
  made_on_text: string;
  sentence: string;
  lessons: {
    key: string;
    title: string;
    verdict: "keep" | "better" | "not_known";
    verdict_text: string;
    found: string;
    advice: string;
    sure: string;
  }[];
}
