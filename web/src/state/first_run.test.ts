// What is kept of a set-up goes on, also when an older page kept it.
import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { inSecond, questionsOf } from "../forms/first_run";

const volume = questionsOf.tank.find((question) => question.key === "volume")!;

/** The set-up as it stands when the page is loaded by somebody who reads like this. */
async function loaded(draft: object | null, reader: object) {
  vi.resetModules();
  localStorage.setItem("redd.reader", JSON.stringify(reader));
  if (draft) localStorage.setItem("redd.first_run", JSON.stringify(draft));
  return (await import("./first_run.svelte")).run;
}
const draft = (screen: string, values: Record<string, string>) => ({
  answers: { values: { place: "A hill school", ...values }, unsure: { ph: true }, second: {}, breaks: [] },
  screen,
  slots: {},
  begun: false,
});

beforeEach(() => localStorage.clear());
afterEach(() => vi.resetModules());

describe("a set-up under way", () => {
  it("begins with the reader's language and units", async () => {
    const run = await loaded(null, { language: "en", units: "us" });
    expect(run.screen).toBe("units");
    expect(run.answers.values).toMatchObject({ language: "en", units: "us" });
  });

  it("opens what was kept while language and units were one screen of another name", async () => {
    const run = await loaded(draft("language", { language: "en", units: "metric" }), {
      language: "es",
      units: "metric",
    });
    expect(run.screen).toBe("units");
    expect(run.answers.values).toMatchObject({ language: "es", units: "metric", place: "A hill school" });
    expect(run.answers.unsure).toEqual({ ph: true });
  });

  it("opens what was kept while no language was asked", async () => {
    const run = await loaded(draft("tank", { units: "metric" }), { language: "en", units: "metric" });
    expect(run.screen).toBe("tank");
    expect(run.answers.values).toMatchObject({ language: "en", place: "A hill school" });
  });

  it("follows units chosen since, but never turns a typed number into another unit", async () => {
    const run = await loaded(draft("tank", { units: "metric", volume: "180" }), { language: "en", units: "us" });
    expect(run.answers.values.units).toBe("us");
    expect(inSecond(volume, run.answers)).toBe(false);
    expect(inSecond(questionsOf.cold[0]!, run.answers)).toBe(true);
  });
});
