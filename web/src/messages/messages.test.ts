// English and Spanish have the same texts: no key without its like, no value left out, no number that differs, and
// nothing left in English by mistake.
import { describe, expect, it } from "vitest";
import { en } from "./en";
import { es } from "./es";

type Found = Map<string, unknown>;

/** Texts and functions by their path. */
function leavesOf(value: unknown, path = "", found: Found = new Map()): Found {
  if (typeof value === "object" && value !== null)
    for (const [key, inner] of Object.entries(value)) leavesOf(inner, path ? `${path}.${key}` : key, found);
  else found.set(path, value);
  return found;
}

/** Calls a message with numbers or words in every place; an object of texts is flattened. */
function said(message: (...values: unknown[]) => unknown, values: unknown[]): string {
  const text = message(...values);
  return typeof text === "string" ? text : JSON.stringify(text ?? "");
}

/** The numbers of a text; grouping and decimal signs aside. */
const numbersOf = (text: string) =>
  (text.match(/\d+(?:[.,]\d+)*/g) ?? []).map((number) => number.replace(/,(?=\d{3}\b)/g, "").replace(",", ".")).sort();

const english = leavesOf(en);
const spanish = leavesOf(es);
const paths = [...english.keys()];
const functions = paths.filter((path) => typeof english.get(path) === "function");
const texts = paths.filter((path) => typeof english.get(path) === "string");
/** These look words up by a key; the test of fields goes through their keys. */
const lookUps = ["kinds.name", "fields.label", "fields.hint", "choices", "quantities", "kitUnit", "templateWords"];
const tables = ["firstRun.question", "firstRun.choice", "table.question", "table.answer"];

/** The same in both languages, for cause. */
const alike =
  /^(product|language|chart\.midAndRange|reader\.languages\.|.*\.?units\.|counts\.none|print\.bench\.degrees|season\.plannedSteps|print\.bench\.kitLine|lessons\.teams\.sitting|lessons\.sheets\.title|footer\.version|bench\.(verbs|hints)\.none)/;
/** Here one language says in words what the other says in figures. */
const inWords = /^(season\.(window50|likely)|filter\.(band50|bandsExplained))$/;
const sameWords = new Set(["pH", "Kit", "No", "", "mg/L", "animal"]);

describe("English and Spanish", () => {
  it("have the same keys, of the same kind", () => {
    expect([...spanish.keys()].sort()).toEqual([...english.keys()].sort());
    for (const path of paths) expect(typeof spanish.get(path), path).toBe(typeof english.get(path));
    expect(texts.length).toBeGreaterThan(700);
    expect(functions.length).toBeGreaterThan(150);
  });

  it.each(functions.filter((path) => !lookUps.includes(path) && !tables.includes(path)))(
    "%s says the same numbers for 0, 1, 2 and more",
    (path) => {
      const [one, other] = [english, spanish].map((all) => all.get(path) as (...values: unknown[]) => unknown);
      for (const number of [0, 1, 2, 17])
        for (const flag of [true, false]) {
          const first = path === "filter.nextStep" ? String(number) : number;
          const others = [20, 40, 60, 80].map((more) => String(number + more));
          for (const values of [
            [first, ...others],
            [first, flag, flag, flag, flag],
            [first, others[0], others[1], flag, flag],
          ]) {
            const [ours, theirs] = [said(one!, values), said(other!, values)];
            expect(theirs, path).not.toMatch(/undefined|NaN|\[object/);
            expect(numbersOf(theirs), `${path}: ${ours} | ${theirs}`).toEqual(numbersOf(ours));
            expect(theirs === "", path).toBe(ours === "");
          }
        }
    },
  );

  it("leave nothing in English", () => {
    const left = texts.filter(
      (path) =>
        !alike.test(path) && !sameWords.has(String(english.get(path))) && english.get(path) === spanish.get(path),
    );
    expect(left).toEqual([]);
  });

  it("hold the same numbers in every plain text", () => {
    const other = texts.filter(
      (path) =>
        !inWords.test(path) &&
        String(numbersOf(String(spanish.get(path)))) !== String(numbersOf(String(english.get(path)))),
    );
    expect(other).toEqual([]);
  });

  it("bend Spanish words by their number", () => {
    expect(es.today.eggs(1)).toBe("1 huevo");
    expect(es.today.eggs(0)).toBe("0 huevos");
    expect(es.today.eggs(250)).toBe("250 huevos");
    expect(es.chart.range("6,2", "10,0")).toBe("de 6,2 a 10,0");
  });
});
