// What the season's line works out before it is drawn: its rows, how far it reaches, and which temperatures it shows.
import type { Day, DayView, Milestone, PlanRow, PlanTrial, PlanView, Window } from "../contract";
import { dayNumber, shiftDay } from "../days";
import type { MovedDay } from "../plan_steps";

export interface SeasonRow {
  key: string;
  kind: "stage" | "eggs" | "release";
  seen: Day | null;
  mid: Day | null;
  window50: Window | null;
  window90: Window | null;
  /** Of the plan before something was moved. */
  before: Window | null;
  /** The day under the handle, where there is one. */
  handle: { which: MovedDay; day: Day } | null;
  name: string;
}

export interface PlanOnLine {
  view: PlanView;
  /** What is drawn: the plan that was tried, else the chosen one. */
  row: PlanRow;
  /** The chosen plan while something else is tried. */
  before: PlanRow | null;
  trial: PlanTrial | null;
  /** What is tried breaks a limit: the line shows it, the windows are those of the last that did not. */
  refused?: boolean;
}

const movable: Record<string, MovedDay> = { hatch: "hatch", swim_up: "swim_up" };

function stageRow(milestone: Milestone, plan: PlanOnLine | null): SeasonRow {
  const find = (row: PlanRow | null | undefined) =>
    row?.milestones.find((one) => one.key === milestone.key && !one.happened) ?? null;
  const ahead = milestone.observed_day || milestone.state === "happened" ? null : find(plan?.row);
  const which = ahead ? movable[milestone.key] : undefined;
  return {
    key: milestone.key,
    kind: "stage",
    name: milestone.name,
    seen: milestone.observed_day,
    mid: ahead?.mid ?? milestone.mid,
    window50: ahead?.window50 ?? milestone.window50,
    window90: ahead?.window90 ?? milestone.window90,
    before: ahead ? (find(plan?.before)?.window50 ?? null) : null,
    handle: ahead && which ? { which, day: plan?.trial?.[which] ?? ahead.mid } : null,
  };
}

/** The rows under the temperature, top down: eggs, the stages, the permit's time for a release. */
export function rowsOf(
  milestones: readonly Milestone[],
  eggDay: Day | null,
  plan: PlanOnLine | null,
  words: { eggs: string; release: string },
): SeasonRow[] {
  const empty = { seen: null, mid: null, window50: null, window90: null, before: null, handle: null };
  const rows: SeasonRow[] = [];
  const eggs = plan?.trial?.egg_day ?? plan?.view.egg_day ?? eggDay;
  if (eggs) {
    const fixed = !plan || plan.view.eggs_in_tank;
    rows.push({
      ...empty,
      key: "eggs",
      kind: "eggs",
      name: words.eggs,
      mid: eggs,
      handle: fixed ? null : { which: "egg_day", day: eggs },
    });
  }
  const known = new Set(milestones.map((one) => one.key));
  const more = (plan?.row.milestones ?? [])
    .filter((one) => !known.has(one.key) && !one.happened)
    .map((one): Milestone => ({
      key: one.key,
      name: one.name,
      state: "expected",
      observed_day: null,
      mid: one.mid,
      window50: one.window50,
      window90: one.window90,
      text: one.text,
      note: "",
    }));
  rows.push(...[...milestones, ...more].map((one) => stageRow(one, plan)));
  const release = plan?.view.release;
  if (release && (release.from || release.until)) {
    const until = plan.trial?.release_until ?? release.until;
    const window = { from: release.from ?? until ?? "", to: until ?? release.from ?? "" };
    rows.push({
      ...empty,
      key: "release",
      kind: "release",
      name: words.release,
      window50: window,
      before: plan.trial?.release_until && release.until ? { from: window.from, to: release.until } : null,
      handle: until ? { which: "release_until", day: until } : null,
    });
  }
  return rows;
}

/** The last day drawn: a little after the last thing that is known to come. */
export function lastDrawn(season: DayView["season_line"], today: Day, view: PlanView | null, row: PlanRow | null): Day {
  if (!view || !row) return season.to;
  const windows = row.milestones.filter((one) => !one.happened).map((one) => shiftDay(one.window90.to, 14));
  const ends = [shiftDay(today, 28), view.release.until ? shiftDay(view.release.until, 14) : "", ...windows];
  const last = ends.reduce((a, b) => (b > a ? b : a));
  const planned = view.to && view.to > season.to ? view.to : season.to;
  return last < planned ? last : planned;
}

/** Closed days from `from` to `to`, weekends only where a day is wide enough to be seen. */
export function closedDrawn(view: PlanView, from: Day, to: Day, dayWidth: number) {
  return view.closed
    .filter((run) => run.to >= from && run.from <= to && (!run.weekend || dayWidth >= 4))
    .map((run) => ({ ...run, from: run.from < from ? from : run.from, to: run.to > to ? to : run.to }))
    .map((run) => ({ ...run, days: dayNumber(run.to) - dayNumber(run.from) + 1 }));
}
