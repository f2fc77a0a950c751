// The page's one state: where we are, which day we look at, and what the server said. Views read `app`; only the
// functions below change it.
import { addRecord, getDay, getKits, getSeason, undoRecord, type Outcome } from "../api";
import type { Day, DayView, Kits, NewRecord, Problem, RecordId, Saved, SeasonState } from "../contract";
import { inReadersWords } from "../forms/kit_draft";
import { keep, kept, newEntryKey } from "../keep";
import { routeOf, type Route } from "../routes";
import { classroom, fromElsewhere, lookWhoIsHere } from "./classroom.svelte";
import { connection, keepHere, seasonOf, send } from "./connection.svelte";
import { beginAnew, goesOnWith } from "./first_run.svelte";

/** What the server said is replaced, never changed in place: a proxy around each part of a day takes longer than to show it. */
class AppState {
  route: Route = $state.raw({ name: "today", rest: [] });
  season: SeasonState | null = $state.raw(null);
  day: DayView | null = $state.raw(null);
  kits: Kits | null = $state.raw(null);
  /** The day looked at ("what was known then"); null means the server's own now. In a season of one's own only the
   * filter's view looks back, and leaving it ends that. */
  asOf: Day | null = $state(null);
  /** The day that was the server's own now. */
  newestDay: Day | null = $state(null);
  /** The last day whose filter's outlook was worked out: shown while a newer one is in the making. */
  worked: DayView | null = $state.raw(null);
  busy = $state(false);
  problems: Problem[] = $state.raw([]);
  announcement = $state("");
}

export const app = new AppState();

/** A day in which only the filter's part changes by itself, while it is being worked out. */
function watched(day: DayView): DayView {
  let filter = $state.raw(day.filter);
  return {
    ...day,
    get filter() {
      return filter;
    },
    set filter(now) {
      filter = now;
    },
  };
}

/** Says a sentence to people who listen to the page. A repeated sentence is said again. */
export function announce(sentence: string): void {
  app.announcement = app.announcement === sentence ? `${sentence}\u00a0` : sentence;
}

let latestRequest = 0;

/** What the page last knew, to open with when the server does not answer. */
interface LastKnown {
  season: SeasonState;
  day: DayView;
  kits: Kits;
  asOf: Day | null;
}

let keeping: ReturnType<typeof setTimeout> | undefined;

/** A day looked back at is not what stands now. Written once the screen stands, as that takes a while. */
function keepLastKnown(): void {
  const { season, day, kits, asOf } = app;
  if (!season || !day || !kits || (asOf !== null && !season.story)) return;
  clearTimeout(keeping);
  keeping = setTimeout(() => keep("last", { season, day, kits, asOf } satisfies LastKnown), 50);
}

function openLastKnown(): boolean {
  const last = kept<LastKnown>("last");
  if (!last?.day || !last.kits) return false;
  Object.assign(app, last, {
    day: watched(last.day),
    newestDay: last.asOf === null ? last.day.today : null,
    problems: [],
  });
  return true;
}

/** Asks for the day again; an answer that was overtaken by a later question is dropped. `quiet`: without a connection the
 * day stays as it was, and only the note on the connection says so. Gives whether the day is the server's answer to this. */
export async function refreshDay(quiet = false, asked = app.asOf): Promise<boolean> {
  const request = ++latestRequest;
  app.busy = true;
  const outcome = await getDay(asked);
  if (request !== latestRequest) return false;
  app.busy = false;
  if (outcome.ok) {
    app.day = watched(outcome.value);
    if (app.asOf === null) app.newestDay = outcome.value.today;
    if (outcome.value.filter?.state === "ready") app.worked = app.day;
    app.problems = [];
    if (app.asOf === null) connection.clockAhead_ms = Date.now() - Date.parse(outcome.value.now);
    keepLastKnown();
  } else if (!(quiet && connection.lost && app.day)) {
    app.problems = outcome.problems;
  }
  return outcome.ok;
}

export async function refreshKits(asked = app.asOf): Promise<void> {
  const outcome = await getKits(asked);
  if (outcome.ok) app.kits = { ...outcome.value, templates: outcome.value.templates.map(inReadersWords) };
  else if (!(connection.lost && app.kits)) app.problems = outcome.problems;
}

/** A screen that stands already is not begun anew. */
function followHash(): void {
  const route = routeOf(location.hash);
  if (JSON.stringify(route) !== JSON.stringify(app.route)) app.route = route;
}

export async function start(): Promise<void> {
  followHash();
  const [outcome] = await Promise.all([getSeason(), fromElsewhere() ? lookWhoIsHere() : null]);
  if (classroom.asksIn) return;
  if (!outcome.ok) {
    if (!(connection.lost && (app.day || openLastKnown()))) app.problems = outcome.problems;
    return;
  }
  app.season = outcome.value;
  app.problems = [];
  if (outcome.value.state === "empty") {
    app.route = setUpRoute();
    beginAnew();
    await refreshKits();
    return;
  }
  // Where a story opens the server knows by itself: that question is on its way already.
  const asked = app.asOf;
  if (outcome.value.story) app.asOf ??= outcome.value.story.today;
  const [fresh] = await Promise.all([refreshDay(false, asked), refreshKits(asked)]);
  keepLastKnown();
  // Only to the season that the server has just shown.
  if (fresh) await deliver();
  // A set-up that broke off half-way goes on where it was.
  if (app.route.name === "today" && location.hash.length < 3 && goesOnWith(app.day?.season.name ?? ""))
    app.route = { name: "setup", rest: [] };
}

/** Without a season every address leads to the set-up; its own screens are kept apart. */
function setUpRoute(): Route {
  const asked = routeOf(location.hash);
  return asked.name === "setup" ? asked : { name: "setup", rest: [] };
}

/** As after loading, when another season has taken the place of the one that was shown. */
export async function startAnew(): Promise<void> {
  Object.assign(app, { season: null, day: null, kits: null, asOf: null, newestDay: null, worked: null, problems: [] });
  await start();
  window.scrollTo(0, 0);
}

export async function followAddress(): Promise<void> {
  app.route = app.season?.state === "empty" ? setUpRoute() : routeOf(location.hash);
  if (app.season?.story || app.asOf === null || (app.route.name === "water" && app.route.rest.length === 0)) return;
  // Nobody may take an old day for today, nor log into it: nothing is shown until today is here.
  app.asOf = null;
  app.day = null;
  await refreshDay();
}

export async function lookAt(day: Day): Promise<void> {
  app.asOf = day;
  await refreshDay();
}

/** Looks back in a season of one's own (null: back to now). A day that cannot be shown leaves all as it was. */
export async function lookBack(day: Day | null): Promise<Problem[]> {
  const before = app.asOf;
  app.asOf = day === app.newestDay ? null : day;
  await refreshDay();
  const problems = app.problems;
  if (problems.length > 0) {
    app.asOf = before;
    app.problems = [];
  }
  return problems;
}

/** Records are written at the story's day in a demo, else at the server's own now, whatever day is looked at. */
export const writtenAt = () => (app.season?.story ? app.asOf : null);

/** Adds a record; once the server has it, the day is asked for again. Without a connection it is kept on this device. */
export async function save(record: NewRecord): Promise<Outcome<Saved>> {
  const season = seasonOf(app.day);
  const asOf = writtenAt();
  const keyed = { ...record, entry_key: record.entry_key ?? newEntryKey() };
  // Who answers after a silence may hold another season: that is asked first.
  if (season && connection.lost) {
    await reconnect();
    if (connection.lost || seasonOf(app.day) !== season) {
      const kept = keepHere(keyed, asOf, season);
      if (kept) return kept;
    }
  }
  const outcome = season ? await send(keyed, asOf, season) : await addRecord(keyed, asOf);
  if (outcome.ok && outcome.value.id !== null)
    await Promise.all([refreshDay(true), record.kind === "kit" ? refreshKits() : null]);
  return outcome;
}

/** Sends what waits on this device, and shows what is true afterwards. */
async function deliver(): Promise<void> {
  const season = seasonOf(app.day);
  if (season && (await connection.sync(season))) await Promise.all([refreshDay(true), refreshKits()]);
}

let reconnecting: Promise<void> | null = null;

/** Asks whether the server is back, and which season it holds; then everything goes on by itself. One at a time. */
export function reconnect(): Promise<void> {
  reconnecting ??= start().finally(() => (reconnecting = null));
  return reconnecting;
}

export async function undo(id: RecordId, author: string): Promise<Outcome<Saved>> {
  const outcome = await undoRecord(id, author, writtenAt());
  if (outcome.ok) await Promise.all([refreshDay(true), refreshKits()]);
  return outcome;
}
