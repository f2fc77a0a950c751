// The history as it is shown: by the day on which things happened, newest first, so that each day has one heading.
import type { Day, HistoryEntry } from "./contract";
import { wallClock } from "./days";

export interface HistoryDay {
  text: string;
  entries: HistoryEntry[];
}

/** Within a day the latest first; what happened at one moment stands in the order in which it was written down. */
export function byDay(entries: readonly HistoryEntry[]): HistoryDay[] {
  const sorted = [...entries].sort((a, b) => Date.parse(b.at) - Date.parse(a.at) || b.id - a.id);
  const days: HistoryDay[] = [];
  for (const entry of sorted) {
    const last = days.at(-1);
    if (last?.text === entry.day_text) last.entries.push(entry);
    else days.push({ text: entry.day_text, entries: [entry] });
  }
  return days;
}

/** The day on which an entry was written down, where that is another day than the one it is about. */
export function writtenDownOn(entry: HistoryEntry, timeZone: string): Day | null {
  const [happened, written] = [entry.at, entry.logged_at].map((at) => wallClock(at, timeZone).slice(0, 10));
  return written === undefined || written === happened ? null : written;
}
