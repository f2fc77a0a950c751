import { describe, expect, it } from "vitest";
import { kit } from "../fixtures/kits";
import { nameOf, turnText } from "./words";

describe("a turn of the sitting's plan", () => {
  const test = kit.tests[0]!.key;

  it("names the test where the core begins with its key", () => {
    expect(turnText(kit, { test, sentence: `${test}: fill the vial.` })).toBe(`${nameOf(kit, test)}: fill the vial.`);
  });

  it("stays as it is where the sentence begins with something else", () => {
    expect(turnText(kit, { test, sentence: "Wash the vials." })).toBe("Wash the vials.");
  });
});
