// The shapes of a sitting of tests as the core answers them (src/report/sitting_view.h, src/report/pooled_view.h), and the
// questions that are asked of it.
import { askEngine } from "../engine/engine";
import { askBenchServer, type Outcome } from "../api";
import type { Kit } from "../contract";

export interface PlanStep {
  /** Counts waits too, as the core does. */
  step: number;
  do: "fill" | "drops" | "powder" | "mix" | "wait" | "read";
  text: string;
  /** Not on the card: a beginning, a reading, or a whole test without steps. */
  assumed: boolean;
  /** Drops or spoons asked for. */
  count?: number;
  starts_s: number;
  ends_s: number;
}

export interface PlanTurn {
  test: string;
  hands: 1 | 2;
  starts_s: number;
  ends_s: number;
  steps: PlanStep[];
  waits_until_s?: number;
  wait_step?: { step: number; text: string };
  /** The test whose dip starts this one. */
  strip_of?: string;
  read_by_s?: number;
}

export interface HandOver {
  first: string;
  then: string;
  at_or_above: boolean;
  printed: number;
  sentence: string;
}

export interface BenchPlan {
  headline: string;
  lasts_s: number;
  lasts_text: string;
  one_after_another_text?: string;
  lasts_with_later_text?: string;
  turns: PlanTurn[];
  later: HandOver[];
  remarks: string[];
  safety: string[];
  /** Of `later`, what this sitting's readings have made due. */
  due?: string[];
}

export interface Expected {
  quantity: string;
  value: number;
}

export interface ReadValue {
  form: "step" | "between" | "below_first" | "above_last" | "drops" | "number";
  value?: number;
  upper_value?: number;
}

export interface BenchQuestion {
  kit: Kit;
  tests: string[];
  hands: 1 | 2;
  hand_over?: boolean;
  last_read?: Expected[];
  read?: (ReadValue & { test: string })[];
  hand_times?: Record<string, number>;
  state?: {
    begun: { test: string; steps_done: number; ended_ago_s: number }[];
    hands_free_in_s: { seconds: number }[];
  };
}

export interface Pooled {
  text: string;
  sentence: string;
  /** "" for one reading alone. */
  spread_text: string;
  disagree: boolean;
  open_above: boolean;
  unit_text: string;
  low: number;
  mid: number;
  /** null: only "at least" is known. */
  high: number | null;
  alone: { team: string; test: string; raw_text: string; low: number; mid: number; high: number | null }[];
}

const unable = new Set(["no_engine", "engine_slow", "engine_stopped"]);

/** Whether the core has been found not to run here: then it is not tried again at every step. */
let serverOnly = false;

/** The core in the page answers, and where it cannot run, the same core in the server. */
async function ask<T>(question: object): Promise<Outcome<T>> {
  if (!serverOnly) {
    const own = await askEngine<T>(question);
    if (own.ok || !own.problems.some((one) => unable.has(one.code))) return own;
    serverOnly = own.problems.some((one) => one.code === "no_engine");
  }
  return askBenchServer<T>(question);
}

export async function askPlan(question: BenchQuestion): Promise<Outcome<BenchPlan>> {
  const answer = await ask<{ bench_schedule: BenchPlan }>({ bench_schedule: question });
  return answer.ok ? { ok: true, value: answer.value.bench_schedule } : answer;
}

/** What several readings of one quantity say together; null where none of them fits its card. */
export async function askPooled(
  kit: Kit,
  readings: (ReadValue & { test: string; team?: string })[],
): Promise<Outcome<Pooled | null>> {
  const answer = await ask<{ pooled_readings: Pooled | null }>({ pooled_readings: { kit, readings } });
  return answer.ok ? { ok: true, value: answer.value.pooled_readings } : answer;
}
