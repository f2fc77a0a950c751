import { describe, expect, it } from "vitest";
import { dayNumber, instantOfWallClock, monthStarts, shiftDay, wallClock } from "./days";

describe("calendar days", () => {
  it("steps over a leap day and a year's end", () => {
    expect(shiftDay("2032-02-28", 1)).toBe("2032-02-29");
    expect(shiftDay("2031-02-28", 1)).toBe("2031-03-01");
    expect(shiftDay("2030-12-31", 1)).toBe("2031-01-01");
    expect(dayNumber("1970-01-02")).toBe(1);
  });

  it("lists the months of a season", () => {
    expect(monthStarts("2030-11-15", "2031-02-01")).toEqual(["2030-12-01", "2031-01-01", "2031-02-01"]);
  });
});

// Denver is UTC-7 in winter and UTC-6 in summer. From the rule in force (second Sunday of March, first of November)
// the clocks of 2025 change on 9 March and 2 November at 2:00 (Energy Policy Act of 2005, section 110).
describe("wall clock of the school", () => {
  const zone = "America/Denver";
  it.each([
    ["2025-01-15T07:50", "2025-01-15T14:50:00Z"],
    ["2025-07-15T07:50", "2025-07-15T13:50:00Z"],
    ["2025-11-02T01:30", "2025-11-02T07:30:00Z"], // happens twice: the first
    ["2025-03-09T02:30", "2025-03-09T09:30:00Z"], // never happens: half an hour after the skip
  ])("%s is %s", (local, instant) => {
    expect(instantOfWallClock(local, zone)).toBe(instant);
  });

  it("comes back to the same wall clock", () => {
    for (const local of ["2025-03-09T01:59", "2025-03-09T03:00", "2025-11-02T00:59", "2025-11-02T02:00"]) {
      const instant = instantOfWallClock(local, zone);
      expect(instant).not.toBeNull();
      expect(wallClock(instant ?? "", zone)).toBe(local);
    }
  });

  it("refuses what is no time", () => {
    expect(instantOfWallClock("", zone)).toBeNull();
  });
});
