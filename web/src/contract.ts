// The JSON that the server and the page agree on. The page shows the ready-made texts and draws the numbers; it never
// works out chemistry or biology of its own. Start at DayView: it is everything that Today and Season show.

/** How things stand, worst first. "unknown" (not measured, or too old) is never shown as good. */
export type Tone = "alarm" | "act" | "watch" | "good" | "unknown";

/** A day in the school's own calendar, YYYY-MM-DD. */
export type Day = string;
/** A moment in UTC, RFC 3339. */
export type Instant = string;
export type RecordId = number;

export interface DayView {
  season: SeasonFacts;
  now: Instant;
  today: Day;
  today_text: string;
  headline: { tone: Tone; sentence: string; detail: string };
  stage: { key: StageKey; name: string; sentence: string; atu_c_days: number | null; atu_text: string };
  actions: Action[];
  water: WaterQuantity[];
  milestones: Milestone[];
  season_line: SeasonLine;
  gaps: string[];
}

export type StageKey = "no_animals" | "egg" | "eyed_egg" | "alevin" | "fry" | "released";

export interface SeasonFacts {
  name: string;
  place: string;
  species: string;
  species_name: string;
  volume_l: number;
  volume_text: string;
  target_c: number;
  target_text: string;
  elevation_m: number;
  time_zone: string;
  first_day: Day;
  egg_day: Day | null;
  egg_count: number | null;
  invented: boolean;
}

export interface Reason {
  sentence: string;
  record_ids: RecordId[];
}

export interface Action {
  id: string;
  rule: string;
  tone: Tone;
  what: string;
  how_much: string;
  by: Instant;
  by_text: string;
  effort_minutes: number;
  because: Reason[];
  would_change_if: Reason[];
  cautions: string[];
  sources: string[];
  prediction: Prediction | null;
}

export interface Prediction {
  title: string;
  note: string;
  rows: { key: string; name: string; before_text: string; after_text: string; after_tone: Tone }[];
}

export interface WaterQuantity {
  key: string;
  name: string;
  unit_text: string;
  tone: Tone;
  latest: LatestValue | null;
  meaning: string;
  limits: Limit[];
  series: Reading[];
  axis: { min: number; max: number };
  baseline: { mean: number; lower: number; upper: number; text: string } | null;
}

export interface LatestValue {
  low: number;
  mid: number;
  /** null: above the last step of the card, how much is not known. */
  high: number | null;
  text: string;
  /** null: worked out without a reading of its own. */
  at: Instant | null;
  age_text: string;
  raw_text: string;
  record_ids: RecordId[];
  support: "measured" | "inferred" | "assumed";
}

export interface Limit {
  key: string;
  value: number;
  text: string;
  source: string;
}

export interface Reading {
  at: Instant;
  low: number;
  mid: number;
  /** null: above the last step of the card, how much is not known. */
  high: number | null;
  raw_text: string;
  record_id: RecordId | null;
  team: string;
}

export interface Window {
  from: Day;
  to: Day;
}

export interface Milestone {
  key: string;
  name: string;
  state: "expected" | "under_way" | "happened";
  observed_day: Day | null;
  mid: Day;
  window50: Window;
  window90: Window;
  text: string;
  note: string;
}

export interface SeasonLine {
  from: Day;
  to: Day;
  temperature: { day: Day; low: number; mid: number; high: number; kind: "measured" | "assumed" | "planned" }[];
  set_points: { day: Day; c: number }[];
  bands: {
    from: Day;
    to: Day;
    stage: string;
    green_low: number;
    green_high: number;
    red_low: number;
    red_high: number;
  }[];
  events: { day: Day; kind: string; text: string; record_id: RecordId | null }[];
}

export interface SeasonState {
  state: "ready" | "empty";
  invented: boolean;
  story: { first_day: Day; last_day: Day; today: Day } | null;
  version: string;
}

export type Json = string | number | boolean | null | Json[] | { [key: string]: Json };
export type Body = { [key: string]: Json };

export interface HistoryEntry {
  id: RecordId;
  at: Instant;
  day_text: string;
  time_text: string;
  /** When it was written down; `at` is when it happened. */
  logged_at: Instant;
  kind: string;
  kind_text: string;
  author: string;
  text: string;
  status: "current" | "corrected" | "undone";
  supersedes: RecordId | null;
  superseded_by: RecordId | null;
  undone_by: RecordId | null;
  body: Body;
}

export interface History {
  records: HistoryEntry[];
  more: boolean;
}

export interface TimedStep {
  do: "fill" | "drops" | "powder" | "mix" | "wait" | "read";
  text: string;
  seconds?: number;
  count?: number;
  read_by_seconds?: number;
}

export interface KitTest {
  key: string;
  quantity: string;
  method: "colour_steps" | "drop_count" | "meter";
  unit: string;
  steps?: number[];
  swatches?: string[];
  colour_names?: string[];
  per_drop?: number;
  accuracy?: number;
  timed_steps?: TimedStep[];
}

export interface Kit {
  key: string;
  name: string;
  tests: KitTest[];
}

export interface Kits {
  kits: Kit[];
  templates: Kit[];
}

/** What the page sends to add a record. Without `at` the server takes its own now (in a demo: the story's day). */
export interface NewRecord {
  kind: string;
  at?: Instant;
  author: string;
  supersedes?: RecordId;
  entry_key: string;
  body: Body;
}

export interface Saved {
  id: RecordId;
  record?: HistoryEntry;
}

export interface Problem {
  code: string;
  field: string;
  sentence: string;
}
