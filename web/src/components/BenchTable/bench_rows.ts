// The tests of a kit as lines of a sheet of paper, in the order in which a sitting begins them.
import type { Kit, KitTest } from "../../contract";
import type { SittingOrder } from "../../contract_print";
import { t } from "../../messages";
import { numeral } from "../../units";

export interface BenchRow {
  test: KitTest;
  /** On the stopwatch; "" where the order is not known. */
  begins: string;
  readBy: string;
  /** Why the test may be left out; "" where it is always done. */
  onlyIf: string;
}

export function benchRows(kit: Kit, order: SittingOrder | null): BenchRow[] {
  const turns = order?.turns ?? [];
  const begun = [...new Set(turns.map((turn) => turn.test))];
  const later = order?.later ?? [];
  const rank = (key: string) => {
    const place = begun.indexOf(key);
    if (place >= 0) return place;
    // A second card follows the card it waits for.
    const after = later.find((one) => one.then === key);
    const first = after ? begun.indexOf(after.first) : -1;
    return first >= 0 ? first + 0.5 : begun.length;
  };
  return [...kit.tests]
    .sort((a, b) => rank(a.key) - rank(b.key))
    .map((test) => {
      const own = turns.filter((turn) => turn.test === test.key);
      const onlyIf = later.find((one) => one.then === test.key);
      return {
        test,
        begins: own[0]?.starts_text ?? "",
        readBy: own.findLast((turn) => turn.read_by_text)?.read_by_text ?? "",
        onlyIf: onlyIf ? t.print.bench.onlyIf(numeral(onlyIf.printed), onlyIf.at_or_above) : "",
      };
    });
}

/** Little squares for counting drops, in fives. Assumed: as many as most titrations need. */
export const tallies = [5, 5, 5, 5] as const;
