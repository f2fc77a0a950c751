// Entries through a connection that fails: nothing is lost, nothing is doubled, the order stays.
import { describe, expect, it } from "vitest";
import type { Outcome } from "../api";
import type { NewRecord, Saved } from "../contract";
import { outboxOn, type Shelf } from "./outbox";

function shelfOf(kept = new Map<string, string>()): Shelf {
  return {
    get length() {
      return kept.size;
    },
    key: (i) => [...kept.keys()][i] ?? null,
    getItem: (name) => kept.get(name) ?? null,
    setItem: (name, text) => void kept.set(name, text),
    removeItem: (name) => void kept.delete(name),
  };
}

const noted = (text: string): NewRecord => ({ kind: "note", author: "Team Otter", entry_key: text, body: { text } });
const entry = (text: string, season = "ours") => ({
  record: noted(text),
  asOf: null,
  written: "2031-02-14T09:00:00Z",
  season,
});
const lost = { ok: false as const, problems: [{ code: "no_connection", field: "", sentence: "No answer." }] };

/** A server as ours: a known key adds nothing. `wire` says how a question ends. */
function serverWith(wire: () => "works" | "lost before" | "lost after" | "refused") {
  const log: NewRecord[] = [];
  const send = async (record: NewRecord): Promise<Outcome<Saved>> => {
    const end = wire();
    if (end === "lost before") return lost;
    if (end === "refused") return { ok: false, problems: [{ code: "too_long", field: "", sentence: "Too long." }] };
    const known = log.findIndex((one) => one.entry_key === record.entry_key);
    const id = known >= 0 ? known + 1 : log.push(record);
    return end === "lost after" ? lost : { ok: true, value: { id } };
  };
  return { log, send };
}

/** Numbers from 0 to 1 that are the same in every run. */
function dice(seed: number): () => number {
  let state = seed;
  return () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return state / 2 ** 32;
  };
}

describe("the outbox", () => {
  it("loses and doubles nothing in 500 random runs of lost answers, reloads and two windows", async () => {
    for (let seed = 1; seed <= 500; seed += 1) {
      const roll = dice(seed);
      let up = true;
      const server = serverWith(() => {
        if (!up) return "lost before";
        const r = roll();
        return r < 0.2 ? "lost before" : r < 0.4 ? "lost after" : "works";
      });
      const kept = new Map<string, string>();
      const open = () => outboxOn(shelfOf(kept), server.send);
      let windows = [open(), open()];
      const written: string[] = [];
      for (let step = 0; step < 30; step += 1) {
        const r = roll();
        const box = windows[roll() < 0.5 ? 0 : 1]!;
        if (r < 0.35) {
          const name = `${seed}.${step}`;
          expect(box.shelve(entry(name))).toBe(true);
          written.push(name);
          if (roll() < 0.7) await box.sync("ours", name);
        } else if (r < 0.5) up = !up;
        else if (r < 0.6) windows = [open(), open()];
        else if (r < 0.7) await Promise.all(windows.map((one) => one.sync("ours")));
        else await box.sync("ours");
      }
      up = true;
      for (let i = 0; i < 200 && open().all().length > 0; i += 1) await open().sync("ours");
      expect(open().all(), `seed ${seed}`).toEqual([]);
      expect(server.log.map((one) => one.entry_key).sort(), `seed ${seed}`).toEqual([...written].sort());
    }
  });

  it("sends in the order of writing and stops at the first that finds no connection", async () => {
    const tried: string[] = [];
    const box = outboxOn(shelfOf(), async (record) => {
      tried.push(record.entry_key);
      return record.entry_key === "b" ? lost : { ok: true, value: { id: 1 } };
    });
    for (const name of ["a", "b", "c"]) box.shelve(entry(name));
    expect([...(await box.sync("ours")).keys()]).toEqual(["a", "b"]);
    expect(tried).toEqual(["a", "b"]);
    expect(box.all().map((one) => one.record.entry_key)).toEqual(["b", "c"]);
  });

  it("gives a late entry the moment it was written down, and a fresh one none of this device's", async () => {
    const server = serverWith(() => "works");
    const box = outboxOn(shelfOf(), server.send);
    box.shelve(entry("late"));
    box.shelve(entry("fresh"));
    await box.sync("ours", "fresh");
    expect(server.log.map((one) => one.at)).toEqual(["2031-02-14T09:00:00Z", undefined]);
  });

  it("keeps what was refused, with the reason, and sends the rest", async () => {
    let first = true;
    const server = serverWith(() => {
      const end = first ? "refused" : "works";
      first = false;
      return end;
    });
    const box = outboxOn(shelfOf(), server.send);
    for (const name of ["bad", "good"]) box.shelve(entry(name));
    await box.sync("ours");
    expect(server.log.map((one) => one.entry_key)).toEqual(["good"]);
    expect(box.all().map((one) => one.refused[0]?.sentence)).toEqual(["Too long."]);
    await box.sync("ours");
    expect(server.log.length).toBe(1);
  });

  it("never sends to another season, and leaves alone what is not its own", async () => {
    const kept = new Map([
      ["redd.team", '"Team Otter"'],
      ["redd.outbox.torn", "{"],
    ]);
    const server = serverWith(() => "works");
    const box = outboxOn(shelfOf(kept), server.send);
    box.shelve(entry("theirs", "another"));
    expect((await box.sync("ours")).size).toBe(0);
    expect(box.all().length).toBe(1);
    expect(kept.get("redd.team")).toBe('"Team Otter"');
  });

  it("says when this device keeps nothing", () => {
    const shelf = {
      ...shelfOf(),
      setItem: () => {
        throw new Error("full");
      },
    };
    expect(outboxOn(shelf, serverWith(() => "works").send).shelve(entry("a"))).toBe(false);
  });
});
