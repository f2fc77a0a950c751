import * as library from "d3-shape";
import { describe, expect, it } from "vitest";
import * as paths from "./paths";

interface Row {
  at: number;
  low: number | null;
  high: number | null;
}
type Shapes = Pick<typeof library, "line" | "area" | "curveLinear" | "curveStepAfter">;
const ours = paths as unknown as Shapes;

const lines = (shapes: Shapes, rows: Row[], step: boolean) =>
  shapes
    .line<Row>()
    .defined((row) => row.low !== null)
    .x((row) => row.at)
    .y((row) => row.low ?? 0)
    .curve(step ? shapes.curveStepAfter : shapes.curveLinear)(rows);
const bands = (shapes: Shapes, rows: Row[], step: boolean) =>
  shapes
    .area<Row>()
    .defined((row) => row.low !== null && row.high !== null)
    .x((row) => row.at)
    .y0((row) => row.low ?? 0)
    .y1((row) => row.high ?? 0)
    .curve(step ? shapes.curveStepAfter : shapes.curveLinear)(rows);

describe("lines and bands of charts", () => {
  // Every pattern of gaps in six points, none and all of them included.
  it.each([false, true])("are those of the library, in steps: %s", (step) => {
    for (let gaps = 0; gaps < 64; gaps += 1) {
      const rows = Array.from({ length: 6 }, (_, index): Row => {
        const known = ((gaps >> index) & 1) === 0;
        return { at: index * 1.5, low: known ? index * index - 3.25 : null, high: known ? index + 7 / 3 : null };
      });
      expect(lines(ours, rows, step)).toBe(lines(library, rows, step));
      expect(bands(ours, rows, step)).toBe(bands(library, rows, step));
    }
    expect(lines(ours, [], step)).toBe(lines(library, [], step));
  });
});
