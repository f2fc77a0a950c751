import { describe, expect, it } from "vitest";
import { changeWater } from "../fixtures/day";
import { routeOf } from "../routes";
import { formOfDeed } from "./deeds";

const withDeeds = (...deeds: string[]) => formOfDeed({ ...changeWater, deeds });

describe("the form behind a deed", () => {
  it("is that of the first deed that has one", () => {
    expect(withDeeds("change_water")).toEqual({ deed: "change_water", rest: ["water_change"] });
    expect(withDeeds("wait", "feed")?.deed).toBe("feed");
    expect(withDeeds("ask_for_help")).toBeNull();
    expect(withDeeds()).toBeNull();
  });

  it("exists for every deed", () => {
    for (const deed of ["test", "change_water", "dose", "clean_filter", "set_temperature", "feed", "count", "mend"])
      expect(routeOf(`#/log/${(withDeeds(deed)?.rest ?? ["none"]).join("/")}`).name, deed).toBe("log");
  });
});
