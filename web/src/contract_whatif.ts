// What-ifs, as docs/openapi.json has them. The base comes from the server once, answers from the core in the page.
import type { Day, Tone } from "./contract";

export type WhatIfSliderName =
  "room_warmer_c" | "set_point_warmer_c" | "animals_factor" | "food_factor" | "weekly_change_fraction";
export type WhatIfSliders = Record<WhatIfSliderName, number>;

export interface WhatIfSliderRange {
  low: number;
  high: number;
  as_planned: number;
  step: number;
  /** What it is now or planned: °C, animals, share a week. */
  now: number | null;
}

export interface WhatIfBase {
  /** For the core alone; handed back as it is. */
  asked: object;
  days: Day[];
  animals: number;
  fed: boolean;
  sliders: Record<WhatIfSliderName, WhatIfSliderRange>;
  usual_change_assumed: boolean;
  /** The filter's outlook is on its way; asked again once it is there, the base is narrower. */
  filter_working: boolean;
  cautions: string[];
  assumed: string[];
  rests_on: string;
}

export interface WhatIfChance {
  key: string;
  name: string;
  probability: number | null;
  text: string | null;
  as_planned_probability: number | null;
  as_planned_text: string | null;
  standing: "more" | "less" | "same" | "unknown";
  when_text: string | null;
}

export interface WhatIfDate {
  key: "hatch" | "swim_up";
  low: Day | null;
  mid: Day | null;
  high: Day | null;
  past: boolean;
  sentence: string;
  as_planned_mid: Day | null;
}

/** Columns as long as the base's days; empty where nothing can be told. */
export interface WhatIfLine {
  key: string;
  name: string;
  unit_text: string;
  limit_low: number | null;
  limit_high: number | null;
  low: number[];
  mid: number[];
  high: number[];
  last_text: string | null;
}

export interface WhatIfAnswer {
  sound: boolean;
  tone: Tone;
  changed: boolean;
  sentence: string;
  details: string[];
  cautions: string[];
  chances: WhatIfChance[];
  dates: WhatIfDate[];
  lines: WhatIfLine[];
}
