// What a form holds while it is being filled in, as text, and how that becomes a record's body. Nothing typed is thrown
// away when a value cannot be read: the draft stays as it is and a problem names the field.
import type { Body, Json, Problem } from "../contract";
import { t } from "../messages";
import { readNumber, readNumbers } from "../numbers";
import { typedNumeral } from "../units";
import { keyInUnit, unitEndings, type Field, type UnitKind } from "./kinds";

export interface Draft {
  values: Record<string, string>;
  /** Fields whose second unit (°F, US gal, oz) is chosen. */
  secondUnit: Record<string, boolean>;
}

export function emptyDraft(fields: readonly Field[], preferred: Partial<Record<UnitKind, boolean>>): Draft {
  const draft: Draft = { values: {}, secondUnit: {} };
  for (const field of fields) {
    draft.values[field.key] = field.fallback ?? "";
    // A fallback is a number in the first unit.
    if (field.unit) draft.secondUnit[field.key] = field.fallback === undefined && (preferred[field.unit] ?? false);
  }
  return draft;
}

/** The draft that shows a saved record again, for correcting it. */
export function draftOf(fields: readonly Field[], body: Body): Draft {
  const draft = emptyDraft(fields, {});
  for (const field of fields) {
    const other = keyInUnit(field, true);
    const second = field.unit !== undefined && !(field.key in body) && other in body;
    const value = body[second ? other : field.key];
    draft.values[field.key] = value === undefined || value === null ? "" : textOf(value);
    if (field.unit) draft.secondUnit[field.key] = second;
    if (field.local) draft.values[field.key] = choiceBehind(field, fields, body);
  }
  return draft;
}

/** Which choice of a field that is never sent led to this body: the one whose own field stands in it. */
function choiceBehind(local: Field, fields: readonly Field[], body: Body): string {
  const asked = fields.find(
    (one) => one.when?.field === local.key && (one.key in body || keyInUnit(one, true) in body),
  );
  return asked?.when?.is[0] ?? local.fallback ?? "";
}

function textOf(value: Json): string {
  if (typeof value === "boolean") return value ? "yes" : "no";
  if (Array.isArray(value)) return value.map(String).join("  ");
  if (typeof value === "number") return typedNumeral(value);
  return typeof value === "string" ? value : String(value);
}

export function isAsked(field: Field, draft: Draft): boolean {
  return !field.when || field.when.is.includes(draft.values[field.when.field] ?? "");
}

/** How many values stand in the list that a count left empty is about; "" where there are none. */
function counted(field: Field, draft: Draft): string {
  const read = readNumbers(draft.values[field.countOf ?? ""] ?? "");
  return read.ok && read.values.length > 0 ? String(read.values.length) : "";
}

/** The body to send, and what still stands in its way. */
export function bodyOf(kind: string, fields: readonly Field[], draft: Draft): { body: Body; problems: Problem[] } {
  const body: Body = {};
  const problems: Problem[] = [];
  for (const field of fields) {
    if (field.local || !isAsked(field, draft)) continue;
    const text = (draft.values[field.key] ?? "").trim() || counted(field, draft);
    const complain = (sentence: string) => problems.push({ code: "form", field: `/body/${field.key}`, sentence });
    const label = t.fields.label(kind, field.key);
    if (text === "") {
      if (field.required) complain(t.errors.required(label));
      continue;
    }
    const key = keyInUnit(field, draft.secondUnit[field.key] ?? false);
    if (field.type === "decimal" || field.type === "integer") {
      const read = readNumber(text);
      if (!read.ok)
        complain(read.reason === "unclear" ? t.errors.unclearNumber(label, text) : t.errors.noNumber(label, text));
      else if (field.type === "integer" && !Number.isInteger(read.value)) complain(t.errors.noWholeNumber(label, text));
      else body[key] = read.value;
    } else if (field.type === "numbers") {
      const read = readNumbers(text);
      if (read.ok) body[key] = read.values;
      else complain(t.errors.notInList(label, read.bad));
    } else if (field.type === "yes_no") {
      body[key] = text === "yes";
    } else {
      body[key] = text;
    }
  }
  return { body, problems };
}

/** What a saved body holds beyond the form's own fields; a correction carries it on unchanged. */
export function beyondTheForm(fields: readonly Field[], body: Body): Body {
  const own = new Set(fields.flatMap((field) => [field.key, keyInUnit(field, true)]));
  return Object.fromEntries(Object.entries(body).filter(([key]) => !own.has(key)));
}

/** The form's own key of the field that a problem is about, or "" where it is about none of them. */
export function fieldOfProblem(problem: Problem, fields: readonly Field[]): string {
  const name =
    problem.field
      .split("/")
      .filter((part) => part !== "body" && part !== "")
      .at(0) ?? "";
  return fields.find((field) => field.key === name || keyInUnit(field, true) === name)?.key ?? "";
}

/** The same problem with the form's own label where the server's sentence begins with a key. */
export function inFormWords(problem: Problem, kind: string, fields: readonly Field[]): Problem {
  const field = fields.find((one) => one.key === fieldOfProblem(problem, fields));
  const key = field && [field.key, keyInUnit(field, true)].find((one) => problem.sentence.startsWith(`${one} `));
  if (!field || !key) return problem;
  return { ...problem, sentence: `“${t.fields.label(kind, field.key)}” ${problem.sentence.slice(key.length + 1)}` };
}

export function unitNames(unit: UnitKind): readonly [string, string] {
  return t.units[unit] ?? unitEndings[unit];
}
