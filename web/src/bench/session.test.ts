import { describe, expect, it } from "vitest";
import { begun, inventedPlan, plan } from "../fixtures/bench";
import { kit } from "../fixtures/kits";
import type { PlanTurn } from "./plan";
import {
  advance,
  allIn,
  atHand,
  begin,
  comesNext,
  dropKey,
  handTimes,
  isEntry,
  isTooLate,
  nextTeam,
  testOf,
  unsaved,
  valuesOf,
  whatIsDue,
  whatIsLeft,
  type BenchEvent,
  type Session,
} from "./session";

const t0 = Date.parse("2031-01-30T15:00:00Z");
const s = 1000;
const after = (session: Session, ...events: BenchEvent[]) => events.reduce(advance, session);
const done = (seconds: number, lane = 0): BenchEvent => ({ do: "step_done", lane, at: t0 + seconds * s });

/** Nitrite filled, dripped, mixed and left to stand from second 55 on. */
const standing = after(begun(t0), done(20), done(40), done(55));

describe("a sitting under way", () => {
  it("goes through the steps of a turn and starts the wait with the last of them", () => {
    expect(atHand(begun(t0), 0, t0)?.test).toBe("nitrite");
    expect(standing.standing.nitrite).toEqual({ stepsDone: 3, endedAt: t0 + 55 * s, waitsUntil: t0 + 295 * s });
    expect(standing.revision).toBe(1);
    expect(atHand(standing, 0, t0 + 55 * s)?.test).toBe("kh");
  });

  it("does not open a reading before its wait is over, however late the hands were", () => {
    const late = after(begun(t0), done(200), done(210), done(220));
    const free: Session = { ...late, turns: late.turns.filter((turn) => turn.test === "nitrite") };
    expect(atHand(free, 0, t0 + 459 * s)).toBeNull();
    expect(comesNext(free, 0)?.at).toBe(t0 + 460 * s);
    expect(atHand(free, 0, t0 + 460 * s)?.test).toBe("nitrite");
  });

  it("lets nobody past an entry without a value, and drops are the reading", () => {
    const at = dropKey("kh", 0, 0);
    const two = after(standing, { do: "drop", key: at, at: t0 + 60 * s }, { do: "drop", key: at, at: t0 + 61 * s });
    expect(after(two, done(62)).active[0]).toBeNull();
    const read = after(
      two,
      { do: "read", test: "kh", team: 0, value: { form: "drops", value: 2 }, at: t0 + 63 * s },
      done(63),
    );
    expect(read.active[0], "the reading after the drops is done with them").toBeNull();
    expect(read.standing.kh?.stepsDone).toBe(2);
    expect(valuesOf(read, "kh")[0]).toMatchObject({ form: "drops", value: 2 });
  });

  it("takes no colour that was seen too late, but keeps what a team read in time", () => {
    const two = after(begun(t0, ["Team Otter", "Team Heron"]), done(20), done(40), done(55));
    const reading: Session = { ...two, turns: two.turns.filter((turn) => turn.test === "nitrite") };
    const opened = advance(reading, { do: "begin", lane: 0, at: t0 + 300 * s });
    const value = { form: "step", value: 0.09 } as const;
    const one = after(opened, { do: "read", test: "nitrite", team: 0, value, at: t0 + 400 * s });
    const late = after(one, { do: "read", test: "nitrite", team: 1, value, at: t0 + 416 * s });
    expect(nextTeam(late, "nitrite")).toBe(1);
    const turn = late.active[0];
    expect(turn && isTooLate(late, turn, t0 + 416 * s)).toBe(true);
    const kept = after(late, { do: "read", test: "nitrite", team: 1, value: null, at: t0 + 420 * s }, done(420));
    expect(kept.active[0]).toBeNull();
    expect(kept.standing.nitrite?.stepsDone).toBe(5);
    expect(unsaved(kept)).toBe(1);
    expect(advance(kept, { do: "not_planned", sentence: "", revision: kept.revision }).phase).toBe("check");
  });

  it("begins a spoilt test again without what was counted on it", () => {
    const key = dropKey("nitrite", 1, 0);
    const dripping = after(begun(t0), done(20), { do: "drop", key, at: t0 + 21 * s });
    const again = advance(dripping, { do: "begin_again", test: "nitrite", at: t0 + 30 * s });
    expect(again.drops).toEqual({});
    expect(again.active[0]).toBeNull();
    expect(again.turns.map((turn) => turn.test)).not.toContain("nitrite");
    expect(whatIsLeft(again, t0 + 30 * s).tests).toContain("nitrite");
    expect(whatIsLeft(again, t0 + 30 * s).state?.begun).toEqual([]);
  });

  it("never lets go of a reading the server has", () => {
    const read = advance(standing, { do: "read", test: "ph", team: 0, value: { form: "number", value: 7.1 }, at: t0 });
    const saved = advance(read, { do: "saved", test: "ph", team: 0, id: 12 });
    for (const event of [
      { do: "unread", test: "ph", team: 0 },
      { do: "begin_again", test: "ph", at: t0 },
      { do: "leave_out", test: "ph" },
      { do: "read", test: "ph", team: 0, value: { form: "number", value: 9 }, at: t0 },
    ] as BenchEvent[])
      expect(advance(saved, event), event.do).toEqual(saved);
    expect(unsaved(saved)).toBe(0);
  });

  it("tells the core what is done, what hands are still at, and when they are free", () => {
    const two = advance(begun(t0, [""], 2), { do: "begin", lane: 1, at: t0 });
    const question = whatIsLeft(after(two, done(20), done(40), done(55)), t0 + 65.4 * s);
    expect(question.state).toEqual({
      begun: [
        { test: "nitrite", steps_done: 3, ended_ago_s: 10 },
        { test: "kh", steps_done: 2, ended_ago_s: -60 },
      ],
      hands_free_in_s: [{ seconds: 0 }, { seconds: 60 }],
    });
  });

  it("does not take an order that is older than what was done since", () => {
    const old = advance(standing, { do: "planned", plan: { ...plan, turns: [] }, revision: 0, at: t0 });
    expect(old).toBe(standing);
    expect(advance(standing, { do: "planned", plan: { ...plan, turns: [] }, revision: 1, at: t0 }).phase).toBe("check");
  });

  it("starts the clock of a strip's other colours with the dip", () => {
    const dip: PlanTurn = { ...plan.turns[0]!, test: "nitrite", waits_until_s: 60, ends_s: 30 };
    const other: PlanTurn = { ...plan.turns[3]!, test: "ammonia", strip_of: "nitrite" };
    const strip = begin({
      id: "b",
      kit,
      hands: 1,
      teams: [],
      expected: [],
      chosen: ["nitrite", "ammonia"],
      plan: { ...plan, turns: [dip, other] },
      at: t0,
    });
    const dipped = after(strip, done(1), done(2), done(3));
    expect(dipped.standing.ammonia).toEqual({ stepsDone: 0, endedAt: t0 + 3 * s, waitsUntil: null });
  });

  it("asks for the other card only once the first is read, and takes it in", () => {
    const rule = { first: "nitrite", then: "ammonia", at_or_above: true, printed: 0.7, sentence: "" };
    const session = begin({
      id: "b",
      kit,
      hands: 1,
      teams: [],
      expected: [{ quantity: "ph", value: 7 }],
      chosen: ["nitrite", "ammonia"],
      plan: { ...plan, later: [rule] },
      at: t0,
    });
    expect(session.tests).toEqual(["nitrite"]);
    expect(whatIsDue(session)).toBeNull();
    const read = advance(session, { do: "read", test: "nitrite", team: 0, value: { form: "above_last" }, at: t0 });
    expect(whatIsDue(read)).toMatchObject({
      tests: ["nitrite", "ammonia"],
      hand_over: true,
      last_read: [{ quantity: "ph", value: 7 }],
      read: [{ test: "nitrite", form: "above_last" }],
    });
    const due = advance({ ...read, phase: "check" }, { do: "now_due", tests: ["ammonia"] });
    expect(due.tests).toEqual(["nitrite", "ammonia"]);
    expect(due.phase).toBe("running");
    expect(whatIsDue(due)).toBeNull();
  });

  it("gives several teams the time to read", () => {
    expect(handTimes(1)).toEqual({});
    expect(handTimes(4).read_seconds).toBe(60);
  });
});

/** Small numbers that look random and are the same every time. */
function chance(seed: number): (below: number) => number {
  let state = seed >>> 0;
  return (below) => {
    state = (state + 0x6d2b79f5) >>> 0;
    let x = Math.imul(state ^ (state >>> 15), state | 1);
    x ^= x + Math.imul(x ^ (x >>> 7), x | 61);
    return Math.floor((((x ^ (x >>> 14)) >>> 0) / 4294967296) * below);
  };
}

describe("whatever happens, with a reload after every tap", () => {
  it("no drop and no reading is lost, and the sitting can be finished", () => {
    for (let seed = 1; seed <= 60; seed += 1) {
      const random = chance(seed);
      const hands = (1 + random(2)) as 1 | 2;
      const teams = Array.from({ length: 1 + random(3) }, (_, team) => `Team ${team + 1}`);
      let session = begun(t0, teams, hands);
      let now = t0;
      const drops = new Map<string, number>();
      const values = new Map<string, number>();
      const forget = (test: string) => {
        for (const key of [...drops.keys()]) if (key.startsWith(`${test}/`)) drops.delete(key);
        for (const key of [...values.keys()]) if (key.startsWith(`${test} `)) values.delete(key);
      };
      const happen = (event: BenchEvent) => {
        session = JSON.parse(JSON.stringify(advance(session, event))) as Session;
      };
      const plans = () => {
        if (session.plannedRevision !== session.revision)
          happen({ do: "planned", plan: inventedPlan(whatIsLeft(session, now)), revision: session.revision, at: now });
      };
      const reads = (lane: number) => {
        const turn = atHand(session, lane, now);
        const test = turn && testOf(session, turn.test);
        if (!turn || !test || !isEntry(test, turn, turn.steps[turn.part])) return;
        const team = nextTeam(session, turn.test);
        if (team < 0 || isTooLate(session, turn, now)) return;
        const value = 1 + random(9);
        happen({ do: "begin", lane, at: now });
        happen({ do: "read", test: turn.test, team, value: { form: "drops", value }, at: now });
        values.set(`${turn.test} ${team}`, value);
      };
      for (let tap = 0; tap < 80; tap += 1) {
        now += random(3) === 0 ? random(120) * s : random(2000);
        const lane = random(hands);
        const turn = atHand(session, lane, now);
        const test = session.kit.tests[random(4)]?.key ?? "";
        const key = dropKey(turn?.test ?? test, random(3), random(teams.length));
        switch (random(12)) {
          case 0:
          case 1:
          case 2:
            happen({ do: "drop", key, at: now });
            drops.set(key, (drops.get(key) ?? 0) + 1);
            break;
          case 3:
            happen({ do: "undo_drop", key });
            drops.set(key, Math.max(0, (drops.get(key) ?? 0) - 1));
            break;
          case 4:
            if (random(4) === 0 && session.tests.includes(test)) {
              happen({ do: "begin_again", test, at: now });
              forget(test);
            }
            break;
          case 5:
            if (random(8) === 0 && session.tests.includes(test)) {
              happen({ do: "leave_out", test });
              forget(test);
            }
            break;
          case 6:
            happen({ do: "step_back", lane, at: now });
            break;
          case 7:
            happen({ do: "timer", lane, at: now });
            break;
          case 8:
            happen({ do: "planned", plan, revision: session.revision - 1, at: now });
            break;
          case 9:
            reads(lane);
            break;
          default:
            happen({ do: "step_done", lane, at: now });
        }
        if (random(4) > 0) plans();
        const lost = [...drops].filter(([one, count]) => (session.drops[one]?.length ?? 0) !== count);
        const gone = [...values].filter(([one, value]) => {
          const [of = "", team = "0"] = one.split(" ");
          const found = valuesOf(session, of)[Number(team)];
          return !found || found.none || found.value !== value;
        });
        if (lost.length + gone.length > 0) expect({ seed, lost, gone }).toEqual({ seed, lost: [], gone: [] });
      }
      for (let tap = 0; tap < 200 && session.phase === "running"; tap += 1) {
        plans();
        now += 45 * s;
        for (let lane = 0; lane < hands; lane += 1) {
          const turn = atHand(session, lane, now);
          if (turn && isTooLate(session, turn, now)) happen({ do: "begin_again", test: turn.test, at: now });
          for (let team = 0; team < teams.length; team += 1) reads(lane);
          happen({ do: "step_done", lane, at: now });
        }
      }
      expect(session.phase, `seed ${seed}`).toBe("check");
      for (const test of session.tests) expect(allIn(session, test), `seed ${seed}, ${test}`).toBe(true);
    }
  }, 60_000);
});
