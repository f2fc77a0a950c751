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
  /** Best first. */
  actions: Action[];
  put_aside: PutAside[];
  water: WaterQuantity[];
  milestones: Milestone[];
  season_line: SeasonLine;
  gaps: string[];
  /** Absent where the server works out no outlook of the filter. */
  filter?: FilterView;
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
  /** Nobody knows it yet. */
  egg_day_assumed: boolean;
  egg_count: number | null;
  invented: boolean;
}

export interface Reason {
  sentence: string;
  record_ids: RecordId[];
}

/** What the keeper said became of a step. */
export type AnswerWord = "done" | "skipped" | "not_now";

export interface ActionAnswer {
  answer: AnswerWord;
  at: Instant;
  record_id: RecordId;
  /** It is asked again from this day; null: only when its reason renews. */
  back: Day | null;
  text: string;
}

/** Answered and not asked now. */
export type PutAside = Pick<Action, "key" | "tone" | "what" | "answer">;

export interface Action {
  id: string;
  /** The same in every look while the matter lasts; an answer names it. */
  key: string;
  rule: string;
  tone: Tone;
  /** What it is for. */
  aim: "animals" | "deadline" | "lesson";
  /** What hands do. */
  deeds: string[];
  /** Not before; null: at once. */
  from: Instant | null;
  from_text: string;
  /** The risk it averts, in words and numbers; "" where it has none of its own. */
  benefit: string;
  /** Shown at once; the others on request. */
  shown: boolean;
  /** Why it stands later than it would, or not before another. */
  moved_text: string | null;
  /** The newest answer, where it is asked all the same or was put aside. */
  answer: ActionAnswer | null;
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

/** The filter's outlook. It is worked out beside the day, which never waits for it. */
export type FilterView =
  | ({ state: "ready" } & FilterProgress & FilterOutlook)
  | ({ state: "working" | "cancelled" | "absent" | "failed" } & FilterProgress);

export interface FilterProgress {
  /** 0 to 1 while working. */
  done_fraction: number;
  sentence: string;
}

export interface FilterOutlook {
  /** What the newest tests show and no simulated tank explains: the forecast is not to be gone by. */
  lost_track?: { key: string; sentence: string; record_ids: RecordId[] } | null;
  now: Day;
  first_day: Day;
  ready: {
    by_day: Day | null;
    by_text: string;
    /** Of being ready on `by_day`; null without one. */
    probability: number | null;
    /** Of `by_day`, or where there is none of today. */
    probability_text: string;
    today_probability: number;
    cold_today_probability: number | null;
    tone?: Tone;
    definition_text: string;
    window: DayWindow;
  };
  total_ammonia_peak: DayWindow;
  nitrite_peak: DayWindow;
  ready_on: { day: Day; probability: number }[];
  capacity: {
    now: Capacity;
    at_target: Capacity;
    target_text: string;
    coming_load: { value: number; text: string; day: Day | null };
    carries_probability: number | null;
    carries_text: string;
    tone: Tone;
    sentence: string;
  };
  charts: FilterChart[];
  next_readings: { day: Day; day_text: string; tests: NextReading[] };
  measures: {
    for_day: Day | null;
    planned_probability: number | null;
    rows: {
      kind: string;
      what: string;
      probability: number;
      change: number;
      change_text: string;
      helps: boolean;
    }[];
  };
  doubts: { kind: string; sentence: string; record_ids: RecordId[] }[];
  method: { sentence: string; assumed?: string[]; particles: number; sittings: number };
}

/** When something comes. A null bound lies beyond the end of the forecast. */
export interface DayWindow {
  probability: number;
  low_90: Day | null;
  low_50: Day | null;
  mid: Day | null;
  high_50: Day | null;
  high_90: Day | null;
  text: string;
}

/** mg N/L a day. */
export interface Capacity {
  low: number;
  mid: number;
  high: number;
  text: string;
}

/** Columns of one number a day, in `unit_text`; what lies after `now_index` is forecast. */
export interface FilterChart {
  key: string;
  name: string;
  unit_text: string;
  summary: string;
  days: Day[];
  low_90: (number | null)[];
  low_50: (number | null)[];
  mid: (number | null)[];
  high_50: (number | null)[];
  high_90: (number | null)[];
  now_index: number;
  limits: { key: string; value: number; name: string }[];
}

export interface NextReading {
  key: string;
  name: string;
  kit: string;
  text: string;
  possible: { text: string; probability: number }[];
}

/** The temperature plan: three plans side by side, and what they rest on. */
export interface PlanView {
  sentence: string;
  /** First and last day planned. */
  from: Day | null;
  to: Day | null;
  holdable: { day: Day; coldest_c: number; warmest_c: number }[];
  plans: NamedPlan[];
  assumed: string[];
  /** Of the equipment: down today, or with little to spare. */
  cautions: string[];
  conflicts: string[];
  closures: { from: Day; to: Day; name: string }[];
  /** Closed days in a row from the season's first day on. */
  closed: ClosedDays[];
  egg_day: Day | null;
  eggs_in_tank: boolean;
  release: { from: Day | null; until: Day | null; permit: string };
  chill: {
    sentence: string;
    start: Day;
    latest_start: Day;
    settled: Day;
    set_points: { day: Day; c: number }[];
  } | null;
  chill_obstacles: Obstacle[];
  since_last_week: { same: boolean; what: string[]; why: string[] } | null;
}

export interface ClosedDays extends Window {
  name: string;
  /** An ordinary weekend; else a closure that was logged. */
  weekend: boolean;
}

export interface Obstacle {
  code: string;
  sentence: string;
}

export interface PlanRow {
  possible: boolean;
  sentence: string;
  /** How sure the sentence is. */
  detail: string;
  next: { sentence: string; day: Day | null; c: number | null } | null;
  obstacles: Obstacle[];
  /** Columns of one set-point a day. */
  days: Day[];
  c: number[];
  changes: { day: Day; from_c: number; to_c: number; text: string }[];
  wishes: { key: string; name: string; probability: number; over: boolean; probability_text: string }[];
  milestones: PlanMilestone[];
  score?: number;
  kwh?: number;
  kwh_text?: string;
  gap?: number | null;
}

export interface NamedPlan extends PlanRow {
  key: string;
  name: string;
}

export interface PlanMilestone {
  key: string;
  name: string;
  mid: Day;
  window50: Window;
  window90: Window;
  happened: boolean;
  probability_by_end: number;
  text: string;
}

/** What is moved in the plan to see where it leads. Without `changes` the best temperatures are searched for anew. */
export interface PlanTrial {
  changes?: { day: Day; c: number }[];
  egg_day?: Day;
  hatch?: Day;
  swim_up?: Day;
  release_from?: Day;
  release_until?: Day;
}

export interface WallDay {
  day: Day;
  /** School is open at least part of the day. */
  open: boolean;
  closed_name: string | null;
  shut_from: string | null;
  on_duty: string[];
  set_point_text: string | null;
  windows: { key: string; kind: string; title: string; text: string; from: Day; to: Day; likely: boolean }[];
  tasks: { key: string; kind: string; title: string; text: string }[];
}

/** The season ahead day by day, for a calendar on the wall. */
export interface WallView {
  title: string;
  made_on: Day;
  from: Day;
  to: Day;
  /** Why set-points are missing. */
  without_plan: string[];
  days: WallDay[];
}

/** What a school's calendar would bring. Nothing is kept before it is confirmed. */
export interface CalendarPreview {
  name: string;
  closures: {
    line: number;
    name: string;
    from: Day;
    to: Day;
    shut_from?: string;
    standing: "added" | "known" | "changed" | "settled";
  }[];
  left_out: { line: number; summary: string; day: Day | null; times: number; reason: string }[];
  bad: { line: number; sentence: string }[];
  notes: string[];
  left_out_count: number;
  bad_count: number;
  /** Records that keeping would add. */
  entry_count: number;
}

/** From the soonest to the latest, in hours; null is never. */
export interface HoldTime {
  what: string;
  known: boolean;
  soonest_h: number | null;
  likely_h: number | null;
  latest_h: number | null;
  text: string;
  basis: string;
}

export interface Emergency {
  key: string;
  name: string;
  sign: string;
  /** The log says that it is happening. */
  now: boolean;
  /** What gives out first stands first. */
  hold: HoldTime[];
  steps: string[];
  measure: string[];
  call: string[];
  cautions: string[];
  sources: string[];
}

export interface EmergencyList {
  animals: string;
  animals_in_tank: boolean;
  season: string;
  volume_l: number;
  kinds: Emergency[];
}

export interface TimeToLimit {
  soonest_h: number | null;
  likely_h: number | null;
  latest_h: number | null;
  text: string;
  limit_c: number;
  name: string;
}

interface Spread {
  low: number;
  mid: number;
  high: number;
}

/** What the chiller can hold, and how long the tank stays cold without it. */
export interface HeatView {
  sentence: string;
  rests_on: string;
  assumed: string[];
  target_c: number;
  room: { mean_c: number; coldest_c: number; warmest_c: number; asked: boolean };
  animals: string;
  hold: {
    state: string;
    cautious_state: string;
    sentence: string;
    caution: string | null;
    duty_fraction: Spread;
    held_probability: number;
  } | null;
  week: { text: string; cost: Spread | null; currency: string } | null;
  cooling: { text: string } | null;
  power_cut: TimeToLimit[];
  chiller_dead: TimeToLimit[];
  stuck_on: TimeToLimit[];
  bottles: { kg: number; text: string }[];
  change: { text: string } | null;
  foam: { what: string; text: string }[];
  damp: { sweats: boolean; texts: string[] };
}

/** From low to high with nine chances in ten, and its ready-made text. */
export interface TextedSpread extends Spread {
  text: string;
}

/** A water change with all that hands need. */
export interface PlannedChange {
  day: Day;
  day_text: string;
  fraction: number;
  fraction_text: string;
  volume_l: number;
  volume_text: string;
  source_name: string;
  /** New water may go in as it comes from the tap. */
  as_it_comes: boolean;
  new_water_c: { low: number; aim: number; high: number };
  must_stand: boolean;
  stand_hours: number;
  thiosulfate_text: string | null;
  chlorine_known: boolean;
  refill_minutes: number;
  vacuum: boolean;
  /** What hands do, in order. */
  steps: string[];
  effects: { key: string; name: string; unit_text: string; before_text: string; after_text: string }[];
}

export interface WaterAlternative {
  key: "programme" | "usual" | "none";
  title: string;
  sentence: string;
  /** Of passing any limit within the weeks looked at. */
  broken_probability: number;
  broken_text: string;
  total_text: string;
  by_limit: { key: string; name: string; probability: number; text: string }[];
  first: { name: string; probability: number; early_day: Day; mid_day: Day } | null;
  changes: PlannedChange[];
  series: {
    key: string;
    name: string;
    unit_text: string;
    limit_low: number | null;
    limit_high: number | null;
    days: (Spread & { day: Day; text: string })[];
  }[];
}

/** The programme of water changes, beside the usual change and none. */
export type WaterPlan =
  | { state: "none"; sentence: string }
  | {
      state: "ready";
      sentence: string;
      /** It keeps the limits with the wanted chance; and is better than no change. */
      reached: boolean;
      helps: boolean;
      /** Ammonia or pH was read too long ago, or never. */
      stale: boolean;
      animals: boolean;
      today: Day;
      last: Day;
      wanted_probability: number;
      rests_on: string;
      cap_text: string | null;
      alternatives: WaterAlternative[];
      limits: { key: string; sentence: string; source: string }[];
      source: { key: string; name: string; unknown: string[] };
      evaporation: { rests_on: string };
      notes: string[];
      cautions: string[];
      assumed: string[];
    };

/** A change somebody thinks of. Nothing is kept. */
export interface WaterTrial {
  fraction?: number;
  volume_l?: number;
  source?: string;
  new_water_c?: number;
  vacuum: boolean;
  stood: boolean;
  dechlorinated: boolean;
}

export interface TriedWater {
  sentence: string;
  /** What speaks against it, worst first. */
  warnings: string[];
  notes: string[];
  last: Day;
  change: PlannedChange;
  rows: {
    key: string;
    name: string;
    unit_text: string;
    before_text: string;
    after_text: string;
    next_day_text: string | null;
  }[];
  broken_text: string;
  without_broken_text: string;
}

export type LoadLimit = "oxygen" | "ammonia" | "space";

/** How many animals a limit lets the tank carry; null where it says nothing. */
export type Carried = { animals: Spread; text: string; over_probability: number } | null;

/** One day, or one size of animal. */
export interface LoadRow {
  day: Day | null;
  day_text: string | null;
  stage_text: string;
  animals_text: string;
  each_text: string;
  mass_text: string;
  oxygen: Carried;
  ammonia: Carried;
  space: Carried;
  binding: LoadLimit;
  binding_text: string;
  /** More animals are expected than the binding limit probably lets carry. */
  over: boolean;
}

/** How many animals this tank can carry, by oxygen, ammonia and room. */
export interface LoadingView {
  state: "nothing_planned" | "to_come" | "in_tank" | "released";
  sentence: string;
  animals: number;
  animals_assumed: boolean;
  reached: {
    day: Day;
    limit: LoadLimit;
    carried: number;
    expected: number;
    worst_day: Day;
    carried_then: number;
  } | null;
  by_changes_alone_text: string | null;
  first_possible: Day | null;
  release_from: Day | null;
  release_until: Day | null;
  oxygen: { air: "on_record" | "read" | "assumed"; sentence: string | null; records: RecordId[] };
  /** working: the filter's outlook is on its way; what it carries is told once it is there. */
  filter: { known: boolean; doubted: boolean; working: boolean };
  /** What is left when pump and air stop. */
  reserve: {
    what: string;
    limit_mg_o2_per_l: number;
    text: string;
    soonest_h: number | null;
    likely_h: number | null;
    latest_h: number | null;
  }[];
  shown: LoadRow[];
  days: {
    day: Day;
    animals: number;
    binding: LoadLimit;
    oxygen: Spread | null;
    ammonia: Spread | null;
    space: Spread | null;
  }[];
  sizes: LoadRow[];
  options: { kind: string; text: string }[];
  assumed: string[];
}

/** Food for one day. */
export interface Ration {
  day: Day;
  planned_g: number;
  wanted_g: number;
  most_g: number;
  /** Portions a day. */
  feedings: number;
  least_feedings: number;
  grain: string;
  text: string;
  texts: string[];
}

/** Food: how much, what it does to the water, who feeds while the school is closed, how the fish grow. */
export interface FeedView {
  sentence: string;
  detail: string;
  /** none: nothing to feed, or its dates are not known. */
  stage: "none" | "waiting" | "near" | "pinch" | "routine";
  /** How much of the ration may be given today, and why not all of it. */
  hold: { food: "all" | "half" | "none"; texts: string[] };
  start: {
    mid: Day;
    window50: Window;
    window90: Window;
    since: Day | null;
    first_weeks: boolean;
    texts: string[];
  } | null;
  today: Ration | null;
  tomorrow: Ration | null;
  fed_today_g: number | null;
  /** What tomorrow's ration does to the water. */
  cost: {
    ammonia_mg_n_per_l_per_day: Spread;
    capacity_mg_n_per_l_per_day: Spread | null;
    carried_probability: number | null;
    carried_text: string;
    texts: string[];
  } | null;
  growth: {
    now_g: Spread;
    begun: Day;
    days: { day: Day; low_g: number; mid_g: number; high_g: number }[];
    models: { key: string; name: string; weight: number; source: string }[];
    samples: { day: Day; mean_g: number; record_id: RecordId; text: string }[];
    texts: string[];
  } | null;
  /** The filter's outlook is on its way. */
  filter_working: boolean;
  break_risk: { probability: number; probability_text: string; name: string; texts: string[] } | null;
  overfed: { texts: string[] } | null;
  sample: { due: Day; text: string } | null;
  spoon_known: boolean;
  gaps: FeedGap[];
  assumed: string[];
  sources: string[];
}

/** Closed days on which the fry must eat. */
export interface FeedGap {
  from: Day;
  to: Day;
  name: string;
  covered: boolean;
  days: { day: Day; text: string; on_duty: string[] }[];
  text: string;
  do: string[];
  do_not: string[];
  water_text: string;
}

/** The brood in numbers. */
export interface CountsView {
  sentence: string;
  rests_on: string;
  received_on: Day | null;
  received: number;
  released: number;
  dead: { eggs: number; alevins: number; fry: number; all: number };
  /** null: no eggs were received. */
  alive: TextedSpread | null;
  losses: {
    state: "no_animals" | "not_known" | "as_expected" | "more_than_expected";
    tone: Tone;
    sentence: string;
    looked_on: Day | null;
    false_alarm_text: string;
    /** When more than expected: the first day they may have died. */
    since: Day | null;
    died: number;
    record_ids: RecordId[];
    /** What to look at, in this order. */
    checks: Reason[];
    /** What was done or happened shortly before, newest first. */
    changes: Reason[];
    then: string[];
    looks: LossLook[];
  };
  stages: StageSurvival[];
  counted: (TextedSpread & { day: Day; sentence: string }) | null;
  curve: { day: Day; from: Day; at_risk: number; died: number; survival_fraction: TextedSpread }[];
  curve_caption: string;
  counts: {
    day: Day;
    day_text: string;
    what: "alive" | "hatched";
    text: string;
    expected_text: string;
    fit: "fits" | "fewer" | "more";
    record_ids: RecordId[];
  }[];
  /** What does not add up. */
  findings: Reason[];
  sources: string[];
}

/** What was found at one look, and what was to be expected since the look before. */
export interface LossLook {
  from: Day;
  day: Day;
  died: number;
  expected: number;
  signals: boolean;
  text: string;
}

export interface StageSurvival {
  key: "egg" | "alevin" | "fry" | "whole";
  name: string;
  died: number;
  finished: boolean;
  survival_fraction: TextedSpread;
  typical_low_fraction: number;
  typical_high_fraction: number;
  verdict: "below" | "cannot_tell" | "not_below" | "not_looked";
  verdict_text: string;
  source: string;
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
  /** null: kept on this device, not yet with the server. */
  id: RecordId | null;
  record?: HistoryEntry;
  /** Its key while it waits. */
  waiting?: string;
}

export interface Problem {
  code: string;
  field: string;
  sentence: string;
}
