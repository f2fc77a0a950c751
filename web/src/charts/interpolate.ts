// Stands in the bundle for what d3-scale takes from d3-interpolate: the charts' scales lead from numbers to numbers, and
// that package brings all that is known of colours.
type Between = (part: number) => number;

export const interpolateNumber =
  (from: number, to: number): Between =>
  (part) =>
    from * (1 - part) + to * part;

export const interpolateRound =
  (from: number, to: number): Between =>
  (part) =>
    Math.round(from * (1 - part) + to * part);

export const interpolate = interpolateNumber;

/** For scales of several pieces of one colour run, of which there are none. */
export function piecewise(): never {
  throw new Error("no scale of the page is in pieces");
}
