// The source waters written down so far, for choosing one in a form.
import { getHistory } from "./api";
import type { RecordId } from "./contract";

export interface SourceWater {
  key: string;
  name: string;
}

/** Walks the history page by page; a season has a few thousand entries at most. */
export async function sourceWaters(asOf: string | null): Promise<SourceWater[]> {
  const found = new Map<string, SourceWater>();
  let before: RecordId | null = null;
  for (let page = 0; page < 20; page += 1) {
    const outcome = await getHistory(asOf, before, 500);
    if (!outcome.ok) break;
    for (const entry of outcome.value.records) {
      const { key, name } = entry.body;
      if (entry.kind === "source_water" && entry.status === "current" && typeof key === "string" && !found.has(key))
        found.set(key, { key, name: typeof name === "string" ? name : key });
    }
    const last = outcome.value.records.at(-1);
    if (!outcome.value.more || !last) break;
    before = last.id;
  }
  return [...found.values()];
}
