// From values to pixels: as much of a scale as the charts use. Steps of an axis are d3-array's.
import { tickIncrement, tickStep, ticks } from "d3-array";

export interface Scale {
  /** Where a value is drawn. A domain without length stands in the middle of its range. */
  (value: number): number;
  domain: [number, number];
  /** Which value is drawn there. */
  invert: (pixel: number) => number;
  /** Round values, about so many of them. */
  ticks: (count: number) => number[];
  /** A tick among so many, with the digits that tell it from the next. */
  tickText: (count: number) => (tick: number) => string;
}

interface Options {
  /** Values beyond the domain are drawn at its end. */
  clamp?: boolean;
  /** The domain is widened to round values, about so many. */
  nice?: number;
  /** Square roots are as far apart as here values are: small ones get room. Domain from 0. */
  root?: boolean;
}

/** The ends moved out to whole steps; a wider domain may have wider steps. */
function widened([low, high]: [number, number], count: number): [number, number] {
  let ends: [number, number] = [low, high];
  let before = 0;
  for (let round = 0; round < 10; round += 1) {
    // A negative increment is one over the step, which keeps it exact.
    const step = tickIncrement(ends[0], ends[1], count);
    if (step === before || step === 0 || !Number.isFinite(step)) break;
    const [down, up] =
      step > 0
        ? [Math.floor(ends[0] / step) * step, Math.ceil(ends[1] / step) * step]
        : [Math.ceil(ends[0] * step) / step, Math.floor(ends[1] * step) / step];
    ends = [down, up];
    before = step;
  }
  return ends;
}

/** Domain low to high, range in pixels in either direction. */
export function scale(
  from: readonly [number, number],
  [start, end]: readonly [number, number],
  { clamp = false, nice = 0, root = false }: Options = {},
): Scale {
  const domain = nice > 0 ? widened([...from], nice) : ([...from] as [number, number]);
  const bent = (value: number) => (root ? Math.sqrt(Math.max(0, value)) : value);
  const [low, high] = [bent(domain[0]), bent(domain[1])];
  const at = (value: number) => {
    const share = high === low ? 0.5 : (bent(value) - low) / (high - low);
    const kept = clamp ? Math.min(1, Math.max(0, share)) : share;
    return start * (1 - kept) + end * kept;
  };
  return Object.assign(at, {
    domain,
    invert: (pixel: number) => {
      const value = low + ((pixel - start) / (end - start)) * (high - low);
      return root ? value * value : value;
    },
    ticks: (count: number) => ticks(domain[0], domain[1], count),
    tickText: (count: number) => {
      const step = tickStep(domain[0], domain[1], count);
      const digits = step > 0 ? Math.max(0, -Math.floor(Math.log10(step) + 1e-9)) : 0;
      return (tick: number) => tick.toFixed(digits).replace("-", "−");
    },
  });
}
