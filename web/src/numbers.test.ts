import { describe, expect, it } from "vitest";
import { readNumber, readNumbers } from "./numbers";

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

describe("several numbers", () => {
  it("are read with any of the usual signs between, and none is guessed", () => {
    expect(readNumbers("31, 33.5;30\n29,5  28")).toEqual({ ok: true, values: [31, 33.5, 30, 29.5, 28] });
    expect(readNumbers("  ")).toEqual({ ok: true, values: [] });
    expect(readNumbers("31,33")).toEqual({ ok: false, bad: "31,33" });
    expect(readNumbers("31,33,30")).toEqual({ ok: false, bad: "31,33,30" });
  });
});
