import { describe, expect, it } from "vitest";
import { degrees, moved, nudged, shifted, snapped, stepsOf, withOneMore, without } from "./plan_steps";

const steps = [
  { day: "2031-02-01", c: 8.25 },
  { day: "2031-02-10", c: 6 },
  { day: "2031-03-01", c: 9 },
];

describe("steps of a plan", () => {
  it("begin on the first day and wherever the set-point changes", () => {
    const days = ["2031-02-01", "2031-02-02", "2031-02-03", "2031-02-04"];
    expect(stepsOf({ days, c: [8, 8, 6, 6] })).toEqual([
      { day: "2031-02-01", c: 8 },
      { day: "2031-02-03", c: 6 },
    ]);
    expect(stepsOf({ days: [], c: [] })).toEqual([]);
  });

  it("stay between their neighbours", () => {
    expect(moved(steps, 1, { day: "2031-04-01" }, "2031-05-01")[1]?.day).toBe("2031-02-28");
    expect(moved(steps, 1, { day: "2030-01-01" }, "2031-05-01")[1]?.day).toBe("2031-02-02");
    expect(moved(steps, 2, { day: "2032-01-01" }, "2031-05-01")[2]?.day).toBe("2031-05-01");
  });

  it("keep the first day, whose temperature can be moved", () => {
    expect(moved(steps, 0, { day: "2031-02-05", c: 7 }, "2031-05-01")[0]).toEqual({ day: "2031-02-01", c: 7 });
  });

  it("go in half degrees, also from between them, and not beyond what can be held", () => {
    expect(nudged(8.25, 1, 4, 20)).toBe(8.5);
    expect(nudged(8.25, -1, 4, 20)).toBe(8);
    expect(nudged(8, 1, 4, 20)).toBe(8.5);
    expect(nudged(4, -1, 4, 20)).toBe(4);
    expect(nudged(9, 1, 4.2, 9.3)).toBe(9);
    expect(snapped(3, 4.2, 9.3)).toBe(4.5);
  });

  it("are added in the longest wait and taken out again, never the first", () => {
    const more = withOneMore(steps, "2031-04-30");
    expect(more?.index).toBe(3);
    expect(more?.steps[3]).toEqual({ day: "2031-03-31", c: 9 });
    expect(without(more?.steps ?? [], 3)).toEqual(steps);
    expect(without(steps, 0)).toEqual(steps);
    expect(withOneMore([{ day: "2031-02-01", c: 8 }], "2031-02-01")).toBeNull();
  });

  it("are carried along with another egg day", () => {
    expect(shifted(steps, 30).map((step) => step.day)).toEqual(["2031-03-03", "2031-03-12", "2031-03-31"]);
  });

  it("are written with one decimal, halves to the even tenth", () => {
    expect([8, 8.25, 8.35, 8.75, -0.25].map(degrees)).toEqual(["8.0", "8.2", "8.3", "8.8", "-0.2"]);
  });
});
