import { describe, expect, it } from "vitest";
import { allAsked, boxLitres, freshAnswers, openKeys, problemsOf, questionsOf, recordsOf, screens } from "./first_run";
import type { Answers } from "./first_run";

const today = "2030-09-10";
const fresh = (units = "metric"): Answers => freshAnswers("Europe/Oslo", today, units, "en");
function having(values: Record<string, string>, units = "metric"): Answers {
  const answers = fresh(units);
  Object.assign(answers.values, values);
  return answers;
}
const recordOf = (answers: Answers, kind: string) => recordsOf(answers, today).find((one) => one.kind === kind);

describe("the set-up with nothing answered", () => {
  it("still makes a season that can be planned, and says what is open", () => {
    const records = recordsOf(fresh(), today);
    expect(records.map((one) => one.kind)).toEqual(["season_setup", "note"]);
    expect(records[0]?.body).toMatchObject({
      volume_l: 200,
      target_c: 8,
      elevation_m: 500,
      species: "rainbow_trout",
      first_day: today,
      egg_day: "2030-11-19",
      egg_day_assumed: true,
      time_zone: "Europe/Oslo",
      name: "2030–31",
    });
    expect(String(records[1]?.body.text)).toContain("Water in the tank");
  });

  it("marks the egg day as assumed only while nobody said it", () => {
    expect(recordOf(having({ egg_day: "2030-11-19" }), "season_setup")?.body).not.toHaveProperty("egg_day_assumed");
  });

  it("ranks what can harm animals before dates, and dates before the rest", () => {
    const open = openKeys(fresh());
    expect(open[0]).toBe("disinfectant");
    expect(open.indexOf("volume")).toBeLessThan(open.indexOf("egg_day"));
    expect(open.indexOf("egg_day")).toBeLessThan(open.indexOf("elevation"));
  });

  it("stands in nobody's way", () => {
    for (const screen of screens) expect(problemsOf(screen, fresh(), today)).toEqual([]);
  });

  it("asks nothing twice", () => {
    const keys = screens.flatMap((screen) => questionsOf[screen].map((question) => question.key));
    expect(new Set(keys).size).toBe(keys.length);
  });
});

describe("answers become records", () => {
  it("in the units they were typed in, even when other units are chosen later", () => {
    const answers = having({ volume: "55", target_c: "46", room_day_c: "68", chiller_cooling_w: "1300" }, "us");
    answers.second.target_c = true;
    answers.values.units = "metric";
    answers.second.volume = true;
    expect(recordOf(answers, "season_setup")?.body).toMatchObject({ volume_us_gal: 55, target_f: 46 });
    expect(recordOf(answers, "season_setup")?.body).not.toHaveProperty("volume_l");
    expect(recordOf(having({ room_day_c: "68", chiller_cooling_w: "1300" }, "us"), "tank_build")?.body).toEqual({
      room_day_f: 68,
      chiller_cooling_btu_per_h: 1300,
    });
  });

  it("with a volume worked out from three lengths where nobody is sure of it", () => {
    const metric = having({ length_cm: "100", width_cm: "50", water_height_cm: "40" });
    expect(boxLitres(metric)).toBeNull();
    metric.unsure.volume = true;
    expect(boxLitres(metric)).toBe(180);
    expect(openKeys(metric)).not.toContain("volume");
    const inches = having({ length_cm: "48", width_cm: "13", water_height_cm: "20" }, "us");
    inches.unsure.volume = true;
    expect(boxLitres(inches)).toBe(184);
    expect(recordOf(inches, "season_setup")?.body.volume_l).toBe(184);
    expect(recordOf(inches, "tank_build")?.body).toEqual({ length_in: 48, width_in: 13, water_height_in: 20 });
  });

  it("with a receipt only for eggs that are here, at noon of their day in the school's zone", () => {
    const answers = having({ here: "yes", egg_day: "2030-09-02", age: "thermal_sum", thermal_sum: "450" }, "us");
    const records = recordsOf(answers, today);
    expect(records[0]?.body.first_day).toBe("2030-09-02");
    expect(recordOf(answers, "egg_receipt")).toMatchObject({
      at: "2030-09-02T10:00:00Z",
      body: { count: 100, start: "thermal_sum", thermal_sum_f_units: 450, origin: "wild" },
    });
    expect(recordOf(having({ egg_day: "2030-12-02", egg_count: "80" }), "egg_receipt")).toBeUndefined();
    expect(recordOf(having({ egg_day: "2030-12-02", egg_count: "80" }), "season_setup")?.body).toMatchObject({
      egg_day: "2030-12-02",
      egg_count: 80,
    });
  });

  it("says of chlorine only what is known", () => {
    expect(recordOf(fresh(), "source_water")).toBeUndefined();
    expect(recordOf(having({ disinfectant: "none" }), "source_water")?.body.chlorine_mg_per_l).toBe(0);
    const chloramine = recordOf(having({ disinfectant: "chloramine" }), "source_water")?.body;
    expect(chloramine?.chloramine).toBe(true);
    expect(chloramine).not.toHaveProperty("chlorine_mg_per_l");
    expect(recordOf(having({ alkalinity: "60" }, "us"), "source_water")?.body.alkalinity_mg_caco3_per_l).toBe(60);
  });

  it("leaves out what was answered and then called unsure", () => {
    const answers = having({ target_c: "12", volume: "300" });
    answers.unsure.target_c = true;
    expect(recordOf(answers, "season_setup")?.body).toMatchObject({ target_c: 8, volume_l: 300 });
    expect(openKeys(answers)).toContain("target_c");
  });

  it("keeps no note of the time before the tank is filled", () => {
    expect(recordOf(having({ first_day: "2030-10-01" }), "note")).toBeUndefined();
  });

  it("keeps each break", () => {
    const answers = fresh();
    answers.breaks = [
      { name: " ", from: "2030-10-07", to: "" },
      { name: "Winter", from: "2030-12-20", to: "2031-01-02" },
    ];
    expect(
      recordsOf(answers, today)
        .filter((one) => one.kind === "closure")
        .map((one) => one.body),
    ).toEqual([
      { name: "School closed", from: "2030-10-07" },
      { name: "Winter", from: "2030-12-20", to: "2031-01-02" },
    ]);
  });
});

describe("what stands in the way", () => {
  const fields = (screen: (typeof screens)[number], answers: Answers) =>
    problemsOf(screen, answers, today).map((problem) => problem.field);
  it("is a number that cannot be read, or in the wrong unit", () => {
    expect(fields("tank", having({ volume: "much" }))).toEqual(["volume"]);
    expect(fields("cold", having({ target_c: "46" }))).toEqual(["target_c"]);
    expect(fields("cold", having({ target_c: "46" }, "us"))).toEqual([]);
    expect(fields("eggs", having({ egg_count: "1.5" }))).toEqual(["egg_count"]);
    expect(fields("around", having({ pump_w: "-3" }))).toEqual(["pump_w"]);
  });
  it("is a day that cannot be", () => {
    expect(fields("eggs", having({ egg_day: "2030-09-01", here: "no" }))).toEqual(["egg_day"]);
    expect(fields("eggs", having({ egg_day: "2030-10-01", here: "yes" }))).toEqual(["egg_day"]);
    expect(fields("eggs", having({ egg_day: "2030-09-01", here: "yes", first_day: "2030-09-05" }))).toEqual([
      "egg_day",
    ]);
    expect(fields("permit", having({ release_from: "2031-06-01", release_until: "2031-05-01" }))).toEqual([
      "release_until",
    ]);
    const broken = fresh();
    broken.breaks = [{ name: "Winter", from: "2030-12-20", to: "2030-12-01" }];
    expect(fields("calendar", broken)).toEqual(["breaks"]);
  });
  it("is not what nobody asks now", () => {
    const answers = having({ thermal_sum: "much", here: "no" });
    expect(allAsked(answers).some((question) => question.key === "thermal_sum")).toBe(false);
    expect(fields("eggs", answers)).toEqual([]);
  });
});
