import { area as theirArea, curveStepAfter, line as theirLine } from "d3-shape";
import { describe, expect, it } from "vitest";
import { area, line } from "./paths";

interface Row {
  x: number;
  low: number | null;
  high: number | null;
}
const rows: Row[] = [
  { x: 0, low: 1, high: 2.12345 },
  { x: 10, low: 3, high: 4 },
  { x: 20, low: null, high: null },
  { x: 30, low: 2, high: 5 },
  { x: 40, low: null, high: null },
  { x: 50, low: 1, high: 1 },
  { x: 61.5, low: -2, high: 8 },
  { x: 70, low: 0, high: 3 },
];
const shape = {
  x: (row: Row) => row.x,
  y: (row: Row) => row.high ?? 0,
  base: (row: Row) => row.low ?? 0,
  defined: (row: Row) => row.low !== null,
};
/** Corner after corner, however it is written. */
const corners = (d: string | null) => (d ?? "").match(/-?[\d.]+,-?[\d.]+|Z/g) ?? [];

describe("the outline", () => {
  it.each([false, true])("of a line with gaps is d3-shape's (stepped: %s)", (step) => {
    const theirs = theirLine<Row>().defined(shape.defined).x(shape.x).y(shape.y);
    expect(corners(line({ ...shape, step })(rows))).toEqual(
      corners((step ? theirs.curve(curveStepAfter) : theirs)(rows)),
    );
  });

  it.each([false, true])("of a band with gaps is d3-shape's (stepped: %s)", (step) => {
    const theirs = theirArea<Row>().defined(shape.defined).x(shape.x).y0(shape.base).y1(shape.y);
    expect(corners(area({ ...shape, step })(rows))).toEqual(
      corners((step ? theirs.curve(curveStepAfter) : theirs)(rows)),
    );
  });

  it("is nothing without rows", () => {
    expect(line(shape)([])).toBe("");
    expect(area(shape)([{ x: 1, low: null, high: null }])).toBe("");
  });
});
