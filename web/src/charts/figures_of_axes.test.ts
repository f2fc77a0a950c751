import { scaleLinear } from "d3-scale";
import { describe, expect, it } from "vitest";
import { format, formatSpecifier, precisionFixed } from "./figures_of_axes";

describe("figures of an axis", () => {
  it.each([
    [0, 1],
    [0, 0.035],
    [-4, 12],
    [6.2, 7.9],
    [0, 12_500],
    [0, 0.00042],
    [-0.3, 0.3],
    [0, 100],
  ])("from %d to %d are those of the library", (low, high) => {
    const scale = scaleLinear([low, high], [0, 1]);
    for (const count of [3, 4, 6]) {
      const marks = scale.ticks(count);
      const theirs = scale.tickFormat(count);
      const step = marks.length > 1 ? marks[1]! - marks[0]! : 1;
      const ours = format({ ...formatSpecifier(), precision: precisionFixed(step) });
      expect(marks.map(ours)).toEqual(marks.map((mark) => theirs(mark)));
    }
  });
});
