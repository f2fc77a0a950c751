// Calendar days as text (YYYY-MM-DD) for drawing and stepping, and wall-clock times of the school's zone. Nothing here
// asks what time it is.
import type { Day, Instant } from "./contract";
import { reader } from "./state/reader.svelte";

const dayMs = 86_400_000;

/** Whole days since 1970-01-01. */
export function dayNumber(day: Day): number {
  return Math.round(Date.parse(`${day.slice(0, 10)}T00:00:00Z`) / dayMs);
}

export function dayOfNumber(number: number): Day {
  return new Date(number * dayMs).toISOString().slice(0, 10);
}

export function shiftDay(day: Day, days: number): Day {
  return dayOfNumber(dayNumber(day) + days);
}

/** To make one takes a millisecond, and a screen asks a hundred times. */
const formats = new Map<string, Intl.DateTimeFormat>();
function formatOf(locale: string, options: Intl.DateTimeFormatOptions): Intl.DateTimeFormat {
  const key = JSON.stringify([locale, options]);
  const format = formats.get(key) ?? new Intl.DateTimeFormat(locale, options);
  formats.set(key, format);
  return format;
}

/** Of a day in words, for the reader of the moment. */
function words(options: Intl.DateTimeFormatOptions): (day: Day) => string {
  const inUtc = { ...options, timeZone: "UTC" };
  return (day) => {
    const format = formatOf(reader.language === "es" ? "es" : "en-GB", inUtc);
    // As the server writes days: no comma after the weekday.
    return format.format(new Date(`${day}T00:00:00Z`)).replace(",", "");
  };
}

export const shortDay = words({ day: "numeric", month: "short" });
export const longDay = words({ weekday: "long", day: "numeric", month: "long", year: "numeric" });
export const weekdayAndDay = words({ weekday: "short", day: "numeric", month: "short" });
export const monthAndYear = words({ month: "long", year: "numeric" });
export const monthName = words({ month: "short" });

/** The first days of the months inside [from, to], for axis marks. */
export function monthStarts(from: Day, to: Day): Day[] {
  const starts: Day[] = [];
  let year = Number(from.slice(0, 4));
  let month = Number(from.slice(5, 7));
  for (;;) {
    const day = `${String(year).padStart(4, "0")}-${String(month).padStart(2, "0")}-01`;
    if (day > to) return starts;
    if (day >= from) starts.push(day);
    month += 1;
    if (month > 12) {
      month = 1;
      year += 1;
    }
  }
}

/** What a clock in that zone shows at an instant, as YYYY-MM-DDTHH:MM (the form's own format). */
export function wallClock(at: Instant | Date, timeZone: string): string {
  const parts = formatOf("en-GB", {
    timeZone,
    hourCycle: "h23",
    year: "numeric",
    month: "2-digit",
    day: "2-digit",
    hour: "2-digit",
    minute: "2-digit",
  }).formatToParts(new Date(at));
  const part = (type: string) => parts.find((p) => p.type === type)?.value ?? "";
  return `${part("year").padStart(4, "0")}-${part("month")}-${part("day")}T${part("hour")}:${part("minute")}`;
}

/**
 * The instant at which a clock in that zone shows this time. Where the clock goes back and the time happens twice,
 * the first one; where it goes forward and skips the time, the moment of the skip plus what was skipped.
 */
export function instantOfWallClock(local: string, timeZone: string): Instant | null {
  const guess = /^\d{4}-\d\d-\d\dT\d\d:\d\d$/.test(local) ? Date.parse(`${local}:00Z`) : Number.NaN;
  if (Number.isNaN(guess)) return null;
  const offsetAt = (ms: number) => Date.parse(`${wallClock(new Date(ms), timeZone)}:00Z`) - ms;
  const candidates = [guess - offsetAt(guess - dayMs), guess - offsetAt(guess + dayMs)];
  const exact = candidates.filter((ms) => wallClock(new Date(ms), timeZone) === local);
  const chosen = exact.length > 0 ? Math.min(...exact) : Math.max(...candidates);
  return new Date(chosen).toISOString().replace(".000Z", "Z");
}
