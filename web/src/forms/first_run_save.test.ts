import { describe, expect, it } from "vitest";
import type { Outcome } from "../api";
import type { NewRecord, Saved } from "../contract";
import type { Planned } from "./first_run";
import { keepAll, type Slots } from "./first_run_save";

/** A log that keeps each key once, as the server does, and loses questions or answers on demand. */
class Log {
  records: { id: number; record: NewRecord; undone: boolean }[] = [];
  lose: ("question" | "answer" | null)[] = [];
  refuse: string[] = [];
  slots: Slots = {};
  lost: Outcome<Saved> = { ok: false, problems: [{ code: "no_connection", field: "", sentence: "" }] };

  add = (record: NewRecord): Promise<Outcome<Saved>> => {
    const loss = this.lose.shift() ?? null;
    if (loss === "question") return Promise.resolve(this.lost);
    if (this.refuse.includes(record.kind))
      return Promise.resolve({ ok: false, problems: [{ code: "out_of_range", field: "", sentence: "" }] });
    let found = this.records.find((one) => one.record.entry_key === record.entry_key);
    if (!found) {
      found = { id: this.records.length + 1, record, undone: false };
      for (const one of this.records) if (one.id === record.supersedes) one.undone = true;
      this.records.push(found);
    }
    return Promise.resolve(loss === "answer" ? this.lost : { ok: true, value: { id: found.id } });
  };
  undo = (id: number): Promise<Outcome<Saved>> => {
    const loss = this.lose.shift() ?? null;
    if (loss === "question") return Promise.resolve(this.lost);
    const one = this.records.find((found) => found.id === id);
    if (!one || one.undone)
      return Promise.resolve({ ok: false, problems: [{ code: "already_replaced", field: "", sentence: "" }] });
    one.undone = true;
    return Promise.resolve(loss === "answer" ? this.lost : { ok: true, value: { id } });
  };
  keep = (slots: Slots) => {
    this.slots = JSON.parse(JSON.stringify(slots)) as Slots;
  };
  /** As after a reload: only what was stored is known. */
  tryToKeep = (list: Planned[]) => keepAll(list, JSON.parse(JSON.stringify(this.slots)) as Slots, "Team", this);
  current = () =>
    this.records
      .filter((one) => !one.undone)
      .map((one) => `${one.record.kind} ${String(one.record.body.n)}`)
      .sort();
}

const planned = (kind: string, n: number): Planned => ({ slot: kind, kind, body: { n }, screen: "tank" });
const list = [planned("season_setup", 1), planned("tank_build", 2), planned("note", 3)];
const all = ["note 3", "season_setup 1", "tank_build 2"];

describe("keeping the set-up", () => {
  it("keeps each record once, also when asked twice", async () => {
    const log = new Log();
    expect(await log.tryToKeep(list)).toEqual({ ok: true });
    await log.tryToKeep(list);
    expect(log.records).toHaveLength(3);
    expect(log.current()).toEqual(all);
  });

  it("doubles and loses nothing wherever questions and answers get lost", async () => {
    const fates = ["question", "answer", null] as const;
    for (let code = 0; code < 3 ** 6; code += 1) {
      const log = new Log();
      log.lose = Array.from({ length: 6 }, (_, index) => fates[Math.floor(code / 3 ** index) % 3] ?? null);
      let tries = 0;
      while (!(await log.tryToKeep(list)).ok && tries < 20) tries += 1;
      expect(log.current()).toEqual(all);
      expect(log.records).toHaveLength(3);
    }
  });

  it("corrects what was kept and then changed, and takes back what is no longer wanted", async () => {
    const fates = ["question", "answer", null] as const;
    for (let code = 0; code < 3 ** 5; code += 1) {
      const log = new Log();
      await log.tryToKeep(list);
      log.lose = Array.from({ length: 5 }, (_, index) => fates[Math.floor(code / 3 ** index) % 3] ?? null);
      const changed = [planned("season_setup", 9), planned("note", 3)];
      let tries = 0;
      while (!(await log.tryToKeep(changed)).ok && tries < 20) tries += 1;
      expect(log.current()).toEqual(["note 3", "season_setup 9"]);
    }
  });

  it("says which screen a refused record belongs to, and goes on from there", async () => {
    const log = new Log();
    log.refuse = ["tank_build"];
    const outcome = await log.tryToKeep(list);
    expect(outcome).toMatchObject({ ok: false, screen: "tank" });
    log.refuse = [];
    expect(await log.tryToKeep([planned("season_setup", 1), planned("tank_build", 5), planned("note", 3)])).toEqual({
      ok: true,
    });
    expect(log.current()).toEqual(["note 3", "season_setup 1", "tank_build 5"]);
  });

  it("keeps what held before when a correction is refused", async () => {
    const log = new Log();
    await log.tryToKeep(list);
    log.refuse = ["tank_build"];
    await log.tryToKeep([planned("season_setup", 1), planned("tank_build", 7), planned("note", 3)]);
    expect(log.slots.tank_build?.id).toBe(2);
    log.refuse = [];
    await log.tryToKeep([planned("season_setup", 1), planned("tank_build", 8), planned("note", 3)]);
    expect(log.current()).toEqual(["note 3", "season_setup 1", "tank_build 8"]);
  });
});
