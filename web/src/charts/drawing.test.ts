import { describe, expect, it } from "vitest";
import { rangeText, runsOf, thin, unitsAcross } from "./drawing";

describe("drawing", () => {
  it("keeps gaps as gaps and kinds apart", () => {
    const day = (day: string, kind: string) => ({ day, kind });
    const runs = runsOf([
      day("2031-01-01", "measured"),
      day("2031-01-02", "measured"),
      day("2031-01-05", "measured"),
      day("2031-01-06", "planned"),
    ]);
    expect(runs.map((run) => run.length)).toEqual([2, 1, 1]);
    expect(runsOf([])).toEqual([]);
  });

  it("writes one figure for a range of one", () => {
    expect(rangeText(0.1, 0.25)).toBe("0.1 to 0.25");
    expect(rangeText(7, 7)).toBe("7");
  });

  it("never closes an open range", () => {
    expect(rangeText(4.8, null)).toBe("above 4.8");
  });

  it("has fewer units where the page's letters are larger, never more", () => {
    const { style } = document.documentElement;
    const across = (size: string) => {
      style.fontSize = size;
      return [unitsAcross(500), unitsAcross(0, 0.5)];
    };
    expect(across("16px")).toEqual([500, 320]);
    expect(across("18px")).toEqual([500, 320]);
    expect(across("20.5px")).toEqual([400, 256]);
    expect(across("12px")).toEqual([500, 320]);
    style.fontSize = "";
  });

  it("thins marks", () => {
    expect(thin([1, 2, 3, 4, 5], 3)).toEqual([1, 3, 5]);
    expect(thin([1, 2], 5)).toEqual([1, 2]);
  });
});
