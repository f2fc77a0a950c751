// Stands in the bundle for what the charts take from d3-shape: lines and bands through points, straight or in steps, with
// gaps where nothing is known. The test holds it to the library, path by path.
type Of<T> = (datum: T, index: number) => number;
type Known<T> = (datum: T, index: number) => boolean;
type Place = readonly [number, number];
/** Commands that lead on from a place to the next; `back`: on the way back along a band's foot. */
type Curve = (from: Place, to: Place, back: boolean) => string;

export const curveLinear: Curve = (_, [x, y]) => `L${x},${y}`;
export const curveStepAfter: Curve = ([fromX, fromY], [x, y], back) =>
  back ? `L${fromX},${y}L${x},${y}` : `L${x},${fromY}L${x},${y}`;

/** To a thousandth of a unit, which nobody sees. */
const rounded = (value: number) => Math.round(value * 1000) / 1000;
const place = (x: number, y: number): Place => [rounded(x), rounded(y)];

const led = (places: Place[], curve: Curve, back = false) =>
  places.map((to, index) => (index === 0 ? "" : curve(places[index - 1]!, to, back))).join("");

/** Neighbours that are known, run by run, with their indices. */
function runsOf<T>(data: readonly T[], known: Known<T>): [T, number][][] {
  const runs: [T, number][][] = [];
  data.forEach((datum, index) => {
    if (!known(datum, index)) return;
    if (index === 0 || !known(data[index - 1]!, index - 1)) runs.push([]);
    runs.at(-1)?.push([datum, index]);
  });
  return runs;
}

/** What is set in a chain, as the library has it. */
function shape<T, K extends string>(
  names: readonly K[],
  draw: (set: Record<K, Of<T>>, run: [T, number][], curve: Curve) => string,
) {
  const set = {} as Record<K, Of<T>>;
  let known: Known<T> = () => true;
  let curve = curveLinear;
  const made = (data: readonly T[]) =>
    runsOf(data, known)
      .map((run) => draw(set, run, curve))
      .join("") || null;
  for (const name of names) Object.defineProperty(made, name, { value: (of: Of<T>) => ((set[name] = of), made) });
  Object.assign(made, {
    defined: (of: Known<T>) => ((known = of), made),
    curve: (of: Curve) => ((curve = of), made),
  });
  return made;
}

export const line = <T>() =>
  shape<T, "x" | "y">(["x", "y"], ({ x, y }, run, curve) => {
    const places = run.map(([datum, index]) => place(x(datum, index), y(datum, index)));
    return `M${places[0]!.join()}${led(places, curve)}${places.length === 1 ? "Z" : ""}`;
  });

export const area = <T>() =>
  shape<T, "x" | "y0" | "y1">(["x", "y0", "y1"], ({ x, y0, y1 }, run, curve) => {
    const top = run.map(([datum, index]) => place(x(datum, index), y1(datum, index)));
    const foot = run.map(([datum, index]) => place(x(datum, index), y0(datum, index))).reverse();
    return `M${top[0]!.join()}${led(top, curve)}L${foot[0]!.join()}${led(foot, curve, true)}Z`;
  });
