// What a chart over days works out before it draws: its columns as rows of one day, how high to draw, which rows a table
// shows. A missing value stays a gap.
import type { Day, WaterQuantity } from "../contract";
import { dayNumber } from "../days";
import { shownIn } from "../units";

/** One line over days, in the chart's unit. */
export interface Trace {
  key: string;
  name: string;
  days: Day[];
  mid: (number | null)[];
  low?: (number | null)[];
  high?: (number | null)[];
  /** As it is until the next day that has a value, not on the way between them. */
  step?: boolean;
  /** A range to lie within, drawn without a middle. */
  backdrop?: boolean;
}

/** Something measured. */
export interface Mark {
  day: Day;
  low: number;
  mid: number;
  high: number;
  text: string;
}

export interface ChartLimit {
  key: string;
  value: number;
  name: string;
}

export interface TraceRow {
  day: Day;
  low: number | null;
  mid: number | null;
  high: number | null;
}

/** The same in the unit of the drawing. */
export function drawnIn(
  of: (value: number) => number,
  traces: readonly Trace[],
  marks: readonly Mark[],
  limits: readonly ChartLimit[],
): { traces: Trace[]; marks: Mark[]; limits: ChartLimit[] } {
  const all = (values: (number | null)[]) => values.map((value) => (value === null ? null : of(value)));
  return {
    traces: traces.map((one) => ({
      ...one,
      mid: all(one.mid),
      ...(one.low ? { low: all(one.low) } : {}),
      ...(one.high ? { high: all(one.high) } : {}),
    })),
    marks: marks.map((one) => ({ ...one, low: of(one.low), mid: of(one.mid), high: of(one.high) })),
    limits: limits.map((one) => ({ ...one, value: of(one.value) })),
  };
}

/** The numbers of a quantity of the water in the unit of the drawing. Its texts are the server's, in that unit already. */
export function waterShown(water: WaterQuantity): WaterQuantity {
  const { of } = shownIn(water.unit_text);
  const range = <T extends { low: number; mid: number; high: number | null }>(one: T): T => ({
    ...one,
    low: of(one.low),
    mid: of(one.mid),
    high: one.high === null ? null : of(one.high),
  });
  return {
    ...water,
    latest: water.latest && range(water.latest),
    series: water.series.map(range),
    limits: water.limits.map((limit) => ({ ...limit, value: of(limit.value) })),
    axis: { min: of(water.axis.min), max: of(water.axis.max) },
    baseline: water.baseline && {
      ...water.baseline,
      mean: of(water.baseline.mean),
      lower: of(water.baseline.lower),
      upper: of(water.baseline.upper),
    },
  };
}

export function rowsOfTrace(trace: Trace): TraceRow[] {
  return trace.days.map((day, index) => ({
    day,
    low: trace.low?.[index] ?? null,
    mid: trace.mid[index] ?? null,
    high: trace.high?.[index] ?? null,
  }));
}

const isNumber = (value: number | null | undefined): value is number =>
  typeof value === "number" && Number.isFinite(value);

/**
 * The values to draw between. All middles, marks and backdrops fit; bands and the nearest limit fit as far as the middles stay
 * readable, never above `ceiling`. `cut`: a band or a line reaches beyond; limits say so by themselves.
 */
export function heightOf(
  traces: readonly Trace[],
  marks: readonly Mark[],
  limits: readonly ChartLimit[],
  fromNought: boolean,
  ceiling = Number.POSITIVE_INFINITY,
): { low: number; high: number; cut: boolean } {
  const core = [
    ...traces.flatMap((trace) => (trace.backdrop ? [...(trace.low ?? []), ...(trace.high ?? [])] : trace.mid)),
    ...marks.map((mark) => mark.mid),
  ].filter(isNumber);
  const wide = [
    ...core,
    ...traces.flatMap((trace) => [...(trace.low ?? []), ...(trace.high ?? [])]),
    ...marks.flatMap((mark) => [mark.low, mark.high]),
  ].filter(isNumber);
  const lines = limits.map((limit) => limit.value);
  if (wide.length === 0) return { low: 0, high: Math.max(1, ...lines), cut: false };
  const least = Math.min(...(core.length > 0 ? core : wide));
  const most = Math.max(...(core.length > 0 ? core : wide));
  if (fromNought) {
    const nearest = Math.min(...lines.filter((line) => line >= most));
    const needed = Math.max(most, Number.isFinite(nearest) && nearest <= most * 4 ? nearest : 0) || 1;
    const high = Math.min(Math.max(needed, ...wide), needed * 1.8, ceiling);
    return { low: 0, high: high * 1.06, cut: Math.max(...wide) > high * 1.06 };
  }
  const reach = Math.max((most - least) * 1.2, Math.abs(most) * 0.03, 1e-6);
  const near = lines.filter((line) => line >= least - reach && line <= most + reach);
  const low = Math.max(Math.min(...wide, ...near), least - reach);
  const high = Math.min(Math.max(...wide, ...near), most + reach);
  const room = 0.06 * (high - low || 1);
  return {
    low: low - room,
    high: high + room,
    cut: Math.min(...wide) < low || Math.max(...wide) > high,
  };
}

/** The days of all traces, each once, no more than about `most` of them; the first, the last and `now` always. */
export function tableDays(traces: readonly Trace[], now: Day | null, most = 30): Day[] {
  const all = [...new Set(traces.flatMap((trace) => trace.days))].sort();
  const every = Math.max(1, Math.ceil(all.length / most));
  return all.filter((day, index) => index % every === 0 || index === all.length - 1 || day === now);
}

/** A trace on a day: as it is there, or, of a step, as it was last. */
export function at(trace: Trace, day: Day): TraceRow | null {
  const rows = rowsOfTrace(trace);
  const exact = rows.find((row) => row.day === day);
  if (exact || !trace.step) return exact ?? null;
  return rows.findLast((row) => dayNumber(row.day) <= dayNumber(day)) ?? null;
}
