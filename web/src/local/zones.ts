// Time zones as lists of offset changes, out of the browser's own calendar: the core reads no zone files.
// The days are those the server takes (src/zones/zones.h): from a year before the season's first day to three years after.

export interface ZoneTable {
  name: string;
  changes: { from: string; offset_seconds: number }[];
}

const dayMs = 86_400_000;

/** Seconds that local time is ahead of UTC. */
function offsetReader(zone: string): (at: number) => number {
  const format = new Intl.DateTimeFormat("en-US", {
    timeZone: zone,
    calendar: "gregory",
    numberingSystem: "latn",
    hourCycle: "h23",
    year: "numeric",
    month: "numeric",
    day: "numeric",
    hour: "numeric",
    minute: "numeric",
    second: "numeric",
  });
  return (at) => {
    const part = Object.fromEntries(format.formatToParts(at).map(({ type, value }) => [type, Number(value)])) as Record<
      "year" | "month" | "day" | "hour" | "minute" | "second",
      number
    >;
    return (Date.UTC(part.year, part.month - 1, part.day, part.hour, part.minute, part.second) - at) / 1000;
  };
}

const instant = (at: number) => new Date(at).toISOString().replace(/\.\d+Z$/, "Z");

/** Null for a name that the browser does not know. */
export function zoneTable(name: string, firstDay: string): ZoneTable | null {
  const first = Date.parse(`${firstDay}T00:00:00Z`);
  if (Number.isNaN(first)) return null;
  let offset: (at: number) => number;
  try {
    offset = offsetReader(name);
  } catch {
    return null;
  }
  const begin = first - 368 * dayMs;
  const end = first + (3 * 366 + 3) * dayMs;
  const changes = [{ from: instant(begin), offset_seconds: offset(begin) }];
  for (let day = begin, now = offset(begin); day < end; day += dayMs) {
    const next = offset(day + dayMs);
    if (next === now) continue;
    let before = day;
    let after = day + dayMs;
    while (after - before > 1000) {
      const middle = before + Math.floor((after - before) / 2000) * 1000;
      if (offset(middle) === now) before = middle;
      else after = middle;
    }
    changes.push({ from: instant(after), offset_seconds: next });
    now = next;
  }
  return { name, changes };
}

/** Tables for every season set-up found anywhere in these values. A fixed offset such as UTC-07:00 needs none. */
export function zonesIn(values: unknown): ZoneTable[] {
  const tables = new Map<string, ZoneTable>();
  const walk = (value: unknown): void => {
    if (Array.isArray(value)) return value.forEach(walk);
    if (value === null || typeof value !== "object") return;
    const { time_zone: name, first_day: first } = value as Record<string, unknown>;
    if (typeof name === "string" && typeof first === "string") {
      const table = zoneTable(name, first);
      if (table) tables.set(name, table);
    }
    Object.values(value).forEach(walk);
  };
  walk(values);
  return [...tables.values()];
}
