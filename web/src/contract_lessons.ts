// The lessons, as /api/lessons gives them: see LessonsView in docs/openapi.json.
import type { Day, RecordId } from "./contract";

export interface Scored {
  loss: number;
  points: number;
  points_text: string;
}
export interface GuessShown extends Scored {
  team: string;
  low: number | null;
  high: number | null;
  /** One a step, sum one; empty for a range. */
  shares: number[];
  text: string;
}
export interface GuessQuestion {
  key: string;
  text: string;
  form: "chips" | "range";
  unit: string;
  /** A temperature for a reader of °F: typed in °F, sent and kept in °C. */
  typed_in_f: boolean;
  steps: { value: number; text: string; colour: string | null; swatch: string | null }[];
  /** Only whole numbers make sense. */
  whole: boolean;
  opened_on: Day;
  due: Day;
  due_text: string;
}
export interface OpenQuestion extends GuessQuestion {
  closes_text: string;
  costs_text: string;
  teams_in: string[];
}
export interface SettledQuestion extends GuessQuestion {
  day: Day;
  day_text: string;
  outcome: { text: string; low: number | null; high: number | null; weights: number[]; record_ids: RecordId[] };
  guesses: GuessShown[];
  class: GuessShown;
  model: Omit<GuessShown, "team"> & { rests_on: string; whole_text: string };
}
export interface Standing {
  team: string;
  questions: number;
  mean_points: number;
  points_text: string;
  model_points_text: string;
  ahead: number;
  skill: number;
  sentence: string;
}
export interface GameView {
  sentence: string;
  chips: number;
  open: OpenQuestion[];
  settled: SettledQuestion[];
  teams: Standing[];
  class: Standing | null;
  running: { day: Day; questions: number; class_points: number; model_points: number }[];
  meaning: string[];
  sources: string[];
}
export interface TeamSitting {
  day: Day;
  day_text: string;
  name: string;
  unit: string;
  readings: { team: string; text: string; value: number; record_id: RecordId }[];
  count: number;
  mean: number;
  standard_deviation: number;
  standard_error: number;
  lowest: number;
  highest: number;
  step: number;
  says: string[];
}
export interface LessonGraph {
  key: string;
  title: string;
  unit: string;
  summary: string;
  traces: {
    key: string;
    name: string;
    days: Day[];
    mid: number[];
    low: number[] | null;
    high: number[] | null;
    step: boolean;
  }[];
  marks: { day: Day; low: number; mid: number; high: number; text: string }[];
  questions: { kind: "see" | "ask" | "check"; question: string; answer: string }[];
}
export interface LessonTask {
  key: string;
  title: string;
  text: string;
  label_head: string;
  value_head: string;
  rows: { label: string; value: string }[];
  lines: number;
  answer: string;
  working: string;
}
export interface LessonSheet {
  /** Shared by a sheet and its answers. */
  stamp: string;
  tasks: LessonTask[];
  left_out: string[];
}
export type Level = "younger" | "older";
export interface LessonsView {
  today: Day;
  today_text: string;
  game: GameView;
  replicates: {
    sentence: string;
    sittings: TeamSitting[];
    repeatability: { method: "colour_steps" | "drop_count"; sittings: number; readings: number; sentence: string }[];
  };
  graphs: LessonGraph[];
  sheets: { number: number; most: number } & Record<Level, LessonSheet>;
}
export interface NewGuess {
  question: string;
  team: string;
  low?: number;
  high?: number;
  chips?: number[];
  entry_key: string;
}
