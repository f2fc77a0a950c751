import { describe, expect, it } from "vitest";
import { shiftDay } from "../days";
import { at, heightOf, tableDays, type Trace } from "./day_chart";

const days = Array.from({ length: 100 }, (_, index) => shiftDay("2031-01-01", index));
const line = (mid: (number | null)[], more: Partial<Trace> = {}): Trace => ({
  key: "a",
  name: "A",
  days: days.slice(0, mid.length),
  mid,
  ...more,
});

describe("how high to draw", () => {
  it("holds every middle and every mark", () => {
    const { low, high } = heightOf(
      [line([1, 5, null, 3])],
      [{ day: "2031-01-02", low: 6, mid: 7, high: 9, text: "" }],
      [],
      true,
    );
    expect(low).toBe(0);
    expect(high).toBeGreaterThan(7);
  });

  it("cuts a band that would flatten the middle, and says so", () => {
    const wide = line([1, 1], { low: [0, 0], high: [50, 50] });
    const span = heightOf([wide], [], [], true);
    expect(span.high).toBeLessThan(4);
    expect(span.cut).toBe(true);
    expect(heightOf([line([1, 1], { low: [0.9, 0.9], high: [1.2, 1.2] })], [], [], true).cut).toBe(false);
  });

  it("shows the nearest limit above, but not one far away", () => {
    expect(heightOf([line([1, 2])], [], [{ key: "l", value: 3, name: "" }], true).high).toBeGreaterThan(3);
    expect(heightOf([line([1, 2])], [], [{ key: "l", value: 300, name: "" }], true).high).toBeLessThan(10);
  });

  it("never goes above the ceiling, nor flat without a value", () => {
    expect(heightOf([line([10, 9000])], [], [], true, 500).high).toBeLessThanOrEqual(530);
    const flat = heightOf([line([7, 7])], [], [], false);
    expect(flat.high).toBeGreaterThan(flat.low);
    expect(heightOf([], [], [], true).high).toBeGreaterThan(0);
  });

  it("holds a range to lie within", () => {
    const typical = line([null, null], { key: "t", low: [70, 70], high: [95, 95], backdrop: true });
    const { low, high } = heightOf([line([100, 98]), typical], [], [], false);
    expect(low).toBeLessThanOrEqual(70);
    expect(high).toBeGreaterThanOrEqual(100);
  });
});

describe("the table below", () => {
  it("has the first, the last and today's row among few", () => {
    const rows = tableDays([line(days.map(() => 1))], "2031-01-03", 20);
    expect(rows.length).toBeLessThan(25);
    expect(rows).toContain("2031-01-01");
    expect(rows).toContain("2031-01-03");
    expect(rows.at(-1)).toBe(days.at(-1));
  });

  it("carries a step on to the days between, and leaves gaps of a line open", () => {
    const few = { days: ["2031-01-01", "2031-01-10"], mid: [100, 98] };
    expect(at(line([], { ...few, step: true }), "2031-01-05")?.mid).toBe(100);
    expect(at(line([], few), "2031-01-05")).toBeNull();
    expect(at(line([], { ...few, step: true }), "2030-12-31")).toBeNull();
  });
});
