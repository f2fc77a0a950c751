import { describe, expect, it } from "vitest";
import type { HistoryEntry } from "./contract";
import { firstEntries } from "./fixtures/invented_server";
import { byDay, writtenDownOn } from "./history_days";

const [one] = firstEntries();
if (!one) throw new Error("no invented entries");
const entry = (id: number, at: string, dayText: string, loggedAt = at): HistoryEntry => ({
  ...one,
  id,
  at,
  day_text: dayText,
  logged_at: loggedAt,
});

describe("the history by day", () => {
  it("shows each day once, newest first, however late an entry was written down", () => {
    const days = byDay([
      entry(5, "2031-01-28T15:00:00Z", "Tuesday", "2031-01-30T16:00:00Z"),
      entry(4, "2031-01-30T15:00:00Z", "Thursday"),
      entry(3, "2031-01-28T18:00:00Z", "Tuesday"),
      entry(2, "2031-01-30T15:00:00Z", "Thursday"),
    ]);
    expect(days.map((day) => [day.text, ...day.entries.map((each) => each.id)])).toEqual([
      ["Thursday", 4, 2],
      ["Tuesday", 3, 5],
    ]);
  });

  it("names the day of writing only where it is another day at the school", () => {
    const late = entry(5, "2031-01-28T15:00:00Z", "Tuesday", "2031-01-30T16:00:00Z");
    expect(writtenDownOn(late, "America/Denver")).toBe("2031-01-30");
    const evening = entry(6, "2031-01-28T22:00:00Z", "Tuesday", "2031-01-29T03:00:00Z");
    expect(writtenDownOn(evening, "America/Denver")).toBeNull();
    expect(writtenDownOn(evening, "Europe/Berlin")).toBe("2031-01-29");
  });
});
