import { expect, test } from "vitest";
import { zonesIn, zoneTable } from "./zones";

test("daylight saving is found to the second", () => {
  // Rules of the United States: the second Sunday of March and the first of November, at 2:00.
  const table = zoneTable("America/Denver", "2031-01-06");
  expect(table?.name).toBe("America/Denver");
  expect(table?.changes[0]?.offset_seconds).toBe(-6 * 3600 - 3600);
  expect(table?.changes).toContainEqual({ from: "2031-03-09T09:00:00Z", offset_seconds: -6 * 3600 });
  expect(table?.changes).toContainEqual({ from: "2031-11-02T08:00:00Z", offset_seconds: -7 * 3600 });
  // A year before the first day to three years after: four springs and five autumns, the first of them inside.
  expect(table?.changes.length).toBeGreaterThanOrEqual(8);
  const instants = table?.changes.map(({ from }) => from) ?? [];
  expect([...instants].sort()).toEqual(instants);
});

test("a zone without daylight saving has one offset, also an odd one", () => {
  expect(zoneTable("Asia/Kathmandu", "2031-01-06")?.changes).toEqual([
    { from: "2030-01-03T00:00:00Z", offset_seconds: 5 * 3600 + 45 * 60 },
  ]);
});

test("what is no zone gives none", () => {
  expect(zoneTable("Mars/Olympus", "2031-01-06")).toBeNull();
  expect(zoneTable("America/Denver", "soon")).toBeNull();
});

test("set-ups are found wherever they stand", () => {
  const setup = { time_zone: "America/Denver", first_day: "2031-01-06" };
  expect(zonesIn([{ kind: "season_setup", body: setup }]).map(({ name }) => name)).toEqual(["America/Denver"]);
  expect(
    zonesIn({ resources: [{ data: [{ body: setup }, { body: { time_zone: "UTC-07:00", first_day: "x" } }] }] }),
  ).toHaveLength(1);
  expect(zonesIn("text")).toEqual([]);
});
