// Words found by a key: every kind of record, field, choice and question of the set-up has its Spanish.
import { describe, expect, it } from "vitest";
import { freshAnswers, questionsOf } from "../forms/first_run";
import { recordKinds } from "../forms/kinds";
import { en } from "./en";
import { es } from "./es";

/** Names that are the same in both languages. */
const same = new Set(["pH", "English", "Español"]);
/** Both are there, or neither; and what has words in it is said in other words. */
function differs(ours: string | undefined, theirs: string | undefined): boolean {
  if (ours === undefined || theirs === undefined) return ours === theirs;
  return same.has(ours) || !/[a-z]{3}/i.test(ours) || theirs !== ours;
}

describe("Spanish words by key", () => {
  it("has each kind of record, its fields and their choices", () => {
    for (const [kind, fields] of Object.entries(recordKinds)) {
      expect(es.kinds.name(kind), kind).not.toBe(en.kinds.name(kind));
      for (const field of fields) {
        const where = `${kind}.${field.key}`;
        expect(differs(en.fields.label(kind, field.key), es.fields.label(kind, field.key)), where).toBe(true);
        expect(es.fields.label(kind, field.key), where).not.toBe(field.key.replaceAll("_", " "));
        expect(es.fields.hint(kind, field.key) === "", where).toBe(en.fields.hint(kind, field.key) === "");
        for (const choice of field.choices ?? []) expect(es.choices(choice), choice).not.toBe(en.choices(choice));
      }
    }
  });

  it("has what is said of a reading and an answer that wait on this device", () => {
    for (const [kind, keys] of Object.entries({
      reading: ["test", "form", "value", "upper_value", "team"],
      advice_answer: ["action", "answer", "until"],
    }))
      for (const key of keys) expect(es.fields.label(kind, key), key).not.toBe(en.fields.label(kind, key));
    for (const choice of [
      "below_first",
      "above_last",
      "step",
      "between",
      "drops",
      "number",
      "done",
      "not_now",
      "skipped",
    ])
      expect(es.choices(choice), choice).not.toBe(en.choices(choice));
  });

  it("has every name and step of the kits to start from", () => {
    const files = import.meta.glob<string>("../../../data/kits/*.toml", {
      query: "?raw",
      import: "default",
      eager: true,
    });
    const texts = Object.values(files).flatMap((file) =>
      [...file.matchAll(/^(?:name|text) = "(.*)"$/gm)].map((one) => one[1]!),
    );
    expect(texts.length).toBeGreaterThan(50);
    for (const text of texts) expect(es.templateWords(text), text).not.toBe(text);
  });

  it("has each question of the set-up, what it changes and what is taken", () => {
    expect(freshAnswers("UTC", "2031-01-06", "metric", "es").values.language).toBe("es");
    for (const { key, choices } of Object.values(questionsOf).flat()) {
      const [ours, theirs] = [en.firstRun.question(key), es.firstRun.question(key)];
      for (const part of ["label", "changes", "taken", "why"] as const)
        expect(differs(ours[part], theirs[part]), `${key}.${part}`).toBe(true);
      for (const choice of choices ?? [])
        expect(differs(en.firstRun.choice(key, choice), es.firstRun.choice(key, choice)), `${key}.${choice}`).toBe(
          true,
        );
    }
  });
});
