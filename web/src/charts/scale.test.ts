import { scaleLinear, scalePow } from "d3-scale";
import { describe, expect, it } from "vitest";
import { scale } from "./scale";

const domains: [number, number][] = [
  [0, 1],
  [0, 0.0037],
  [-3, 17.2],
  [7.4, 8.05],
  [0, 963],
  [11000, 11070],
];

describe("a scale", () => {
  it.each(domains)("draws, turns back and marks %d to %d as d3-scale does", (low, high) => {
    const [own, theirs] = [scale([low, high], [300, 20]), scaleLinear([low, high], [300, 20])];
    for (const share of [-0.2, 0, 0.31, 1, 1.4]) {
      const value = low + share * (high - low);
      expect(own(value)).toBeCloseTo(theirs(value), 9);
      expect(own.invert(own(value))).toBeCloseTo(value, 9);
    }
    for (const count of [2, 3, 4, 6]) {
      expect(own.ticks(count)).toEqual(theirs.ticks(count));
      expect(own.ticks(count).map(own.tickText(count))).toEqual(
        theirs.ticks(count).map((tick) => theirs.tickFormat(count)(tick).replace(",", "")),
      );
      expect(scale([low, high], [0, 1], { nice: count }).domain).toEqual(theirs.copy().nice(count).domain());
    }
  });

  it("keeps what lies beyond at its ends when it is told to", () => {
    const own = scale([0, 10], [8, 108], { clamp: true });
    expect([own(-5), own(0), own(5), own(10), own(50)]).toEqual([8, 8, 58, 108, 108]);
  });

  it("gives small values room", () => {
    const [own, theirs] = [scale([0, 4], [6, 206], { root: true }), scalePow([0, 4], [6, 206]).exponent(0.5)];
    for (const value of [0, 0.01, 0.5, 1, 4]) expect(own(value)).toBeCloseTo(theirs(value), 9);
    expect(own.invert(own(2))).toBeCloseTo(2, 9);
  });

  it("puts a domain without length into the middle", () => {
    const own = scale([5, 5], [0, 100]);
    expect(own(5)).toBe(50);
    expect(own.tickText(3)(5)).toBe("5");
  });
});
