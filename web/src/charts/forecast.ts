// What the drawings of the filter's outlook work out before they draw: rows of the columns, and how high to draw.
import type { Day, FilterChart, WaterQuantity } from "../contract";

export interface BandRow {
  day: Day;
  low90: number | null;
  low50: number | null;
  mid: number | null;
  high50: number | null;
  high90: number | null;
}

export function rowsOf(chart: FilterChart): BandRow[] {
  return chart.days.map((day, index) => ({
    day,
    low90: chart.low_90[index] ?? null,
    low50: chart.low_50[index] ?? null,
    mid: chart.mid[index] ?? null,
    high50: chart.high_50[index] ?? null,
    high90: chart.high_90[index] ?? null,
  }));
}

const numbers = (values: (number | null | undefined)[]) =>
  values.filter((value): value is number => typeof value === "number" && Number.isFinite(value));

/**
 * The span of values to draw. It always holds the middle, the even chance, the readings' middles and the nearest limit;
 * the rest only as far as it leaves those readable. `cut` says that something reaches beyond.
 */
export function spanOf(
  rows: readonly BandRow[],
  series: WaterQuantity["series"],
  limits: FilterChart["limits"],
  fromNought: boolean,
): { low: number; high: number; cut: boolean } {
  const core = numbers([
    ...rows.flatMap((row) => [row.low50, row.mid, row.high50]),
    ...series.map((reading) => (reading.high === null ? reading.low : reading.mid)),
  ]);
  const all = numbers([
    ...core,
    ...rows.flatMap((row) => [row.low90, row.high90]),
    ...series.flatMap((reading) => [reading.low, reading.high]),
  ]);
  const marks = limits.map((limit) => limit.value);
  if (core.length === 0) core.push(...numbers([Math.min(...marks)]));
  if (core.length === 0) return { low: 0, high: 1, cut: false };
  const least = Math.min(...core);
  const most = Math.max(...core);
  if (fromNought) {
    const nearest = Math.min(...marks.filter((mark) => mark > 0));
    // Where nothing was read the nearest limit alone gives the scale.
    const near = series.length === 0 ? nearest : Math.min(nearest, most * 6 || nearest);
    const needed = Math.max(most, Number.isFinite(near) ? near : 0) || 1;
    const widest = Math.max(needed, ...all);
    const high = Math.min(widest, needed * 2.5);
    return { low: 0, high: high * 1.06, cut: widest > high };
  }
  const reach = Math.max(0.5, 1.5 * (most - least));
  const low = Math.max(Math.min(least, ...all), least - reach);
  const high = Math.min(Math.max(most, ...all), most + reach);
  const room = Math.max(0.1, 0.06 * (high - low));
  return { low: low - room, high: high + room, cut: Math.min(...all) < low || Math.max(...all) > high };
}

/** "mg/L as NO₂⁻" and "mg/L as NO2" are one unit; pH has none. */
export function sameUnit(one: string, other: string): boolean {
  const plain = (unit: string) =>
    unit
      .normalize("NFKC")
      .replace(/[\u2212+-]+$/, "")
      .trim();
  return plain(one) === plain(other) || [one, other].every((unit) => unit === "" || unit === "pH");
}

/** The newest reading where all of it lies outside the 9-in-10 band of its day: then the bands are not to be trusted. */
export function outsideReading(
  rows: readonly BandRow[],
  series: WaterQuantity["series"],
  dayOf: (at: string) => Day,
): WaterQuantity["series"][number] | null {
  const newest = series.at(-1);
  const row = newest && rows.find((one) => one.day === dayOf(newest.at));
  if (!newest || !row) return null;
  const above = row.high90 !== null && newest.low > row.high90;
  const below = row.low90 !== null && newest.high !== null && newest.high < row.low90;
  return above || below ? newest : null;
}

/** Every seventh row counted from the row of now, so that now is always among them. */
export function weekly<T>(rows: readonly T[], nowIndex: number): { row: T; ahead: boolean; isNow: boolean }[] {
  return rows
    .map((row, index) => ({ row, index, ahead: index > nowIndex, isNow: index === nowIndex }))
    .filter(({ index }) => (index - nowIndex) % 7 === 0)
    .map(({ row, ahead, isNow }) => ({ row, ahead, isNow }));
}
