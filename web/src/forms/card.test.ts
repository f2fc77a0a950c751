import { describe, expect, it } from "vitest";
import type { KitTest } from "../contract";
import { choiceOf, choicesOf, howRead, seenOf } from "./card";

const test: KitTest = {
  key: "nitrite",
  quantity: "nitrite",
  method: "colour_steps",
  unit: "mg_n_per_l",
  steps: [0.05, 0.1, 0.3],
  swatches: ["#ffffff", "#f0c0d0", "#d080a0"],
};

describe("colour card", () => {
  it("offers below, every step, every gap, above, rising", () => {
    expect(choicesOf(test).map((choice) => choice.label)).toEqual([
      "below 0.05",
      "0.05",
      "between 0.05 and 0.1",
      "0.1",
      "between 0.1 and 0.3",
      "0.3",
      "above 0.3",
    ]);
  });

  it("says what was seen, and finds it again", () => {
    for (const choice of choicesOf(test)) expect(choiceOf(test, seenOf(choice))?.id).toBe(choice.id);
    expect(seenOf(choicesOf(test)[4]!)).toEqual({ form: "between", value: 0.1, upper_value: 0.3 });
    expect(seenOf(choicesOf(test)[0]!)).toEqual({ form: "below_first" });
  });

  it("offers nothing below zero", () => {
    expect(choicesOf({ ...test, steps: [0, 1] }).map((choice) => choice.label)).toEqual([
      "0",
      "between 0 and 1",
      "1",
      "above 1",
    ]);
  });

  it("has nothing to offer for a card without steps, and finds nothing on a changed card", () => {
    expect(choicesOf({ ...test, steps: [] })).toEqual([]);
    expect(choiceOf(test, { form: "step", value: 0.2 })).toBeNull();
    const [low, , high] = test.steps ?? [];
    expect(
      choiceOf(test, { form: "between", value: low ?? 0, upper_value: high ?? 0 }),
      "a wider range is no narrow one",
    ).toBeNull();
  });
});

describe("how a test is read", () => {
  it("tells two tests of one quantity apart by range and by what the numbers stand for", () => {
    const low: KitTest = { ...test, quantity: "total_ammonia", unit: "mg_nh4_per_l", steps: [0.15, 0.3, 4.8] };
    expect(howRead(low)).toBe("card from 0.15 to 4.8 mg/L as NH₄");
    expect(howRead({ ...low, unit: "mg_n_per_l" })).toBe("card from 0.15 to 4.8 mg/L as N");
    expect(howRead({ ...low, unit: "ph", steps: [6.2, 7.4] })).toBe("card from 6.2 to 7.4");
  });

  it("names the unit of a drop and of a meter", () => {
    const drops: KitTest = {
      key: "kh",
      quantity: "alkalinity",
      method: "drop_count",
      unit: "german_degrees",
      per_drop: 1,
    };
    expect(howRead(drops)).toBe("count drops, 1 per drop, German degrees");
    expect(howRead({ key: "o", quantity: "oxygen", method: "meter", unit: "mg_per_l" })).toBe("read a meter, mg/L");
    expect(howRead({ key: "ph", quantity: "ph", method: "meter", unit: "ph" })).toBe("read a meter");
  });
});
