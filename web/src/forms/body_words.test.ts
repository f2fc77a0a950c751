import { afterEach, expect, it } from "vitest";
import { longDay } from "../days";
import { reader } from "../state/reader.svelte";
import { bodyWords } from "./body_words";

afterEach(() => Object.assign(reader, { language: "en", units: "metric" }));

it("says labels, choices, units and days as the form has them", () => {
  expect(bodyWords("temperature", { temperature_f: 47.3, place: "room" })).toBe(
    "Temperature: 47.3 °F · Measured in: Room",
  );
  expect(bodyWords("water_change", { volume_us_gal: 10, dechlorinated: true })).toBe(
    "Water replaced: 10 US gal · Was the new water dechlorinated?: Yes",
  );
  expect(bodyWords("closure", { name: "Storm", from: "2031-02-14" })).toContain(longDay("2031-02-14"));
});

it("has words for what has a form of its own, and none for what only tells sittings apart", () => {
  const body = { kit: "lab", test: "nitrite", form: "between", value: 0.25, upper_value: 0.5, session: "x1" };
  expect(bodyWords("reading", body)).toBe(
    "Kit: lab · Test: Nitrite · Read as: Between two steps · Value: 0.25 · Up to: 0.5",
  );
  expect(bodyWords("advice_answer", { answer: "not_now", action: "test_water", until: "2031-02-14" })).toBe(
    `Answer: Not now · Advice: test_water · Until: ${longDay("2031-02-14")}`,
  );
});

it("writes numbers with the reader's decimal sign", () => {
  reader.language = "es";
  expect(bodyWords("temperature", { temperature_c: 8.4, place: "tank" })).toContain("8,4 °C");
});
