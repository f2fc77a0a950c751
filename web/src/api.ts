// Talks to the server that serves this page, and to nothing else. Every call ends in a value or in problems in plain
// words; nothing is thrown, so that a form never loses what was typed.
import type {
  CalendarPreview,
  CountsView,
  DayView,
  EmergencyList,
  FeedView,
  FilterView,
  HeatView,
  History,
  Kits,
  LoadingView,
  NewRecord,
  PlanRow,
  PlanTrial,
  PlanView,
  Problem,
  RecordId,
  Saved,
  SeasonState,
  TriedWater,
  WallView,
  WaterPlan,
  WaterTrial,
} from "./contract";
import { t } from "./messages";
import { readerHeaders, readerParameters } from "./state/reader.svelte";

export type Outcome<T> = { ok: true; value: T } | { ok: false; problems: Problem[] };

const patience_ms = 15_000;

function problem(code: string, sentence: string): Outcome<never> {
  return { ok: false, problems: [{ code, field: "", sentence }] };
}

async function ask<T>(path: string, body?: unknown): Promise<Outcome<T>> {
  let response: Response;
  try {
    response = await fetch(path, {
      method: body === undefined ? "GET" : "POST",
      headers: { ...readerHeaders(), ...(body === undefined ? {} : { "content-type": "application/json" }) },
      body: body === undefined ? null : JSON.stringify(body),
      signal: AbortSignal.timeout(patience_ms),
      cache: "no-store",
    });
  } catch {
    return problem("no_connection", t.errors.noConnection);
  }
  let answer: unknown;
  try {
    answer = await response.json();
  } catch {
    return problem("not_json", t.errors.notUnderstood(response.status));
  }
  if (response.ok) return { ok: true, value: answer as T };
  const problems = (answer as { problems?: Problem[] } | null)?.problems;
  return problems?.length ? { ok: false, problems } : problem("refused", t.errors.notUnderstood(response.status));
}

/** A path with the parameters that are set. */
function pathOf(path: string, parameters: Record<string, string | number | null>): string {
  const query = new URLSearchParams();
  for (const [key, value] of Object.entries(parameters)) if (value !== null) query.set(key, String(value));
  const text = query.toString();
  return text ? `${path}?${text}` : path;
}

export const getSeason = () => ask<SeasonState>("/api/season");
export const getDay = (asOf: string | null) => ask<DayView>(pathOf("/api/day", { as_of: asOf }));
export const getKits = (asOf: string | null) => ask<Kits>(pathOf("/api/kits", { as_of: asOf }));
export const getHistory = (asOf: string | null, beforeId: RecordId | null, limit = 60) =>
  ask<History>(pathOf("/api/history", { as_of: asOf, before_id: beforeId, limit }));
export const addRecord = (record: NewRecord, asOf: string | null) =>
  ask<Saved>(pathOf("/api/records", { as_of: asOf }), record);
export const undoRecord = (id: RecordId, author: string, asOf: string | null) =>
  ask<Saved>(pathOf(`/api/records/${id}/undo`, { as_of: asOf }), { author });

interface FilterAnswer {
  filter: FilterView;
}
export const getFilter = (asOf: string | null) => ask<FilterAnswer>(pathOf("/api/filter", { as_of: asOf }));
export const cancelFilter = (asOf: string | null) =>
  ask<FilterAnswer>(pathOf("/api/filter/cancel", { as_of: asOf }), {});
export const startFilter = (asOf: string | null) => ask<FilterAnswer>(pathOf("/api/filter/start", { as_of: asOf }), {});

export const getPlan = (asOf: string | null) => ask<{ plan: PlanView }>(pathOf("/api/plan", { as_of: asOf }));
export const tryPlan = (trial: PlanTrial, asOf: string | null) =>
  ask<{ plan: PlanRow }>(pathOf("/api/plan/try", { as_of: asOf }), trial);

/** Where a calendar program fetches the plan from. */
export const planCalendar = (asOf: string | null) => pathOf("/api/plan.ics", { as_of: asOf, ...readerParameters() });

export const getEmergencies = (asOf: string | null) =>
  ask<{ emergencies: EmergencyList }>(pathOf("/api/emergency", { as_of: asOf }));

/** What is asked "what if"; null: as it is. */
export interface HeatIf {
  target_c: number | null;
  room_c: number | null;
  humidity_percent: number | null;
}
export const getHeat = (what: HeatIf, asOf: string | null) =>
  ask<{ heat: HeatView }>(pathOf("/api/heat", { as_of: asOf, ...what }));

export const getCounts = (asOf: string | null) => ask<{ counts: CountsView }>(pathOf("/api/counts", { as_of: asOf }));

export const getFeed = (asOf: string | null) => ask<{ feed: FeedView }>(pathOf("/api/feed", { as_of: asOf }));

export const getLoading = (asOf: string | null) =>
  ask<{ loading: LoadingView }>(pathOf("/api/loading", { as_of: asOf }));

export const getWaterPlan = (asOf: string | null) =>
  ask<{ water_plan: WaterPlan }>(pathOf("/api/water-plan", { as_of: asOf }));
export const tryWater = (trial: WaterTrial, asOf: string | null) =>
  ask<{ tried: TriedWater }>(pathOf("/api/water/try", { as_of: asOf }), trial);

export const getWall = (asOf: string | null) => ask<{ wall: WallView }>(pathOf("/api/wall", { as_of: asOf }));

/** `all`: every whole-day event, not only those that sound like a closed school. */
export const previewCalendar = (text: string, all: boolean, asOf: string | null) =>
  ask<{ preview: CalendarPreview }>(pathOf("/api/calendar/preview", { as_of: asOf }), { text, all });
export const keepCalendar = (text: string, all: boolean, author: string, asOf: string | null) =>
  ask<{ added: number }>(pathOf("/api/calendar", { as_of: asOf }), {
    text,
    all,
    author,
    confirmed: true,
    keep_good_rows: true,
  });
