// One answer of the server for one screen: asked for anew with the day, shown until the next one is there.
import type { Outcome } from "../api";
import type { Problem } from "../contract";

export class Look<T> {
  value: T | null = $state.raw(null);
  problems: Problem[] = $state.raw([]);
  #get: (asOf: string | null) => Promise<Outcome<T>>;
  #request = 0;

  constructor(get: (asOf: string | null) => Promise<Outcome<T>>) {
    this.#get = get;
  }

  /** An answer that was overtaken by a later question is dropped. */
  async load(asOf: string | null): Promise<void> {
    const own = ++this.#request;
    const outcome = await this.#get(asOf);
    if (own !== this.#request) return;
    if (outcome.ok) this.value = outcome.value;
    this.problems = outcome.ok ? [] : outcome.problems;
  }
}
