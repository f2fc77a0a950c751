// Stands in the bundle for what d3-scale takes from d3-format: axes say plain numbers with as many decimals as their steps
// have, and that package writes numbers in every other way too.
interface Wanted {
  precision?: number;
  type: string;
}

const exponentOf = (size: number) => Math.floor(Math.log10(Math.abs(size)) + 1e-9);

/** Decimals that tell neighbouring marks apart. */
export const precisionFixed = (step: number) => Math.max(0, -exponentOf(step));

/** Numbers with a fixed number of decimals, thousands apart. */
export const formatSpecifier = (): Wanted => ({ type: "f" });

export function format({ precision = 6 }: Wanted): (value: number) => string {
  return (value) => {
    const [whole = "", part] = Math.abs(value).toFixed(precision).split(".");
    const apart = whole.replace(/\B(?=(\d{3})+$)/g, ",") + (part ? `.${part}` : "");
    // No minus before nought.
    return value < 0 && /[1-9]/.test(apart) ? `−${apart}` : apart;
  };
}

function never(): never {
  throw new Error("no axis of the page is written so");
}
export { never as formatPrefix, never as precisionPrefix, never as precisionRound };
