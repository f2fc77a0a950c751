// Asks the server that serves this page, or the core inside it (transport.ts), and nobody else. Every call ends in a value or in problems in plain
// words; nothing is thrown, so that a form never loses what was typed.
import type { Expected } from "./bench/plan";
import type {
  CalendarPreview,
  CountsView,
  DayView,
  EmergencyList,
  FeedView,
  FilterView,
  HeatView,
  History,
  Kit,
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
import type { Audit, BenchCode, Classroom, ClassroomAccess, NewBenchCode, SignIn } from "./contract_classroom";
import type { MadeCopies, SeasonFile, TakenIn } from "./contract_copies";
import type { LessonsView, NewGuess } from "./contract_lessons";
import type { NextYear } from "./contract_next_year";
import type { SeasonReport, SittingOrder } from "./contract_print";
import type { WhatIfAnswer, WhatIfBase, WhatIfSliders } from "./contract_whatif";
import { t } from "./messages";
import { readerParameters } from "./state/reader.svelte";
import type { SentAlarm, Thermometer } from "./contract_thermometer";
import type { TablePreview, TableSettings } from "./contract_table";
import { transport, type Reply } from "./transport";

export type Outcome<T> = { ok: true; value: T } | { ok: false; problems: Problem[] };

let heard: (answered: boolean) => void = () => undefined;
/** Tells after every question whether the server answered at all. */
export function whenAnswered(listener: (answered: boolean) => void): void {
  heard = listener;
}

let signedOut: () => void = () => undefined;
/** Tells whenever the server wants to know first who asks. */
export function whenSignedOut(listener: () => void): void {
  signedOut = listener;
}

function problem(code: string, sentence: string): Outcome<never> {
  return { ok: false, problems: [{ code, field: "", sentence }] };
}

const ask = <T>(path: string, body?: unknown) => askText<T>(path, body === undefined ? null : JSON.stringify(body));

async function askText<T>(
  path: string,
  body: string | null,
  hear: (text: string) => void = () => undefined,
): Promise<Outcome<T>> {
  let reply: Reply;
  try {
    reply = await transport.send(path, body);
  } catch {
    heard(false);
    return problem("no_connection", t.errors.noConnection);
  }
  heard(true);
  let answer: unknown;
  try {
    answer = JSON.parse(reply.text);
    hear(reply.text);
  } catch {
    return problem("not_json", t.errors.notUnderstood(reply.status));
  }
  if (reply.status >= 200 && reply.status < 300) return { ok: true, value: answer as T };
  const problems = (answer as { problems?: Problem[] } | null)?.problems;
  if (reply.status === 401 && problems?.some((one) => one.code === "not_signed_in")) signedOut();
  return problems?.length ? { ok: false, problems } : problem("refused", t.errors.notUnderstood(reply.status));
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
/** The kits of the season, as people wrote them, and those to start from, as they are kept. */
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

/** `sheet`: the number of the worksheets. */
export const getLessons = (sheet: number, asOf: string | null) =>
  ask<{ lessons: LessonsView }>(pathOf("/api/lessons", { as_of: asOf, sheet }));
export const addGuess = (guess: NewGuess, asOf: string | null) =>
  ask<{ id: RecordId }>(pathOf("/api/lessons/guess", { as_of: asOf }), guess);

export const getFeed = (asOf: string | null) => ask<{ feed: FeedView }>(pathOf("/api/feed", { as_of: asOf }));

export const getLoading = (asOf: string | null) =>
  ask<{ loading: LoadingView }>(pathOf("/api/loading", { as_of: asOf }));

export const getWaterPlan = (asOf: string | null) =>
  ask<{ water_plan: WaterPlan }>(pathOf("/api/water-plan", { as_of: asOf }));
export const tryWater = (trial: WaterTrial, asOf: string | null) =>
  ask<{ tried: TriedWater }>(pathOf("/api/water/try", { as_of: asOf }), trial);

export const getWhatIfBase = (asOf: string | null) =>
  ask<{ what_if_base: WhatIfBase }>(pathOf("/api/what-if", { as_of: asOf }));
export const tryWhatIf = (sliders: WhatIfSliders, asOf: string | null) =>
  ask<{ what_if: WhatIfAnswer }>(pathOf("/api/what-if", { as_of: asOf }), { sliders });

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

/** The live thermometer; nobody waits for it. */
export const getThermometer = () => ask<{ thermometer: Thermometer }>("/api/thermometer");
export const quietThermometer = () => ask<{ thermometer: Thermometer }>("/api/thermometer/quiet", {});
export const tryThermometer = () => ask<{ sent: SentAlarm[] }>("/api/thermometer/try", {});

/** What a table would bring. `settings`: what the keeper says of it. */
export const previewTable = (text: string, settings: TableSettings, asOf: string | null) =>
  ask<{ preview: TablePreview }>(pathOf("/api/table/preview", { as_of: asOf }), { text, settings });
export const keepTable = (
  text: string,
  settings: TableSettings,
  author: string,
  keepGoodRows: boolean,
  asOf: string | null,
) =>
  ask<{ added: number; known: number }>(pathOf("/api/table", { as_of: asOf }), {
    text,
    settings,
    author,
    confirmed: true,
    keep_good_rows: keepGoodRows,
  });

/** The core's answer about a sitting of tests, where the page's own core cannot run. */
export const askBenchServer = <T>(question: object) => ask<T>("/api/bench", question);
export const getReport = (asOf: string | null) => ask<{ report: SeasonReport }>(pathOf("/api/report", { as_of: asOf }));
export const getNextYear = (asOf: string | null) =>
  ask<{ next_year: NextYear }>(pathOf("/api/next-year", { as_of: asOf }));

/** The order of a sitting with this kit by one pair of hands; what was read last says which of two cards comes first. */
export const askBench = (kit: Kit, last_read: Expected[]) =>
  askBenchServer<{ bench_schedule: SittingOrder }>({ bench_schedule: { kit, last_read } });
/** The whole season as the text of one file, and the number of its newest record. */
export async function exportSeason(): Promise<Outcome<{ text: string; newest: number }>> {
  let text = "";
  const outcome = await askText<SeasonFile>("/api/export", null, (said) => (text = said));
  if (!outcome.ok) return outcome;
  const records = outcome.value.resources.find(({ name }) => name === "records");
  return { ok: true, value: { text, newest: records?.data.length ?? 0 } };
}
/** The water tests as one long table (CSV). */
export const waterQualityTable = (asOf: string | null) => pathOf("/api/water-quality.csv", { as_of: asOf });
/** Takes a saved season in. */
export const getCopies = () => ask<MadeCopies>("/api/copies");
export const makeCopy = () => ask<MadeCopies>("/api/copies", {});
export const importSeason = (text: string) => askText<TakenIn>("/api/import", text);

/** An answer that is text and no JSON, such as a calendar. */
export async function getText(path: string): Promise<Outcome<string>> {
  const reply = await transport.send(path, null).catch(() => null);
  if (reply?.status === 200) return { ok: true, value: reply.text };
  return reply
    ? problem("refused", t.errors.notUnderstood(reply.status))
    : problem("no_connection", t.errors.noConnection);
}

export const getClassroom = () => ask<Classroom>("/api/classroom");
export const signIn = (as: SignIn) => ask<Classroom>("/api/classroom/sign-in", as);
export const signOut = () => ask<Classroom>("/api/classroom/sign-out", {});
export const getAccess = () => ask<ClassroomAccess>("/api/classroom/access");
export const makeCode = (wanted: NewBenchCode) => ask<BenchCode>("/api/classroom/codes", wanted);
export const endCode = (id: number) => ask<ClassroomAccess>(`/api/classroom/codes/${id}/end`, {});
export const endSession = (id: number) => ask<ClassroomAccess>(`/api/classroom/sessions/${id}/end`, {});
export const endAll = () => ask<ClassroomAccess>("/api/classroom/end-all", {});
export const getAudit = (before: number | null) => ask<Audit>(pathOf("/api/audit", { before }));
