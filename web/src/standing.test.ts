import { describe, expect, it } from "vitest";
import { feed, held, nothingToFeed, waiting } from "./fixtures/feed";
import { fits, loading, noLoad } from "./fixtures/loading";
import { noChange, nothingPlanned, waterPlan } from "./fixtures/water_plan";
import { foodStanding, roomStanding, waterStanding } from "./standing";

describe("how the water programme stands", () => {
  it("tells a change of today from one to come, and none needed", () => {
    expect(waterStanding(waterPlan)).toEqual({ word: "planned", tone: "watch" });
    expect(waterStanding({ ...waterPlan, today: "2031-01-31" })).toEqual({ word: "today", tone: "act" });
    expect(waterStanding(noChange)).toEqual({ word: "noChange", tone: "good" });
    expect(waterStanding({ ...waterPlan, reached: false })).toEqual({ word: "notEnough", tone: "act" });
  });

  it("calls nothing good that rests on old readings, or while there is something to take care of", () => {
    expect(waterStanding({ ...noChange, stale: true }).tone).toBe("unknown");
    expect(waterStanding({ ...noChange, cautions: ["Nitrite may be beyond its limit already."] }).tone).toBe("watch");
    expect(waterStanding(nothingPlanned).tone).toBe("unknown");
  });
});

describe("how the food stands", () => {
  it("asks to feed until the day's food is logged", () => {
    expect(foodStanding(feed)).toEqual({ word: "feed", tone: "act" });
    expect(foodStanding({ ...feed, fed_today_g: 1.6 })).toEqual({ word: "fed", tone: "good" });
    expect(foodStanding({ ...feed, hold: { food: "half", texts: [] } }).word).toBe("half");
    expect(foodStanding({ ...feed, today: null }).tone).toBe("act");
  });

  it("puts too much food and a hold before the ration", () => {
    expect(foodStanding(held).word).toBe("overfed");
    expect(foodStanding({ ...held, overfed: null })).toEqual({ word: "hold", tone: "act" });
  });

  it("waits before first feeding", () => {
    expect(foodStanding(waiting)).toEqual({ word: "waiting", tone: "watch" });
    expect(foodStanding(nothingToFeed).tone).toBe("unknown");
  });
});

describe("how the room stands", () => {
  it("tells too many now from too many later", () => {
    expect(roomStanding(loading, "2031-01-30")).toEqual({ word: "overLater", tone: "watch" });
    expect(roomStanding(loading, "2031-03-13")).toEqual({ word: "over", tone: "act" });
    expect(roomStanding({ ...loading, state: "to_come" }, "2031-03-13").word).toBe("overLater");
  });

  it("is good only where every limit is known and none is in reach", () => {
    expect(roomStanding(fits, "2031-01-30")).toEqual({ word: "fits", tone: "good" });
    expect(roomStanding({ ...fits, first_possible: "2031-05-01" }, "2031-01-30").tone).toBe("watch");
    expect(roomStanding({ ...fits, filter: { ...fits.filter, known: false } }, "2031-01-30").tone).toBe("unknown");
    expect(roomStanding({ ...fits, filter: { ...fits.filter, doubted: true } }, "2031-01-30").tone).toBe("watch");
    expect(roomStanding(noLoad, "2031-01-30").tone).toBe("unknown");
  });
});
