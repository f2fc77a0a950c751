// Entries on their way to the server. Each is put on this device's shelf before it is sent and taken off once the server
// has it; a key of its own makes a resent entry no second one. Nothing here draws or asks: shelf and sender are given.
import type { Outcome } from "../api";
import type { Instant, NewRecord, Problem, Saved } from "../contract";

export interface Waiting {
  record: NewRecord & { entry_key: string };
  /** The story's day in a demo. */
  asOf: string | null;
  /** When it was written down, for an entry that names no time; null in a story, which tells its own. */
  written: Instant | null;
  /** Which season it belongs to: never sent to another one. */
  season: string;
  /** Earlier entries go first. */
  order: number;
  /** Why the server will not have it; it stays until somebody decides. */
  refused: Problem[];
}

export type Shelf = Pick<Storage, "length" | "key" | "getItem" | "setItem" | "removeItem">;
export type Send = (record: NewRecord, asOf: string | null) => Promise<Outcome<Saved>>;

const mark = "redd.outbox.";

/** No answer, or one that says nothing of the entry: it may go through later. */
export function mayGoLater(problems: readonly Problem[]): boolean {
  return problems.some((problem) => problem.code === "no_connection" || problem.code === "not_json");
}

export function outboxOn(shelf: Shelf, send: Send) {
  const nameOf = (key: string) => mark + key;

  function read(name: string): Waiting | null {
    try {
      const found = JSON.parse(shelf.getItem(name) ?? "null") as Waiting | null;
      return found?.record?.entry_key ? found : null;
    } catch {
      return null;
    }
  }

  /** What waits, in the order it was written down. */
  function all(): Waiting[] {
    const found: Waiting[] = [];
    for (let i = 0; i < shelf.length; i += 1) {
      const name = shelf.key(i);
      const one = name?.startsWith(mark) ? read(name) : null;
      if (one) found.push(one);
    }
    return found.sort((a, b) => a.order - b.order);
  }

  /** false: this device keeps nothing (storage full or forbidden). */
  function put(one: Waiting): boolean {
    try {
      shelf.setItem(nameOf(one.record.entry_key), JSON.stringify(one));
      return true;
    } catch {
      return false;
    }
  }

  const takeOff = (key: string) => shelf.removeItem(nameOf(key));

  function shelve(entry: Omit<Waiting, "order" | "refused">): boolean {
    const order = Math.max(0, ...all().map((one) => one.order)) + 1;
    return put({ ...entry, order, refused: [] });
  }

  /** Sends what waits for this season, oldest first, until the connection fails. Gives the answers by key.
   * `fresh`: the key of the entry written down this moment: the server knows its time best, and a refusal goes to its form. */
  async function sync(season: string, fresh = ""): Promise<Map<string, Outcome<Saved>>> {
    const answers = new Map<string, Outcome<Saved>>();
    for (const { record } of all().filter((one) => one.season === season && one.refused.length === 0)) {
      const key = record.entry_key;
      // Another window may have sent it, or somebody taken it back, since the list was made.
      const now = read(nameOf(key));
      if (!now) continue;
      const at = now.record.at ?? (key === fresh ? null : now.written);
      const outcome = await send(at === null ? now.record : { ...now.record, at }, now.asOf);
      answers.set(key, outcome);
      if (outcome.ok) takeOff(key);
      else if (mayGoLater(outcome.problems)) break;
      // Its form still stands and says why.
      else if (key === fresh) takeOff(key);
      else if (read(nameOf(key))) put({ ...now, refused: outcome.problems });
    }
    return answers;
  }

  return { all, shelve, sync, takeOff, put };
}
