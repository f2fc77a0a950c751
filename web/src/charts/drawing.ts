// Shared by the charts. A drawing has as many units as its place has pixels, fewer where the page's letters are larger: so
// its own letters can be read on a phone and from the back of a class.
import type { Day } from "../contract";
import { dayNumber, dayOfNumber, monthName, monthStarts, shortDay } from "../days";
import { t } from "../messages";
import { figure } from "../units";

const widthBeforeMeasuring = 640;

/** Assumed: up to letters of this size the page is read from nearby, and a drawing shows as much as it has room for. */
const nearbyLetters_px = 18;
/** Assumed: from there on, as on a projector, a drawing's letters, which are small beside the page's, grow by a tenth for
 * each pixel, about twice as fast as the page's: more slowly, they could not be read from the back of a class. */
const growth_px = 10;

/** Units across a drawing whose place is so many pixels wide (0 before it is measured), or a part of what is usual. */
export function unitsAcross(place_px: number, part = 1): number {
  const letters_px = Number.parseFloat(getComputedStyle(document.documentElement).fontSize) || 16;
  const larger = 1 + Math.max(0, letters_px - nearbyLetters_px) / growth_px;
  return (place_px || widthBeforeMeasuring * part) / larger;
}

/** Axis marks with no more than `most` of them. */
export function thin<T>(marks: T[], most: number): T[] {
  const every = Math.max(1, Math.ceil(marks.length / Math.max(1, most)));
  return marks.filter((_, index) => index % every === 0);
}

/** Dates along an axis: months where there are several, else days. */
export function dateMarks(first: Day, last: Day, width: number): { day: Day; text: string }[] {
  const most = Math.max(2, Math.floor(width / 64));
  const months = monthStarts(first, last);
  if (months.length > 2) return thin(months, most).map((day) => ({ day, text: monthName(day) }));
  const [begin, end] = [dayNumber(first), dayNumber(last)];
  const every = Math.max(1, Math.ceil((end - begin) / most));
  const marks: { day: Day; text: string }[] = [];
  for (let number = begin; number <= end; number += every)
    marks.push({ day: dayOfNumber(number), text: shortDay(dayOfNumber(number)) });
  return marks;
}

const digits = new Intl.NumberFormat("en-GB", { maximumSignificantDigits: 3, useGrouping: false });

/** A drawn range in figures, for the table that goes with a drawing. An open end says so. */
export function rangeText(low: number, high: number | null): string {
  if (high === null) return t.water.above(figure(digits.format(low)));
  const [from, to] = [figure(digits.format(low)), figure(digits.format(high))];
  return from === to ? from : t.chart.range(from, to);
}

/** Runs of days that follow each other and are of one kind. A missing day ends a run: gaps stay gaps. */
export function runsOf<T extends { day: Day; kind: string }>(days: readonly T[]): T[][] {
  const runs: T[][] = [];
  for (const day of days) {
    const run = runs.at(-1);
    const before = run?.at(-1);
    if (run && before && before.kind === day.kind && dayNumber(day.day) - dayNumber(before.day) <= 1) run.push(day);
    else runs.push([day]);
  }
  return runs;
}
