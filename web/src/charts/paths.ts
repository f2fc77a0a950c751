// Rows of a chart as the outline of a line or a band. Where a row is not defined there is a gap.
interface Line<T> {
  x: (row: T) => number;
  y: (row: T) => number;
  defined?: (row: T) => boolean;
  /** A value holds until the next row instead of moving towards it. */
  step?: boolean;
}

const at = (x: number, y: number) => `${Math.round(x * 1000) / 1000},${Math.round(y * 1000) / 1000}`;

/** The stretches of rows between gaps. */
function stretches<T>(rows: readonly T[], defined: (row: T) => boolean): T[][] {
  const all: T[][] = [[]];
  for (const row of rows) {
    if (defined(row)) all.at(-1)?.push(row);
    else all.push([]);
  }
  return all.filter((one) => one.length > 0);
}

function corners<T>(rows: readonly T[], { x, y, step = false }: Line<T>): string[] {
  return rows.flatMap((row, index) => {
    const before = rows[index - 1];
    const corner = at(x(row), y(row));
    return step && before !== undefined ? [at(x(row), y(before)), corner] : [corner];
  });
}

/** For the attribute d of a path; "" without rows. A row between gaps is a dot. */
export const line =
  <T>(shape: Line<T>) =>
  (rows: readonly T[]): string =>
    stretches(rows, shape.defined ?? (() => true))
      .map((one) => `M${corners(one, shape).join("L")}${one.length === 1 ? "Z" : ""}`)
      .join("");

/** The band between `base` and `y`. */
export const area =
  <T>(shape: Line<T> & { base: (row: T) => number }) =>
  (rows: readonly T[]): string =>
    stretches(rows, shape.defined ?? (() => true))
      .map((one) => [...corners(one, shape), ...corners(one, { ...shape, y: shape.base }).reverse()])
      .map((all) => `M${all.join("L")}Z`)
      .join("");
