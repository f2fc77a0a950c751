// The page without a server, with a core that is played: what is kept before it is answered, and what happens when the
// store or another page gets in between.
import { beforeEach, expect, test } from "vitest";
import type { Engine } from "../engine/engine";
import { localSeason } from "./local_season";
import { memoryStore, type SeasonStore, type StoredRecord } from "./store";

const shelf = { kits: [], opening_day: null };
interface Question {
  open?: { records: StoredRecord[] };
  take?: { records: StoredRecord[] };
  api?: { method: string; target: string; body: string };
  work?: true;
}

/** A core that adds one record for every POST and counts those it knows. */
function playedCore(asked: Question[], works: { left: number } = { left: 0 }): Engine {
  let known = 0;
  const answer = (question: Question): unknown => {
    asked.push(question);
    if (question.open) known = question.open.records.length;
    if (question.take) known += question.take.records.length;
    if (question.work) return { work: { more: works.left-- > 0 } };
    if (!question.api) return {};
    const added = question.api.method === "POST" ? [{ id: ++known, text: question.api.body }] : [];
    return { api: { status: added.length ? 201 : 200, body: JSON.stringify({ known }) }, added };
  };
  return (async (question: object) => ({ ok: true, value: answer(question as Question) })) as Engine;
}

let asked: Question[];
let store: SeasonStore;
let told: number;
const season = (works?: { left: number }) =>
  localSeason(
    () => playedCore(asked, works),
    shelf,
    store,
    () => (told += 1),
  );
beforeEach(() => {
  asked = [];
  store = memoryStore();
  told = 0;
});

test("an entry is in the store before it is answered", async () => {
  const reply = await season().send("/api/records", "{}");
  expect(reply.status).toBe(201);
  expect(await store.newest()).toBe(1);
  expect(told).toBe(1);
});

test("an entry that the store refuses is not answered as kept, and the core forgets it", async () => {
  const append = store.append;
  store.append = () => Promise.reject(new Error("full"));
  const one = season();
  const reply = await one.send("/api/records", "{}");
  expect(reply.status).toBe(507);
  expect(JSON.parse(reply.text).problems[0].code).toBe("not_kept");
  expect(told).toBe(0);
  store.append = append;
  expect(JSON.parse((await one.send("/api/history", null)).text).known).toBe(0);
});

test("what another page of this browser added is taken in first, and nobody's entry is lost", async () => {
  const here = season();
  const there = season();
  await here.send("/api/records", '"a"');
  await there.send("/api/records", '"b"');
  await here.send("/api/records", '"c"');
  expect((await store.after(0)).map((record) => record["text"])).toEqual(['"a"', '"b"', '"c"']);
});

test("two pages that write at the same moment both keep their entry once", async () => {
  const here = season();
  const there = season();
  await Promise.all([here.send("/api/records", '"a"'), there.send("/api/records", '"b"')]);
  expect((await store.after(0)).map((record) => record["text"]).sort()).toEqual(['"a"', '"b"']);
  expect((await store.after(0)).map(({ id }) => id)).toEqual([1, 2]);
});

test("who writes does not wait for what takes long", async () => {
  const works = { left: 1000 };
  const one = season(works);
  await one.send("/api/day", null);
  expect((await one.send("/api/records", "{}")).status).toBe(201);
  expect(works.left).toBeGreaterThan(0);
  // A further question stops the work on the one before.
  await one.send("/api/day", null);
});

test("another season in its place is opened anew", async () => {
  const one = season();
  await one.send("/api/records", "{}");
  one.change(memoryStore([{ id: 1 }, { id: 2 }, { id: 3 }]));
  expect(JSON.parse((await one.send("/api/history", null)).text).known).toBe(3);
});

test("a season that was cleared elsewhere is gone here too", async () => {
  const one = season();
  await one.send("/api/records", "{}");
  await store.clear();
  expect(JSON.parse((await one.send("/api/history", null)).text).known).toBe(0);
});

test("a core that stopped is opened anew at the next question", async () => {
  let broken = true;
  const whole = playedCore(asked);
  const one = localSeason(
    () =>
      ((question: object) =>
        broken && "api" in question
          ? Promise.resolve({ ok: false, problems: [{ code: "engine_stopped", field: "", sentence: "stopped" }] })
          : whole(question)) as Engine,
    shelf,
    store,
    () => undefined,
  );
  expect((await one.send("/api/season", null)).status).toBe(503);
  broken = false;
  expect((await one.send("/api/season", null)).status).toBe(200);
  expect(asked.filter(({ open }) => open)).toHaveLength(2);
});
