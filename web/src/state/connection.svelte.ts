// Whether the server answers, and what waits on this device until it does.
import { addRecord, whenAnswered, type Outcome } from "../api";
import type { DayView, Saved } from "../contract";
import { mayGoLater, outboxOn, type Waiting } from "./outbox";

class Connection {
  lost = $state(false);
  waiting: Waiting[] = $state.raw([]);
  /** How far this device's clock is ahead of the server's. */
  clockAhead_ms = 0;
  /** One delivery at a time, in this window. */
  private last: Promise<unknown> = Promise.resolve();
  /** What became of each entry sent, whichever delivery took it along. */
  readonly told = new Map<string, Outcome<Saved>>();

  look(): void {
    this.waiting = outbox()?.all() ?? [];
  }

  /** Sends what waits; true when the server took at least one entry. */
  async sync(season: string): Promise<boolean> {
    return [...(await this.deliver(season)).values()].some((outcome) => outcome.ok);
  }

  /** `fresh`: as in outbox.ts. */
  async deliver(season: string, fresh = ""): Promise<Map<string, Outcome<Saved>>> {
    const box = outbox();
    const run = this.last.then(() => box?.sync(season, fresh) ?? new Map<string, Outcome<Saved>>());
    this.last = run;
    const answers = await run;
    for (const [key, outcome] of answers) this.told.set(key, outcome);
    this.look();
    return answers;
  }

  /** Takes an entry back before it is sent; false: it has gone out by now. */
  async takeBack(key: string): Promise<boolean> {
    await this.last;
    this.look();
    const waits = this.isWaiting(key);
    if (waits) this.takeOff(key);
    return waits;
  }

  isWaiting(key: string): boolean {
    return this.waiting.some((one) => one.record.entry_key === key);
  }

  takeOff(key: string): void {
    outbox()?.takeOff(key);
    this.look();
  }

  /** Gives a refused entry another try. */
  again(one: Waiting): void {
    outbox()?.put({ ...one, refused: [] });
    this.look();
  }
}

export const connection = new Connection();
whenAnswered((answered) => (connection.lost = !answered));

function outbox() {
  try {
    return outboxOn(localStorage, addRecord);
  } catch {
    return null;
  }
}

/** A season's own mark: entries that wait for one season never go to another. */
export const seasonOf = (day: DayView | null) =>
  day ? [day.season.name, day.season.place, day.season.first_day].join("|") : null;
/** The season's name out of such a mark: all before place and day. */
export const seasonNameOf = (mark: string) => mark.split("|").slice(0, -2).join("|");

function shelved(record: Waiting["record"], asOf: string | null, season: string): boolean {
  const written = asOf === null ? momentOf(Date.now() - connection.clockAhead_ms) : null;
  return outbox()?.shelve({ record, asOf, season, written }) ?? false;
}

const waits = (key: string): Outcome<Saved> => ({ ok: true, value: { id: null, waiting: key } });

/** Keeps an entry on this device for later; null on a device that keeps nothing. */
export function keepHere(record: Waiting["record"], asOf: string | null, season: string): Outcome<Saved> | null {
  if (!shelved(record, asOf, season)) return null;
  connection.look();
  return waits(record.entry_key);
}

/** Sends an entry after all that waited before it. On a device that keeps nothing it is sent at once or not at all. */
export async function send(record: Waiting["record"], asOf: string | null, season: string): Promise<Outcome<Saved>> {
  const key = record.entry_key;
  if (!shelved(record, asOf, season)) return addRecord(record, asOf);
  await connection.deliver(season, key);
  const outcome = connection.told.get(key);
  connection.told.delete(key);
  if (!outcome || (!outcome.ok && mayGoLater(outcome.problems))) return waits(key);
  // Its form still stands and says why it was refused.
  if (!outcome.ok) connection.takeOff(key);
  return outcome;
}

/** RFC 3339 in whole seconds. */
const momentOf = (ms: number) => new Date(ms).toISOString().replace(/\.\d+Z$/, "Z");
