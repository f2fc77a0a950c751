// The season of a page without a server. It answers the addresses of the server's API: the core inside the page works the
// answer out, the store keeps what was added before the answer is given. Start at localSeason().
import type { Engine } from "../engine/engine";
import type { Problem } from "../contract";
import type { Reply, Transport } from "../transport";
import { t } from "../messages";
import type { Shelf } from "./embedded";
import type { SeasonStore, StoredRecord } from "./store";
import { zonesIn } from "./zones";

interface Answered {
  api: { status: number; body: string };
  added: StoredRecord[];
}

export interface LocalSeason extends Transport {
  store: SeasonStore;
  /** Another season in its place; what the core knows of the old one is dropped. */
  change(store: SeasonStore): void;
}

/** A core of its own for each, so that nobody who writes something down waits for what takes long. */
function deskOf(path: string): "clerk" | "reckoner" | "planner" {
  const name = /^\/api\/([a-z-]+)/.exec(path)?.[1] ?? "";
  if (name === "plan" || name === "wall") return "planner";
  const quick = [
    "season",
    "kits",
    "history",
    "records",
    "calendar",
    "kinds",
    "species",
    "calc",
    "export",
    "import",
    "water-quality",
  ];
  return quick.includes(name) || name === "emergency" ? "clerk" : "reckoner";
}

const problem = (status: number, code: string, sentence: string): Reply => ({
  status,
  text: JSON.stringify({ problems: [{ code, field: "", sentence }] }),
});
const now = () => new Date().toISOString().replace(/\.\d+Z$/, "Z");

/** One core, and how many records of the season it knows; -1: none is open in it. */
function deskWith(engine: Engine, season: () => { store: SeasonStore; shelf: Shelf; kept: () => void }) {
  let known = -1;
  let of: SeasonStore | null = null;
  let last: Promise<unknown> = Promise.resolve();
  let asked = 0;

  async function failed(problems: Problem[]): Promise<Reply> {
    known = -1;
    return { status: 503, text: JSON.stringify({ problems }) };
  }

  /** Tells the core what the store holds and it does not know yet. */
  async function catchUp(): Promise<Problem[]> {
    const { store, shelf } = season();
    const newest = await store.newest();
    if (of !== store || newest < known) known = -1;
    of = store;
    if (known === newest) return [];
    const records = await store.after(Math.max(known, 0));
    const zones = zonesIn(records.filter((record) => record["kind"] === "season_setup"));
    const told = await engine(known < 0 ? { open: { ...shelf, records, zones } } : { take: { records, zones } });
    if (!told.ok) return told.problems;
    known = newest;
    return [];
  }

  async function ask(path: string, body: string | null, attempts = 3): Promise<Reply> {
    const problems = await catchUp();
    if (problems.length > 0) return failed(problems);
    // What is asked of one season is never kept in another that took its place meanwhile.
    const own = season();
    const zones = body?.includes('"time_zone"') ? zonesIn(JSON.parse(body)) : [];
    const question = { method: body === null ? "GET" : "POST", target: path, body: body ?? "", now: now(), zones };
    const outcome = await engine<Answered>({ api: question });
    if (!outcome.ok) return failed(outcome.problems);
    const { api, added } = outcome.value;
    if (added.length > 0) {
      let kept: boolean;
      try {
        if (season().store !== own.store) return problem(503, "not_kept", t.copies.notKept);
        kept = await own.store.append(known, added);
      } catch {
        known = -1;
        return problem(507, "not_kept", t.copies.notKept);
      }
      if (!kept) {
        // Another page of this browser was quicker: once more, with what it added.
        known = -1;
        return attempts > 1 ? ask(path, body, attempts - 1) : problem(503, "not_kept", t.copies.notKept);
      }
      known += added.length;
      own.kept();
    }
    return { status: api.status, text: api.body };
  }

  /** What takes long goes on while nobody asks anything. */
  async function work(turn: number): Promise<void> {
    while (turn === asked) {
      const outcome = await engine<{ work: { more: boolean } }>({ work: true });
      if (!outcome.ok || !outcome.value.work.more) return;
    }
  }

  return (path: string, body: string | null): Promise<Reply> => {
    const turn = ++asked;
    const reply = last.then(() => ask(path, body));
    last = reply.then(
      () => {
        if (turn === asked && known >= 0 && deskOf(path) === "reckoner") void work(turn);
      },
      () => undefined,
    );
    return reply;
  };
}

/** In      makeEngine: a new core each time. kept: told whenever something was added. */
export function localSeason(makeEngine: () => Engine, shelf: Shelf, first: SeasonStore, kept: () => void): LocalSeason {
  let store = first;
  const season = () => ({ store, shelf, kept });
  const desks = new Map<string, ReturnType<typeof deskWith>>();
  return {
    get store() {
      return store;
    },
    change(other) {
      store = other;
    },
    send(path, body) {
      const name = deskOf(path);
      let desk = desks.get(name);
      if (!desk) desks.set(name, (desk = deskWith(makeEngine(), season)));
      return desk(path, body);
    },
  };
}
