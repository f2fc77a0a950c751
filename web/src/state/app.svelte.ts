// The page's one state: where we are, which day we look at, and what the server said. Views read `app`; only the
// functions below change it.
import { addRecord, getDay, getKits, getSeason, undoRecord, type Outcome } from "../api";
import type { Day, DayView, Kits, NewRecord, Problem, RecordId, Saved, SeasonState } from "../contract";
import { routeOf, type Route } from "../routes";

interface AppState {
  route: Route;
  season: SeasonState | null;
  day: DayView | null;
  kits: Kits | null;
  /** The day looked at in a demo ("what was known then"); null means the server's own now. */
  asOf: Day | null;
  busy: boolean;
  problems: Problem[];
  announcement: string;
}

export const app: AppState = $state({
  route: { name: "today", rest: [] },
  season: null,
  day: null,
  kits: null,
  asOf: null,
  busy: false,
  problems: [],
  announcement: "",
});

/** Says a sentence to people who listen to the page. A repeated sentence is said again. */
export function announce(sentence: string): void {
  app.announcement = app.announcement === sentence ? `${sentence}\u00a0` : sentence;
}

let latestRequest = 0;

/** Asks for the day again; an answer that was overtaken by a later question is dropped. */
export async function refreshDay(): Promise<void> {
  const request = ++latestRequest;
  app.busy = true;
  const outcome = await getDay(app.asOf);
  if (request !== latestRequest) return;
  app.busy = false;
  if (outcome.ok) {
    app.day = outcome.value;
    app.problems = [];
  } else {
    app.problems = outcome.problems;
  }
}

export async function refreshKits(): Promise<void> {
  const outcome = await getKits(app.asOf);
  if (outcome.ok) app.kits = outcome.value;
  else app.problems = outcome.problems;
}

export async function start(): Promise<void> {
  app.route = routeOf(location.hash);
  const outcome = await getSeason();
  if (!outcome.ok) {
    app.problems = outcome.problems;
    return;
  }
  app.season = outcome.value;
  app.problems = [];
  if (outcome.value.state === "empty") {
    app.route = { name: "setup", rest: [] };
    await refreshKits();
    return;
  }
  if (outcome.value.story) app.asOf ??= outcome.value.story.today;
  await Promise.all([refreshDay(), refreshKits()]);
}

export function followAddress(): void {
  app.route = app.season?.state === "empty" ? { name: "setup", rest: [] } : routeOf(location.hash);
}

export async function lookAt(day: Day): Promise<void> {
  app.asOf = day;
  await refreshDay();
}

/** Adds a record; once the server has it, the day is asked for again. */
export async function save(record: NewRecord): Promise<Outcome<Saved>> {
  const outcome = await addRecord(record, app.asOf);
  if (outcome.ok) await Promise.all([refreshDay(), record.kind === "kit" ? refreshKits() : null]);
  return outcome;
}

export async function undo(id: RecordId, author: string): Promise<Outcome<Saved>> {
  const outcome = await undoRecord(id, author, app.asOf);
  if (outcome.ok) await Promise.all([refreshDay(), refreshKits()]);
  return outcome;
}
