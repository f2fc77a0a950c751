import { describe, expect, it } from "vitest";
import { routeOf } from "./routes";

describe("addresses", () => {
  it("finds each screen and what follows it", () => {
    expect(routeOf("")).toEqual({ name: "today", rest: [] });
    expect(routeOf("#main")).toEqual({ name: "today", rest: [] });
    expect(routeOf("#/history/42/correct")).toEqual({ name: "history", rest: ["42", "correct"] });
    expect(routeOf("#/log/test/ph%20low")).toEqual({ name: "log", rest: ["test", "ph low"] });
    expect(routeOf("#/log/water_change").name).toBe("log");
    expect(routeOf("#/setup").name).toBe("setup");
    expect(routeOf("#/season/wall")).toEqual({ name: "season", rest: ["wall"] });
    expect(routeOf("#/season/calendar").rest).toEqual(["calendar"]);
    expect(routeOf("#/emergency/power_cut")).toEqual({ name: "emergency", rest: ["power_cut"] });
    expect(routeOf("#/heat")).toEqual({ name: "heat", rest: [] });
    expect(routeOf("#/water")).toEqual({ name: "water", rest: [] });
    expect(routeOf("#/water/changes")).toEqual({ name: "water", rest: ["changes"] });
    expect(routeOf("#/brood")).toEqual({ name: "brood", rest: [] });
    expect(routeOf("#/brood/room").rest).toEqual(["room"]);
    expect(routeOf("#/brood/counts").rest).toEqual(["counts"]);
    expect(routeOf("#/heat/thermometer").rest).toEqual(["thermometer"]);
    expect(routeOf("#/copies/table").rest).toEqual(["table"]);
    expect(routeOf("#/lessons")).toEqual({ name: "lessons", rest: [] });
    expect(routeOf("#/lessons/graphs").rest).toEqual(["graphs"]);
    expect(routeOf("#/lessons/sheets/older/12/answers").rest).toEqual(["sheets", "older", "12", "answers"]);
  });

  it("says so where an address leads nowhere", () => {
    for (const hash of [
      "#/fish",
      "#/today/extra",
      "#/water/nitrite",
      "#/brood/fish",
      "#/lessons/marks",
      "#/lessons/sheets/eldest",
      "#/lessons/sheets/older/0",
      "#/lessons/sheets/older/3/cheat",
      "#/lessons/teams/3",
      "#/season/hall",
      "#/emergency/../x",
      "#/heat/now",
      "#/log/season_setup",
      "#/log/toString",
      "#/history/x",
      "#/%E0%A4%A",
    ])
      expect(routeOf(hash)).toEqual({ name: "missing", rest: [] });
  });
});
