import { describe, expect, it } from "vitest";
import { day } from "../fixtures/day";
import { planBeforeEggs, planView, triedPlan } from "../fixtures/plan";
import { closedDrawn, lastDrawn, rowsOf, type PlanOnLine } from "./season";

const words = { eggs: "eggs", release: "release" };
const row = planView.plans[0] ?? triedPlan({});
const onLine = (more: Partial<PlanOnLine> = {}): PlanOnLine => ({
  view: planView,
  row,
  before: null,
  trial: null,
  ...more,
});

describe("the rows under the season's line", () => {
  it("are eggs, stages and release; what has been seen has no handle", () => {
    const rows = rowsOf(day.milestones, day.season.egg_day, onLine(), words);
    expect(rows.map((one) => one.key)).toEqual(["eggs", "eyed", "hatch", "swim_up", "release"]);
    expect(rows.map((one) => one.handle?.which ?? null)).toEqual([null, null, "hatch", "swim_up", "release_until"]);
  });

  it("take their windows from the plan, and show what they were before", () => {
    const tried = triedPlan({ hatch: "2031-02-20" });
    const rows = rowsOf(
      day.milestones,
      null,
      onLine({ row: tried, before: row, trial: { hatch: "2031-02-20" } }),
      words,
    );
    const hatch = rows.find((one) => one.key === "hatch");
    expect(hatch?.mid).toBe("2031-02-20");
    expect(hatch?.handle?.day).toBe("2031-02-20");
    expect(hatch?.before).toEqual(row.milestones[0]?.window50);
  });

  it("stand without a plan as the day knows them, with nothing to move", () => {
    const rows = rowsOf(day.milestones, day.season.egg_day, null, words);
    expect(rows.map((one) => one.key)).toEqual(["eggs", "eyed", "hatch", "swim_up"]);
    expect(rows.every((one) => one.handle === null)).toBe(true);
  });

  it("let the eggs be moved only while they are to come", () => {
    const [eggs] = rowsOf([], null, onLine({ view: planBeforeEggs, trial: { egg_day: "2031-02-10" } }), words);
    expect(eggs?.handle).toEqual({ which: "egg_day", day: "2031-02-10" });
  });

  it("show no window of a release where no permit names one", () => {
    const view = { ...planView, release: { from: null, until: null, permit: "" } };
    expect(rowsOf([], null, onLine({ view }), words).some((one) => one.key === "release")).toBe(false);
  });
});

describe("how far the line reaches", () => {
  it("goes a little beyond the last thing that comes, never beyond what is planned", () => {
    expect(lastDrawn(day.season_line, day.today, planView, row)).toBe("2031-05-30");
    const short = { ...day.season_line, to: "2031-03-01" };
    expect(lastDrawn(short, day.today, { ...planView, to: "2031-04-15" }, row)).toBe("2031-04-15");
    expect(lastDrawn(short, day.today, null, null)).toBe("2031-03-01");
  });

  it("draws weekends only where they can be seen, closures always, cut at the edges", () => {
    const names = (width: number) => closedDrawn(planView, "2031-01-01", "2031-03-18", width).map((run) => run.name);
    expect(names(2)).toEqual(["Winter break", "Spring break"]);
    expect(names(6)).toEqual(["Winter break", "weekend", "Spring break"]);
    expect(closedDrawn(planView, "2031-01-01", "2031-03-18", 2).map((run) => run.days)).toEqual([5, 4]);
  });
});
