import { expect, it } from "vitest";
import type { Kit } from "../../contract";
import { benchRows } from "./bench_rows";

const test = (key: string) => ({ key, quantity: "ph", method: "colour_steps" as const, unit: "ph", steps: [6, 7] });
const kit: Kit = { key: "k", name: "Kit", tests: [test("low"), test("high"), test("kh"), test("extra")] };

it("puts tests in the order of the sitting, a second card behind the one it waits for, the others last", () => {
  const rows = benchRows(kit, {
    headline: "",
    turns: [
      { test: "kh", starts_text: "0:00", sentence: "" },
      { test: "high", starts_text: "0:50", sentence: "" },
      { test: "kh", starts_text: "2:00", sentence: "", read_by_text: "3:00" },
    ],
    later: [{ first: "high", then: "low", printed: 7.4, at_or_above: false }],
    remarks: [],
    safety: [],
  });
  expect(rows.map((row) => row.test.key)).toEqual(["kh", "high", "low", "extra"]);
  expect(rows[0]).toMatchObject({ begins: "0:00", readBy: "3:00", onlyIf: "" });
  expect(rows[2]).toMatchObject({
    begins: "",
    onlyIf: expect.stringMatching(/^only if the other card reads 7\.4 or less$/),
  });
});

it("keeps the kit's own order where no other is known, and leaves no test out", () => {
  expect(benchRows(kit, null).map((row) => row.test.key)).toEqual(["low", "high", "kh", "extra"]);
});
