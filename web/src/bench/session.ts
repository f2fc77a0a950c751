// A sitting of tests under way, as plain data: what is done, what is counted and read, and when, in wall-clock instants, so
// that a reload, a locked screen or a night's sleep of the device loses nothing. advance() is the only way it changes; it is
// pure, and whoever calls it keeps the result at once (keeping.ts). No chemistry here: order and times come from the core.
import type { Kit, KitTest } from "../contract";
import type { BenchPlan, BenchQuestion, Expected, HandOver, PlanStep, ReadValue } from "./plan";

/** Milliseconds since 1970, as the device's clock has it. */
export type Ms = number;

/** A turn at the vials with the moments it is meant for. */
export interface Turn {
  test: string;
  /** 0 or 1: which pair of hands. */
  lane: number;
  steps: PlanStep[];
  startsAt: Ms;
  readBy: Ms | null;
  waitS: number | null;
  waitText: string;
  stripOf: string | null;
}

export interface ActiveTurn extends Turn {
  /** Which of `steps` the hands are at. */
  part: number;
  /** When the timer of this step was started; null: not yet, or it has none. */
  timerAt: Ms | null;
}

/** How far a test has come. */
export interface Standing {
  stepsDone: number;
  endedAt: Ms;
  /** When the wait after it is over. */
  waitsUntil: Ms | null;
}

/** What a team read; "none": it could not. */
export type TeamValue = ({ none: false } & ReadValue & { at: Ms; savedAs: number | null }) | { none: true };

export interface Session {
  version: 1;
  /** Shared by the readings of this sitting. */
  id: string;
  kit: Kit;
  hands: 1 | 2;
  /** Labels; one empty label where nobody is named. */
  teams: string[];
  expected: Expected[];
  /** Every test chosen, those of a hand-over among them. */
  chosen: string[];
  /** Tests of this sitting, without those left for later or left out. */
  tests: string[];
  later: HandOver[];
  leftOut: string[];
  startedAt: Ms;
  turns: Turn[];
  active: (ActiveTurn | null)[];
  standing: Record<string, Standing>;
  /** When each drop fell, by dropKey(). */
  drops: Record<string, Ms[]>;
  /** By test, one entry a team. */
  values: Record<string, (TeamValue | null)[]>;
  /** Counts what changed the order; an answer to an older question is not taken. */
  revision: number;
  plannedRevision: number;
  /** Why there is no better order, in the core's words. */
  obstacle: string;
  phase: "running" | "check";
}

export type BenchEvent =
  | { do: "planned"; plan: BenchPlan; revision: number; at: Ms }
  | { do: "not_planned"; sentence: string; revision: number }
  | { do: "begin"; lane: number; at: Ms }
  | { do: "step_done"; lane: number; at: Ms }
  | { do: "step_back"; lane: number; at: Ms }
  | { do: "timer"; lane: number; at: Ms }
  | { do: "drop"; key: string; at: Ms }
  | { do: "undo_drop"; key: string }
  | { do: "read"; test: string; team: number; value: ReadValue | null; at: Ms }
  | { do: "unread"; test: string; team: number }
  | { do: "begin_again"; test: string; at: Ms }
  | { do: "leave_out"; test: string }
  | { do: "now_due"; tests: string[] }
  | { do: "check" }
  | { do: "go_on" }
  | { do: "saved"; test: string; team: number; id: number };

export const dropKey = (test: string, step: number, team: number) => `${test}/${step}/${team}`;

export const testOf = (session: Session, key: string): KitTest | undefined =>
  session.kit.tests.find((one) => one.key === key);

/** The moments of a plan, which counts seconds from `at`. Not before the wait of a turn is really over. */
function turnsOf(plan: BenchPlan, at: Ms): Turn[] {
  return plan.turns.map((turn) => ({
    test: turn.test,
    lane: turn.hands - 1,
    steps: turn.steps,
    startsAt: at + turn.starts_s * 1000,
    readBy: turn.read_by_s === undefined ? null : at + turn.read_by_s * 1000,
    waitS: turn.waits_until_s === undefined ? null : turn.waits_until_s - turn.ends_s,
    waitText: turn.wait_step?.text ?? "",
    stripOf: turn.strip_of ?? null,
  }));
}

export interface Beginning {
  id: string;
  kit: Kit;
  hands: 1 | 2;
  teams: string[];
  expected: Expected[];
  chosen: string[];
  plan: BenchPlan;
  at: Ms;
}

export function begin({ id, kit, hands, teams, expected, chosen, plan, at }: Beginning): Session {
  const waiting = new Set(plan.later.map((rule) => rule.then));
  return {
    version: 1,
    id,
    kit,
    hands,
    teams: teams.length > 0 ? teams : [""],
    expected,
    chosen,
    tests: chosen.filter((test) => !waiting.has(test)),
    later: plan.later,
    leftOut: [],
    startedAt: at,
    turns: turnsOf(plan, at),
    active: Array.from({ length: hands }, () => null),
    standing: {},
    drops: {},
    values: {},
    revision: 0,
    plannedRevision: 0,
    obstacle: "",
    phase: "running",
  };
}

/** Where the value of a test is entered: at the drops that are counted until the colour turns, else at the reading. */
export function isEntry(test: KitTest | undefined, turn: Turn, step: PlanStep | undefined): boolean {
  if (!test || !step) return false;
  const counts = (one: PlanStep) => one.do === "drops" && one.count === undefined && !one.assumed;
  if (test.method === "drop_count" && turn.steps.some(counts)) return counts(step);
  return step.do === "read";
}

export function valuesOf(session: Session, test: string): (TeamValue | null)[] {
  const given = session.values[test] ?? [];
  return session.teams.map((_, team) => given[team] ?? null);
}

export const allIn = (session: Session, test: string) => valuesOf(session, test).every((value) => value !== null);

/** The team that is to enter its value next, or -1. */
export const nextTeam = (session: Session, test: string) => valuesOf(session, test).indexOf(null);

/** When the next turn of these hands may begin. */
function opensAt(session: Session, turn: Turn): Ms {
  return Math.max(turn.startsAt, session.standing[turn.test]?.waitsUntil ?? 0);
}

const firstOf = (session: Session, lane: number) => session.turns.find((turn) => turn.lane === lane) ?? null;

/** What these hands are at: a turn under way, or one whose time has come. */
export function atHand(session: Session, lane: number, now: Ms): ActiveTurn | null {
  const under = session.active[lane];
  if (under) return under;
  const next = firstOf(session, lane);
  return next && opensAt(session, next) <= now ? { ...next, part: 0, timerAt: null } : null;
}

/** What these hands do next, and from when; null: nothing is left for them. */
export function comesNext(session: Session, lane: number): { turn: Turn; at: Ms } | null {
  const next = firstOf(session, lane);
  return next ? { turn: next, at: opensAt(session, next) } : null;
}

/** Waits that run, soonest first. */
export function runningWaits(session: Session, now: Ms): { test: string; until: Ms }[] {
  return Object.entries(session.standing)
    .filter(([test, one]) => one.waitsUntil !== null && one.waitsUntil > now && session.tests.includes(test))
    .map(([test, one]) => ({ test, until: one.waitsUntil ?? now }))
    .sort((a, b) => a.until - b.until);
}

/** A colour that can't be read in time any more: it must not be entered. */
export const isTooLate = (session: Session, turn: ActiveTurn, now: Ms) =>
  turn.readBy !== null && now > turn.readBy && !allIn(session, turn.test);

const withActive = (session: Session, lane: number, turn: ActiveTurn | null): Session => ({
  ...session,
  active: session.active.map((one, index) => (index === lane ? turn : one)),
});

const changedOrder = (session: Session): Session => ({ ...session, revision: session.revision + 1 });

/** Takes a turn that is begun out of the plan. */
function taken(session: Session, lane: number, turn: ActiveTurn): Session {
  if (session.active[lane]) return withActive(session, lane, turn);
  const next = firstOf(session, lane);
  return withActive({ ...session, turns: session.turns.filter((one) => one !== next) }, lane, turn);
}

/** Checks when nothing is left to do. Before a new order is here, a test that was begun again may be missing from the turns. */
function closed(session: Session): Session {
  const open = session.plannedRevision !== session.revision && !session.tests.every((test) => allIn(session, test));
  const busy = open || session.active.some((one) => one !== null) || session.turns.length > 0;
  return busy || session.phase !== "running" ? session : { ...session, phase: "check" };
}

function turnDone(session: Session, lane: number, turn: ActiveTurn, at: Ms): Session {
  const last = turn.steps.at(-1);
  const waitsUntil = turn.waitS === null ? null : at + turn.waitS * 1000;
  const standing = { ...session.standing, [turn.test]: { stepsDone: (last?.step ?? -1) + 1, endedAt: at, waitsUntil } };
  // The dip of a strip starts the clock of its other colours.
  for (const other of session.turns)
    if (other.stripOf === turn.test && !standing[other.test] && !session.standing[turn.test])
      standing[other.test] = { stepsDone: 0, endedAt: at, waitsUntil: null };
  return closed(changedOrder(withActive({ ...session, standing }, lane, null)));
}

function stepDone(session: Session, lane: number, at: Ms): Session {
  const turn = atHand(session, lane, at);
  if (!turn || isTooLate(session, turn, at)) return session;
  if (isEntry(testOf(session, turn.test), turn, turn.steps[turn.part]) && !allIn(session, turn.test)) return session;
  const moved = { ...turn, part: turn.part + 1, timerAt: null };
  // Drops were counted in the step before: there is nothing more to read.
  const next = moved.steps[moved.part];
  if (next?.do === "read" && testOf(session, turn.test)?.method === "drop_count" && allIn(session, turn.test))
    moved.part += 1;
  const begun = taken(session, lane, moved);
  return moved.part < moved.steps.length ? begun : turnDone(begun, lane, moved, at);
}

/** These hands are at it: no new order gives it to others. */
function beginTurn(session: Session, lane: number, at: Ms): Session {
  const turn = atHand(session, lane, at);
  return turn && !session.active[lane] ? taken(session, lane, turn) : session;
}

function stepBack(session: Session, lane: number): Session {
  const turn = session.active[lane];
  return turn && turn.part > 0 ? withActive(session, lane, { ...turn, part: turn.part - 1, timerAt: null }) : session;
}

function startTimer(session: Session, lane: number, at: Ms): Session {
  const turn = atHand(session, lane, at);
  return turn ? taken(session, lane, { ...turn, timerAt: at }) : session;
}

function withValue(session: Session, test: string, team: number, value: TeamValue | null): Session {
  const given = valuesOf(session, test);
  if (team < 0 || team >= given.length) return session;
  const before = given[team];
  if (before && !before.none && before.savedAs !== null && value !== null) return session;
  given[team] = value;
  return { ...session, values: { ...session.values, [test]: given } };
}

const without = <T>(of: Record<string, T>, gone: (key: string) => boolean): Record<string, T> =>
  Object.fromEntries(Object.entries(of).filter(([key]) => !gone(key)));

/** As if the test had not been begun: what was counted on the spoilt vial says nothing. */
function forgotten(session: Session, test: string): Session {
  return changedOrder({
    ...session,
    active: session.active.map((one) => (one?.test === test ? null : one)),
    turns: session.turns.filter((one) => one.test !== test),
    standing: without(session.standing, (key) => key === test),
    drops: without(session.drops, (key) => key.startsWith(`${test}/`)),
    values: without(session.values, (key) => key === test),
  });
}

/** Whether hands were ever at this test. */
export const isBegun = (session: Session, test: string): boolean =>
  test in session.standing ||
  session.active.some((one) => one?.test === test) ||
  valuesOf(session, test).some((value) => value !== null) ||
  Object.keys(session.drops).some((key) => key.startsWith(`${test}/`));

const isSaved = (session: Session, test: string) =>
  valuesOf(session, test).some((value) => value !== null && !value.none && value.savedAs !== null);

function planned(session: Session, plan: BenchPlan, revision: number, at: Ms): Session {
  if (revision !== session.revision) return session;
  const turns = turnsOf(plan, at);
  return closed({ ...session, turns, plannedRevision: revision, obstacle: "" });
}

export function advance(session: Session, event: BenchEvent): Session {
  switch (event.do) {
    case "planned":
      return planned(session, event.plan, event.revision, event.at);
    case "not_planned":
      return event.revision === session.revision
        ? closed({ ...session, plannedRevision: event.revision, obstacle: event.sentence })
        : session;
    case "begin":
      return beginTurn(session, event.lane, event.at);
    case "step_done":
      return stepDone(session, event.lane, event.at);
    case "step_back":
      return stepBack(session, event.lane);
    case "timer":
      return startTimer(session, event.lane, event.at);
    case "drop":
      return {
        ...session,
        drops: { ...session.drops, [event.key]: [...(session.drops[event.key] ?? []), event.at] },
      };
    case "undo_drop":
      return { ...session, drops: { ...session.drops, [event.key]: (session.drops[event.key] ?? []).slice(0, -1) } };
    case "read": {
      const turn = session.active.find((one) => one?.test === event.test);
      // A colour seen too late is no reading.
      if (event.value !== null && turn && isTooLate(session, turn, event.at)) return session;
      return withValue(
        session,
        event.test,
        event.team,
        event.value === null ? { none: true } : { none: false, ...event.value, at: event.at, savedAs: null },
      );
    }
    case "unread":
      return isSaved(session, event.test) ? session : withValue(session, event.test, event.team, null);
    case "begin_again":
      if (isSaved(session, event.test) || !session.tests.includes(event.test)) return session;
      return { ...forgotten(session, event.test), phase: "running" };
    case "leave_out":
      if (isSaved(session, event.test) || !session.tests.includes(event.test)) return session;
      return closed({
        ...forgotten(session, event.test),
        tests: session.tests.filter((one) => one !== event.test),
        leftOut: [...session.leftOut, event.test],
      });
    case "now_due": {
      const due = event.tests.filter((test) => session.chosen.includes(test) && !session.tests.includes(test));
      const fresh = due.filter((test) => !session.leftOut.includes(test));
      if (fresh.length === 0) return session;
      return { ...changedOrder(session), tests: [...session.tests, ...fresh], phase: "running" };
    }
    case "check":
      return { ...session, phase: "check" };
    case "go_on":
      return { ...session, phase: "running" };
    case "saved":
      return savedAs(session, event.test, event.team, event.id);
  }
}

function savedAs(session: Session, test: string, team: number, id: number): Session {
  const given = valuesOf(session, test);
  const value = given[team];
  if (!value || value.none) return session;
  given[team] = { ...value, savedAs: id };
  return { ...session, values: { ...session.values, [test]: given } };
}

/** Longest reading of one team. Assumed as the core has it: a beginner takes 15 s, and a minute for a titration. */
export const handTimes = (teams: number): Record<string, number> =>
  teams > 1 ? { read_seconds: 15 * teams, titration_seconds: 60 * teams, whole_test_seconds: 180 + 15 * teams } : {};

/** The question for the order of what is left, counted from `now`. */
export function whatIsLeft(session: Session, now: Ms): BenchQuestion {
  const begun = new Map<string, { steps_done: number; ended_ago_s: number }>();
  for (const [test, one] of Object.entries(session.standing))
    begun.set(test, { steps_done: one.stepsDone, ended_ago_s: Math.floor((now - one.endedAt) / 1000) });
  const free = session.active.map((turn) => {
    const last = turn?.steps.at(-1);
    if (!turn || !last) return 0;
    const left = turn.steps.slice(turn.part).reduce((sum, step) => sum + step.ends_s - step.starts_s, 0);
    begun.set(turn.test, { steps_done: last.step + 1, ended_ago_s: -left });
    return Math.min(3600, left);
  });
  const clamp = (seconds: number) => Math.min(86400, Math.max(-3600, seconds));
  return {
    kit: session.kit,
    tests: session.tests,
    hands: session.hands,
    hand_times: handTimes(session.teams.length),
    state: {
      begun: [...begun]
        .filter(([test]) => session.tests.includes(test))
        .map(([test, one]) => ({ test, steps_done: one.steps_done, ended_ago_s: clamp(one.ended_ago_s) })),
      hands_free_in_s: free.map((seconds) => ({ seconds })),
    },
  };
}

/** The question whether a low or a high card is due now; null where none is left for later. */
export function whatIsDue(session: Session): BenchQuestion | null {
  if (session.later.every((rule) => session.tests.includes(rule.then) || session.leftOut.includes(rule.then)))
    return null;
  const read = session.later.flatMap((rule) =>
    (allIn(session, rule.first) ? valuesOf(session, rule.first) : []).flatMap((value) =>
      value && !value.none ? [{ test: rule.first, ...plainValue(value) }] : [],
    ),
  );
  if (read.length === 0) return null;
  return {
    kit: session.kit,
    tests: session.chosen,
    hands: session.hands,
    hand_over: true,
    last_read: session.expected,
    hand_times: handTimes(session.teams.length),
    read,
  };
}

export function plainValue(value: ReadValue): ReadValue {
  return {
    form: value.form,
    ...(value.value === undefined ? {} : { value: value.value }),
    ...(value.upper_value === undefined ? {} : { upper_value: value.upper_value }),
  };
}

/** How many values there are that nobody has saved yet. */
export const unsaved = (session: Session) =>
  session.tests
    .flatMap((test) => valuesOf(session, test))
    .filter((value) => value !== null && !value.none && value.savedAs === null).length;
