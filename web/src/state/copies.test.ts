import { beforeEach, expect, test } from "vitest";
import { copies, copyAge, fileName, nagging, nagNow, unsaved } from "./copies.svelte";

const dayMs = 86_400_000;
const daysAgo = (days: number) => new Date(Date.now() - days * dayMs - 1000).toISOString();

beforeEach(() => {
  Object.assign(copies, { local: true, demo: false, newest: 0, copy: null });
});

test("the file is named after the season and the day, in letters that every disk takes", () => {
  const day = /-\d{4}-\d\d-\d\d\.json$/;
  expect(fileName('{"title":"Willow Creek, Año 2031!"}')).toMatch(/^redd-willow-creek-ano-2031-\d{4}-/);
  expect(fileName('{"title":"鮭"}')).toMatch(/^redd-\d{4}-\d\d-\d\d\.json$/);
  expect(fileName(`{"title":"${"long ".repeat(60)}"}`).length).toBeLessThan(70);
  expect(fileName("{}")).toMatch(day);
});

test("entries in no file are counted; those of the invented season and of a server are not", () => {
  copies.newest = 7;
  expect(unsaved()).toBe(7);
  copies.copy = { id: 5, at: daysAgo(0), name: "a.json" };
  expect(unsaved()).toBe(2);
  copies.demo = true;
  expect(unsaved()).toBe(0);
  Object.assign(copies, { demo: false, local: false });
  expect(unsaved()).toBe(0);
});

test("it reminds after so many entries, or days with something unsaved, and not before", () => {
  copies.newest = nagging.entries - 1;
  expect(nagNow()).toBeNull();
  copies.newest = nagging.entries;
  expect(nagNow()).toBe("entries");
  copies.copy = { id: nagging.entries - 1, at: daysAgo(nagging.days), name: "a.json" };
  expect(nagNow()).toBe("days");
  expect(copyAge()).toBe(nagging.days);
  copies.copy = { id: nagging.entries, at: daysAgo(40), name: "a.json" };
  expect(nagNow()).toBeNull();
});
