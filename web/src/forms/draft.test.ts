import { describe, expect, it } from "vitest";
import type { Body } from "../contract";
import { beyondTheForm, bodyOf, draftOf, emptyDraft, fieldOfProblem, inFormWords } from "./draft";
import { recordKinds } from "./kinds";

const fields = (kind: string) => recordKinds[kind] ?? [];

describe("draft of a record", () => {
  it("comes back from a body unchanged, for every kind and either unit", () => {
    const bodies: [string, Body][] = [
      ["temperature", { temperature_f: 46.4, place: "tank" }],
      ["water_change", { volume_us_gal: 14, new_water_c: 8, dechlorinated: true, vacuumed: false }],
      ["dose", { substance: "other", name: "salt", mass_oz: 2 }],
      ["egg_receipt", { count: 200, start: "thermal_sum", thermal_sum_c_days: 250, origin: "farmed" }],
      ["milestone", { milestone: "first_hatch", seen: false }],
      ["count", { what: "dead_eggs", count: 0, method: "counted" }],
      ["count", { what: "alive", method: "sampled", count: 31, looked_at_fraction: 0.25 }],
      ["count", { what: "swum_up", method: "estimated", count: 60 }],
      ["top_up", { volume_us_gal: 1.5 }],
      ["feeding", { mass_g: 2.5, food: "crumble 1" }],
      ["feeding", { spoons: 1.5 }],
      ["spoon", { spoons: 10, mass_oz: 0.2, food: "crumble 1" }],
      ["fish_sample", { count: 3, mass_g: 1.2, lengths_mm: [31, 33.5, 30] }],
    ];
    for (const [kind, body] of bodies) {
      const made = bodyOf(kind, fields(kind), draftOf(fields(kind), body));
      expect(made).toEqual({ body, problems: [] });
    }
  });

  it("asks only what the other answers call for", () => {
    const draft = emptyDraft(fields("egg_receipt"), {});
    Object.assign(draft.values, { count: "200", start: "eyed", fertilised_on: "2031-01-01", origin: "wild" });
    expect(bodyOf("egg_receipt", fields("egg_receipt"), draft).body).toEqual({
      count: 200,
      start: "eyed",
      origin: "wild",
    });
  });

  it("sends food in grams or in spoons, never in both, and not what it was measured in", () => {
    const draft = emptyDraft(fields("feeding"), {});
    Object.assign(draft.values, { given_in: "spoons", mass_g: "3", spoons: "2" });
    expect(bodyOf("feeding", fields("feeding"), draft).body).toEqual({ spoons: 2 });
    draft.values.given_in = "grams";
    expect(bodyOf("feeding", fields("feeding"), draft).body).toEqual({ mass_g: 3 });
    draft.values.mass_g = "";
    expect(bodyOf("feeding", fields("feeding"), draft).problems.map((problem) => problem.field)).toEqual([
      "/body/mass_g",
    ]);
  });

  it("counts the lengths where no number of fish is given, and names a length that is none", () => {
    const draft = emptyDraft(fields("fish_sample"), {});
    draft.values.lengths_mm = "31 33,5; 30, 29\n32";
    expect(bodyOf("fish_sample", fields("fish_sample"), draft)).toEqual({
      body: { count: 5, lengths_mm: [31, 33.5, 30, 29, 32] },
      problems: [],
    });
    draft.values.lengths_mm = "31 abc";
    const { problems } = bodyOf("fish_sample", fields("fish_sample"), draft);
    expect(problems.map((problem) => problem.field)).toEqual(["/body/count", "/body/lengths_mm"]);
    expect(problems[1]?.sentence).toContain("“abc”");
  });

  it("names each thing that stands in the way", () => {
    const draft = emptyDraft(fields("count"), {});
    Object.assign(draft.values, { what: "alive", count: "2.5" });
    expect(bodyOf("count", fields("count"), draft).problems.map((problem) => problem.field)).toEqual(["/body/count"]);
    draft.values.count = "1,500";
    expect(bodyOf("count", fields("count"), draft).problems[0]?.sentence).toContain("two ways");
    draft.values.count = "";
    expect(bodyOf("count", fields("count"), draft).problems[0]?.sentence).toContain("please fill this in");
  });

  it("keeps a default number in its own unit, whatever unit is preferred", () => {
    const given = { key: "volume_l", type: "decimal", unit: "volume", fallback: "60" } as const;
    expect(emptyDraft([given], { volume: true }).secondUnit.volume_l).toBe(false);
    expect(emptyDraft(fields("water_change"), { volume: true }).secondUnit.volume_l).toBe(true);
  });

  it("supposes neither the water in the tank nor the temperature for the eggs", () => {
    const draft = emptyDraft(fields("season_setup"), {});
    expect([draft.values.volume_l, draft.values.target_c]).toEqual(["", ""]);
    const asked = bodyOf("season_setup", fields("season_setup"), draft).problems.map((problem) => problem.field);
    expect(asked).toEqual(expect.arrayContaining(["/body/volume_l", "/body/target_c"]));
  });

  it("carries on what the form does not show", () => {
    expect(beyondTheForm(fields("season_setup"), { name: "A", volume_us_gal: 50, seed: 640, invented: true })).toEqual({
      seed: 640,
      invented: true,
    });
  });

  it("finds the field of a problem under either unit, and speaks the form's words", () => {
    const problem = {
      code: "range",
      field: "/body/temperature_f",
      sentence: "temperature_f is 900, which can't be right.",
    };
    expect(fieldOfProblem(problem, fields("temperature"))).toBe("temperature_c");
    expect(inFormWords(problem, "temperature", fields("temperature")).sentence).toBe(
      "“Temperature” is 900, which can't be right.",
    );
    expect(fieldOfProblem({ ...problem, field: "/at" }, fields("temperature"))).toBe("");
  });
});
