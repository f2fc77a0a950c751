// The temperature plan of the day looked at, and what somebody tries in its place. Nothing tried is kept by the server.
import { getPlan, tryPlan } from "../api";
import type { DayView, NamedPlan, PlanRow, PlanTrial, PlanView, Problem } from "../contract";
import { t } from "../messages";
import { stepsOf, type MovedDay, type Step } from "../plan_steps";
import { app } from "./app.svelte";
import { newestWins } from "./newest";

class PlanState {
  /** The day whose plan stands here; another one is being asked for while it differs from the day looked at. */
  day: DayView | null = $state.raw(null);
  view: PlanView | null = $state.raw(null);
  problems: Problem[] = $state.raw([]);
  /** Which of the plans is on the line. */
  chosen = $state("best");
  /** What is tried; null: the chosen plan as it is. */
  trial: PlanTrial | null = $state.raw(null);
  /** The last answer to a trial that can be followed. */
  tried: PlanRow | null = $state.raw(null);
  /** Why what is tried now cannot be followed. */
  refusals: string[] = $state.raw([]);
}

export const plan = new PlanState();

let request = 0;

/** Asks for the plan of a day; what was tried on another day is let go. */
export async function loadPlan(day: DayView): Promise<void> {
  const own = ++request;
  const outcome = await getPlan(app.asOf);
  if (own !== request) return;
  putBack();
  plan.day = day;
  plan.view = outcome.ok ? withoutTwin(outcome.value.plan) : null;
  plan.problems = outcome.ok ? [] : outcome.problems;
  if (plan.view && !chosenOf(plan.view)?.possible)
    plan.chosen = plan.view.plans.find((one) => one.possible)?.key ?? "best";
}

/** Where the best plan has the fewest changes as well, one of the two stands for both. */
export function withoutTwin(view: PlanView): PlanView {
  const find = (key: string) => view.plans.find((one) => one.key === key && one.possible);
  const [best, calmest] = [find("best"), find("calmest")];
  if (!best || !calmest || JSON.stringify(stepsOf(best)) !== JSON.stringify(stepsOf(calmest))) return view;
  const plans = view.plans.flatMap((one) =>
    one === calmest ? [] : [one === best ? { ...one, name: t.season.bestAndCalmest } : one],
  );
  return { ...view, plans };
}

export function chosenOf(view: PlanView): NamedPlan | null {
  return view.plans.find((one) => one.key === plan.chosen) ?? view.plans[0] ?? null;
}

/** The steps that stand on the line: those being tried, else the chosen plan's. */
export function stepsNow(): Step[] {
  if (plan.trial?.changes) return plan.trial.changes;
  const row = plan.tried ?? (plan.view ? chosenOf(plan.view) : null);
  return row ? stepsOf(row) : [];
}

const tries = newestWins(
  (trial: PlanTrial) => tryPlan(trial, app.asOf),
  (outcome) => {
    if (!outcome.ok) {
      plan.refusals = outcome.problems.map((problem) => problem.sentence);
      return;
    }
    const row = outcome.value.plan;
    plan.refusals = row.possible ? [] : row.obstacles.map((obstacle) => obstacle.sentence);
    if (row.possible) plan.tried = row;
  },
);

export function tryThis(trial: PlanTrial): void {
  plan.trial = trial;
  tries.ask(trial);
}

export function trySteps(steps: Step[]): void {
  tryThis({ ...plan.trial, changes: steps });
}

/** Another day; the temperatures are searched for anew, or, given, carried along. */
export function tryDay(which: MovedDay, day: string, steps?: Step[]): void {
  const { changes: _, ...days } = plan.trial ?? {};
  tryThis({ ...days, [which]: day, ...(steps ? { changes: steps } : {}) });
}

export function putBack(): void {
  tries.forget();
  plan.trial = null;
  plan.tried = null;
  plan.refusals = [];
}

export function choose(key: string): void {
  putBack();
  plan.chosen = key;
}
