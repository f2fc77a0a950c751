// What is found by walking the whole history: the source waters and foods written down so far, and the set-up that holds.
import { getHistory } from "./api";
import type { HistoryEntry, RecordId } from "./contract";

export interface SourceWater {
  key: string;
  name: string;
}

/** The entries of some kinds that hold, newest first, page by page; a season has a few thousand entries at most. */
async function* currentEntries(kinds: string[], asOf: string | null): AsyncGenerator<HistoryEntry> {
  let before: RecordId | null = null;
  for (let page = 0; page < 20; page += 1) {
    const outcome = await getHistory(asOf, before, 500);
    if (!outcome.ok) return;
    yield* outcome.value.records.filter((entry) => kinds.includes(entry.kind) && entry.status === "current");
    const last = outcome.value.records.at(-1);
    if (!outcome.value.more || !last) return;
    before = last.id;
  }
}

export async function sourceWaters(asOf: string | null): Promise<SourceWater[]> {
  const found = new Map<string, SourceWater>();
  for await (const entry of currentEntries(["source_water"], asOf)) {
    const { key, name } = entry.body;
    if (typeof key === "string" && !found.has(key))
      found.set(key, { key, name: typeof name === "string" ? name : key });
  }
  return [...found.values()];
}

/** Names of food in the log, the newest first. */
export async function foods(asOf: string | null): Promise<string[]> {
  const found = new Set<string>();
  for await (const entry of currentEntries(["feeding", "spoon"], asOf))
    if (typeof entry.body.food === "string") found.add(entry.body.food);
  return [...found];
}

/** The entry to correct when the set-up is wrong; null where it cannot be read. */
export async function currentSetUp(asOf: string | null): Promise<HistoryEntry | null> {
  for await (const entry of currentEntries(["season_setup"], asOf)) return entry;
  return null;
}
