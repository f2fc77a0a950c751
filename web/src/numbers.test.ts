import { describe, expect, it } from "vitest";
import { readNumber } from "./numbers";

describe("readNumber", () => {
  it.each([
    ["0.25", 0.25],
    [" 7 ", 7],
    ["0,25", 0.25],
    [".5", 0.5],
    ["-3", -3],
    ["\u22123", -3],
    ["0,125", 0.125],
  ])("reads %j as %d", (text, value) => {
    expect(readNumber(text)).toEqual({ ok: true, value });
  });

  it("asks again where a comma could group thousands", () => {
    expect(readNumber("1,000")).toEqual({ ok: false, reason: "unclear" });
    expect(readNumber("12,500")).toEqual({ ok: false, reason: "unclear" });
  });

  it.each(["", "  "])("knows that %j is empty", (text) => {
    expect(readNumber(text)).toEqual({ ok: false, reason: "empty" });
  });

  it.each(["abc", "7 drops", "1.2.3", "1e3", "NaN", "Infinity"])("refuses %j", (text) => {
    expect(readNumber(text)).toEqual({ ok: false, reason: "not_a_number" });
  });
});
