import { beforeEach, describe, expect, it, vi } from "vitest";
import type { NewRecord } from "../contract";
import { day } from "../fixtures/day";
import { begun } from "../fixtures/bench";
import { kit } from "../fixtures/kits";
import { dueTests, lastRead } from "./due";
import { forgetSession, keepSession, keptSession, seasonKey, storageKeyOf } from "./keeping";
import { readingsToSave, saveReadings } from "./saving";
import { advance, unsaved, type BenchEvent, type Session } from "./session";
import { clock, nameOf, valueText } from "./words";

const t0 = Date.parse("2031-01-30T15:00:00Z");
const after = (session: Session, ...events: BenchEvent[]) => events.reduce(advance, session);
const read: BenchEvent[] = [
  { do: "read", test: "nitrite", team: 0, value: { form: "between", value: 0.03, upper_value: 0.18 }, at: t0 + 1234 },
  { do: "read", test: "nitrite", team: 1, value: { form: "step", value: 0.09 }, at: t0 + 5000 },
  { do: "read", test: "kh", team: 0, value: { form: "drops", value: 4 }, at: t0 },
  { do: "read", test: "kh", team: 1, value: null, at: t0 },
];
const session = after(begun(t0, ["Team Otter", ""]), ...read);

beforeEach(() => localStorage.clear());

describe("saving a sitting", () => {
  it("makes one record of each value, with the team and the moment it was read", () => {
    const records = readingsToSave(session, "Class", true).map((one) => one.record);
    expect(records).toHaveLength(3);
    expect(records[0]).toEqual({
      kind: "reading",
      author: "Team Otter",
      at: "2031-01-30T15:00:01Z",
      entry_key: "bench-invented.nitrite.0",
      body: {
        kit: "pebble",
        test: "nitrite",
        form: "between",
        value: 0.03,
        upper_value: 0.18,
        session: "bench-invented",
        team: "Team Otter",
      },
    });
    expect(records[1]?.author).toBe("Class");
    expect(records[1]?.body).not.toHaveProperty("team");
    expect(new Set(records.map((one) => one.entry_key)).size).toBe(3);
    expect(readingsToSave(session, "Class", false)[0]?.record, "a demo writes at its own day").not.toHaveProperty("at");
  });

  it("stops at the first refusal, and sends only the rest the next time", async () => {
    let current = session;
    const mark = (one: { test: string; team: number }, id: number) =>
      (current = advance(current, { do: "saved", test: one.test, team: one.team, id }));
    const sent: NewRecord[] = [];
    const gone = { ok: false as const, problems: [{ code: "no_connection", field: "", sentence: "Gone." }] };
    const send = vi.fn(async (record: NewRecord) => {
      if (sent.length === 1 && send.mock.calls.length === 2) return gone;
      sent.push(record);
      return { ok: true as const, value: { id: sent.length } };
    });
    const stopped = await saveReadings(readingsToSave(current, "Class", true), send, mark);
    expect(stopped.problems).toEqual(gone.problems);
    expect(stopped.at?.record.entry_key).toBe("bench-invented.nitrite.1");
    expect(unsaved(current)).toBe(2);
    const rest = await saveReadings(readingsToSave(current, "Class", true), send, mark);
    expect(rest.problems).toEqual([]);
    expect(unsaved(current)).toBe(0);
    expect(sent.map((one) => one.entry_key)).toEqual([
      "bench-invented.nitrite.0",
      "bench-invented.nitrite.1",
      "bench-invented.kh.0",
    ]);
  });
});

describe("a device whose clock is wrong", () => {
  it("leaves the time to the server", async () => {
    const sent: NewRecord[] = [];
    const send = async (record: NewRecord) => {
      sent.push(record);
      return record.at === undefined
        ? { ok: true as const, value: { id: sent.length } }
        : { ok: false as const, problems: [{ code: "in_the_future", field: "/at", sentence: "Not yet." }] };
    };
    const all = readingsToSave(session, "Class", true);
    expect((await saveReadings(all.slice(0, 1), send, () => undefined)).problems).toEqual([]);
    expect(sent.map((one) => one.entry_key)).toEqual(["bench-invented.nitrite.0", "bench-invented.nitrite.0"]);
  });
});

describe("keeping a sitting", () => {
  const season = seasonKey(day.season);
  it("gives back the very same sitting, of this season only", () => {
    expect(keptSession(season)).toBeNull();
    expect(keepSession(season, session)).toBe(true);
    expect(keptSession(season)).toEqual(session);
    expect(keptSession("another")).toBeNull();
    forgetSession(season);
    expect(keptSession(season)).toBeNull();
  });
  it("does not take up what is none, and says when the browser keeps nothing", () => {
    localStorage.setItem(storageKeyOf(season), '{"version":1,"id":"x"}');
    expect(keptSession(season)).toBeNull();
    localStorage.clear();
    const full = () => {
      throw new Error("full");
    };
    vi.stubGlobal("localStorage", { getItem: () => null, setItem: full, removeItem: full });
    expect(keepSession(season, session)).toBe(false);
    vi.unstubAllGlobals();
  });
});

describe("which tests are due", () => {
  const quiet = { ...day, actions: [], water: day.water.map((one) => ({ ...one, tone: "good" as const })) };
  it("are those nobody knows, those an action asks for, and all in the week's turn", () => {
    const known = { ...quiet, water: quiet.water.filter((one) => one.latest !== null) };
    expect(dueTests(known, kit)).toEqual([]);
    const unknown = known.water.map((one) => (one.key === "nitrite" ? { ...one, tone: "unknown" as const } : one));
    expect(dueTests({ ...known, water: unknown }, kit)).toEqual(["nitrite"]);
    const asking = { ...day.actions[0]!, rule: "ph", deeds: ["test"] };
    expect(dueTests({ ...known, actions: [asking] }, kit)).toEqual(["ph"]);
    const weekly = { ...asking, rule: "weekly_test", by: `${day.today}T23:00:00Z` };
    const old = known.water.map((one) => ({
      ...one,
      latest: one.latest && { ...one.latest, at: "2031-01-20T15:00:00Z" },
    }));
    const keys = kit.tests.filter((test) => old.some((one) => one.key === test.quantity)).map((test) => test.key);
    expect(keys.length).toBeGreaterThan(1);
    expect(dueTests({ ...known, water: old, actions: [weekly] }, kit)).toEqual(keys);
  });
  it("and the last pH decides the card", () => {
    expect(lastRead(quiet).every((one) => one.quantity === "ph")).toBe(true);
    expect(lastRead({ ...day, water: [] })).toEqual([]);
  });
});

describe("words", () => {
  it("tell times, tests and values", () => {
    expect([clock(0), clock(59.2), clock(61), clock(-5), clock(3600)]).toEqual([
      "0:00",
      "1:00",
      "1:01",
      "0:00",
      "60:00",
    ]);
    expect(nameOf(kit, "nitrite")).toBe("Nitrite");
    const two = { ...kit, tests: [...kit.tests, { ...kit.tests[0]!, key: "other", steps: [1, 5] }] };
    expect(nameOf(two, "other")).toMatch(/^Nitrite \(card from 1 to 5/);
    expect(valueText(kit.tests[0], { form: "between", value: 0.03, upper_value: 0.18 })).toBe(
      "between 0.03 and 0.18 mg/L as N",
    );
    expect(valueText(kit.tests[0], { form: "above_last" })).toBe("above 0.7 mg/L as N");
    expect(valueText(kit.tests[2], { form: "drops", value: 1 })).toBe("1 drop");
  });
});
