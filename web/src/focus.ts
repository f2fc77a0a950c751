// Where the keyboard goes on when what it stood on is taken away.
import { tick } from "svelte";

/** Once the page has changed: the first of these that is there. */
export async function goOnAt(...selectors: string[]): Promise<void> {
  await tick();
  for (const selector of selectors) {
    const found = document.querySelector<HTMLElement>(selector);
    if (!found) continue;
    found.focus();
    return;
  }
}
