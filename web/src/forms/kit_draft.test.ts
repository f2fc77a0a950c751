import { describe, expect, it } from "vitest";
import type { Kit } from "../contract";
import { kit as invented } from "../fixtures/kits";
import { draftOfKit, emptyTest, keyOfName, kitOfDraft } from "./kit_draft";

const kit: Kit = {
  key: "lab",
  name: "Lab",
  tests: [
    {
      key: "nitrite",
      quantity: "nitrite",
      method: "colour_steps",
      unit: "mg_no2_per_l",
      steps: [0, 0.1, 0.3],
      swatches: ["#ffffff", "#f0c0d0", "#d080a0"],
      colour_names: ["milk", "petal", "plum"],
      timed_steps: [{ do: "wait", text: "Wait", seconds: 300 }],
    },
    { key: "kh", quantity: "alkalinity", method: "drop_count", unit: "german_degrees", per_drop: 1 },
    { key: "ph", quantity: "ph", method: "meter", unit: "ph", accuracy: 0.1 },
  ],
};

describe("kit draft", () => {
  it("gives a kit back unchanged", () => {
    expect(kitOfDraft(draftOfKit(kit))).toEqual({ kit, problems: [] });
  });

  it("makes keys from names and keeps them apart", () => {
    expect(keyOfName("Drop kit, lab 2")).toBe("drop_kit_lab_2");
    expect(keyOfName("Čaj")).toBe("caj");
    const ph = { ...emptyTest(), quantity: "ph", method: "meter" as const, unit: "ph" };
    const made = kitOfDraft({ key: "", name: "Two ranges", tests: [ph, { ...ph }] });
    expect(made.kit.tests.map((test) => test.key)).toEqual(["ph", "ph_2"]);
  });

  it("names what is wrong", () => {
    const bad = draftOfKit(kit);
    bad.tests[0]!.steps[1]!.value = "0.5";
    expect(kitOfDraft(bad).problems).toEqual(["Nitrite: the steps must rise from one to the next."]);
    bad.tests[0]!.steps[1]!.value = "pale";
    expect(kitOfDraft(bad).problems).toEqual(["Nitrite: “pale” is not a number."]);
    expect(kitOfDraft({ key: "", name: " ", tests: [] }).problems).toHaveLength(2);
    expect(kitOfDraft({ key: "", name: "New", tests: [emptyTest()] }).problems).toEqual([
      "Total ammonia: a card has at least two steps.",
    ]);
  });
});

describe("steps by the clock", () => {
  it("come back as they were, and numbers of another kind of step are dropped", () => {
    const draft = draftOfKit(invented);
    expect(kitOfDraft(draft).kit.tests[0]?.timed_steps).toEqual(invented.tests[0]?.timed_steps);
    const step = draft.tests[0]?.timedSteps[1];
    expect(step?.count).toBe("5");
    if (step) step.do = "mix";
    expect(kitOfDraft(draft).kit.tests[0]?.timed_steps?.[1]).toEqual({
      do: "mix",
      text: "Add 5 drops, one at a time.",
    });
  });
  it("complain of a number that is none", () => {
    const draft = draftOfKit(invented);
    const step = draft.tests[0]?.timedSteps[3];
    if (step) step.seconds = "4 min";
    expect(kitOfDraft(draft).problems).toHaveLength(1);
  });
});
