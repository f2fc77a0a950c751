import { describe, expect, it } from "vitest";
import { outlook } from "../fixtures/filter";
import { outsideReading, rowsOf, sameUnit, spanOf, weekly } from "./forecast";

const row = (low90: number, low50: number, mid: number, high50: number, high90: number) => ({
  day: "2031-01-30",
  low90,
  low50,
  mid,
  high50,
  high90,
});
const reading = (low: number, mid: number, high: number | null) => ({
  at: "2031-01-30T15:00:00Z",
  low,
  mid,
  high,
  raw_text: "",
  record_id: null,
  team: "",
});

describe("what the forecast charts draw", () => {
  it("keeps a gap in a column as a gap", () => {
    const [chart] = outlook.charts;
    const rows = rowsOf({ ...chart!, mid: [1, null] });
    expect(rows.slice(0, 3).map((one) => one.mid)).toEqual([1, null, null]);
  });

  it("shows the whole of a narrow band, from nought", () => {
    const span = spanOf([row(1, 2, 3, 4, 5)], [], [], true);
    expect(span.low).toBe(0);
    expect(span.high).toBeGreaterThan(5);
    expect(span.cut).toBe(false);
  });

  it("cuts a huge doubt and says so, but never a reading's middle nor the nearest limit", () => {
    const limit = { key: "act", value: 0.5, name: "act" };
    const span = spanOf([row(0, 0.1, 0.2, 0.3, 900)], [reading(0.3, 0.6, 1e6)], [limit], true);
    expect(span.cut).toBe(true);
    expect(span.high).toBeLessThan(2);
    expect(span.high).toBeGreaterThan(0.6);
    expect(spanOf([row(0, 0.05, 0.1, 0.1, 0.1)], [], [limit], true).high).toBeGreaterThan(0.5);
  });

  it("holds the foot of a reading above the card", () => {
    expect(spanOf([row(0, 0.1, 0.2, 0.3, 0.4)], [reading(4.8, 9, null)], [], true).high).toBeGreaterThan(4.8);
  });

  it("does not start pH at nought, and draws something where nothing is known", () => {
    const span = spanOf([row(6.9, 7, 7.1, 7.2, 7.3)], [], [{ key: "low", value: 6.5, name: "low" }], false);
    expect(span.low).toBeGreaterThan(6);
    expect(span.low).toBeLessThan(6.9);
    expect(spanOf([], [], [], true)).toEqual({ low: 0, high: 1, cut: false });
    expect(spanOf([], [], [], false)).toEqual({ low: 0, high: 1, cut: false });
  });

  it("tells the newest reading that no band holds, above or below, and no other", () => {
    const rows = [row(0.1, 0.2, 0.3, 0.4, 0.5)];
    const day = (at: string) => at.slice(0, 10);
    const high = reading(0.6, 0.7, null);
    expect(outsideReading(rows, [reading(0, 0.1, 0.2), high], day)).toBe(high);
    expect(outsideReading(rows, [high, reading(0, 0.1, 0.2)], day)).toBeNull();
    expect(outsideReading(rows, [reading(0, 0.01, 0.09)], day)).not.toBeNull();
    expect(outsideReading(rows, [reading(0.4, 0.9, null)], day)).toBeNull();
    expect(outsideReading(rows, [], day)).toBeNull();
    expect(outsideReading([], [high], day)).toBeNull();
  });

  it("knows one unit in two spellings, and two units apart", () => {
    expect(sameUnit("mg/L as NO₂⁻", "mg/L as NO2")).toBe(true);
    expect(sameUnit("mg/L as NH4+", "mg/L as NH4")).toBe(true);
    expect(sameUnit("", "pH")).toBe(true);
    expect(sameUnit("mg/L as N", "mg/L as NO2")).toBe(false);
    expect(sameUnit("", "mg/L")).toBe(false);
  });

  it("lists every week with now among them", () => {
    const weeks = weekly(
      Array.from({ length: 20 }, (_, index) => index),
      10,
    );
    expect(weeks.map((one) => one.row)).toEqual([3, 10, 17]);
    expect(weeks.map((one) => one.ahead)).toEqual([false, false, true]);
    expect(weeks.find((one) => one.isNow)?.row).toBe(10);
  });
});
