// A kit while it is being described: numbers as typed text, so that nothing is lost while they are not yet numbers.
import type { Kit, KitTest, TimedStep } from "../contract";
import { t } from "../messages";
import { readNumber } from "../numbers";
import { typedNumeral } from "../units";

/** A kit to start from, in the reader's words. */
export const inReadersWords = (kit: Kit): Kit => ({
  ...kit,
  name: t.templateWords(kit.name),
  tests: kit.tests.map((test) => ({
    ...test,
    ...(test.timed_steps
      ? { timed_steps: test.timed_steps.map((step) => ({ ...step, text: t.templateWords(step.text) })) }
      : {}),
  })),
});

export interface StepDraft {
  value: string;
  swatch: string;
  colourName: string;
}

/** A step by the clock as typed; numbers stay text until they are numbers. */
export interface TimedStepDraft {
  do: TimedStep["do"];
  text: string;
  seconds: string;
  count: string;
  readBy: string;
}

export const emptyTimedStep = (what: TimedStep["do"] = "fill"): TimedStepDraft => ({
  do: what,
  text: "",
  seconds: "",
  count: "",
  readBy: "",
});

const typedOf = (value: number | undefined) => (value === undefined ? "" : typedNumeral(value));

export const timedStepDraft = (step: TimedStep): TimedStepDraft => ({
  do: step.do,
  text: step.text,
  seconds: typedOf(step.seconds),
  count: typedOf(step.count),
  readBy: typedOf(step.read_by_seconds),
});

/** The step without what was left empty; `whole` reads a number, and complains. */
function timedStepOf(draft: TimedStepDraft, whole: (text: string) => number | undefined): TimedStep {
  const step: TimedStep = { do: draft.do, text: draft.text.trim() };
  const [seconds, count, readBy] = [draft.seconds, draft.count, draft.readBy].map((text) =>
    text.trim() === "" ? undefined : whole(text),
  );
  if (seconds !== undefined && timedBy[draft.do].includes("seconds")) step.seconds = seconds;
  if (count !== undefined && timedBy[draft.do].includes("count")) step.count = count;
  if (readBy !== undefined && timedBy[draft.do].includes("readBy")) step.read_by_seconds = readBy;
  return step;
}

/** Which numbers each kind of step can have. */
export const timedBy: Record<TimedStep["do"], readonly ("seconds" | "count" | "readBy")[]> = {
  fill: ["seconds"],
  drops: ["count", "seconds"],
  powder: ["count", "seconds"],
  mix: ["seconds"],
  wait: ["seconds", "readBy"],
  read: ["readBy", "seconds"],
};

export interface TestDraft {
  key: string;
  quantity: string;
  method: KitTest["method"];
  unit: string;
  steps: StepDraft[];
  colours: boolean;
  perDrop: string;
  accuracy: string;
  timedSteps: TimedStepDraft[];
}

export interface KitDraft {
  key: string;
  name: string;
  tests: TestDraft[];
}

export const quantities = [
  "total_ammonia",
  "nitrite",
  "nitrate",
  "ph",
  "alkalinity",
  "hardness",
  "oxygen",
  "chlorine",
  "chloride",
] as const;

const hardnessUnits = [
  "german_degrees",
  "french_degrees",
  "english_degrees",
  "mg_caco3_per_l",
  "mmol_per_l",
  "meq_per_l",
];
const unitsByQuantity: Record<string, readonly string[]> = {
  total_ammonia: ["mg_n_per_l", "mg_nh3_per_l", "mg_nh4_per_l"],
  nitrite: ["mg_n_per_l", "mg_no2_per_l"],
  nitrate: ["mg_n_per_l", "mg_no3_per_l"],
  ph: ["ph"],
  alkalinity: hardnessUnits,
  hardness: hardnessUnits,
};

export const unitsOf = (quantity: string): readonly string[] => unitsByQuantity[quantity] ?? ["mg_per_l"];

export const emptyStep = (): StepDraft => ({ value: "", swatch: "#d8d8d8", colourName: "" });

export function emptyTest(): TestDraft {
  return {
    key: "",
    quantity: "total_ammonia",
    method: "colour_steps",
    unit: "mg_n_per_l",
    steps: [emptyStep(), emptyStep(), emptyStep()],
    colours: false,
    perDrop: "",
    accuracy: "",
    timedSteps: [],
  };
}

export function draftOfKit(kit: Kit): KitDraft {
  return {
    key: kit.key,
    name: kit.name,
    tests: kit.tests.map((test) => ({
      key: test.key,
      quantity: test.quantity,
      method: test.method,
      unit: test.unit,
      steps: (test.steps ?? []).map((value, index) => ({
        value: typedNumeral(value),
        swatch: test.swatches?.[index] ?? "#d8d8d8",
        colourName: test.colour_names?.[index] ?? "",
      })),
      colours: (test.swatches?.length ?? 0) > 0,
      perDrop: typedOf(test.per_drop),
      accuracy: typedOf(test.accuracy),
      timedSteps: (test.timed_steps ?? []).map(timedStepDraft),
    })),
  };
}

/** A key made of a name: "Drop kit, lab 2" → "drop_kit_lab_2". */
export function keyOfName(name: string): string {
  const key = name
    .normalize("NFKD")
    .replace(/\p{M}/gu, "")
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, "_")
    .replace(/^_+|_+$/g, "")
    .slice(0, 60);
  return key || "kit";
}

export function kitOfDraft(draft: KitDraft): { kit: Kit; problems: string[] } {
  const problems: string[] = [];
  if (draft.name.trim() === "") problems.push(t.errors.required(t.kit.name));
  if (draft.tests.length === 0) problems.push(t.kit.noTests);
  const used = new Set<string>();
  const tests = draft.tests.map((test) => {
    const name = t.quantities(test.quantity);
    const number = (text: string): number | undefined => {
      const read = readNumber(text);
      if (read.ok) return read.value;
      problems.push(read.reason === "empty" ? t.errors.required(name) : t.kit.badNumber(name, text));
      return undefined;
    };
    let key = test.key || keyOfName(test.quantity);
    for (let count = 2; used.has(key); count += 1) key = `${test.key || test.quantity}_${count}`;
    used.add(key);
    const made: KitTest = { key, quantity: test.quantity, method: test.method, unit: test.unit };
    if (test.method === "colour_steps") {
      const filled = test.steps.filter((step) => step.value.trim() !== "");
      if (filled.length < 2) problems.push(t.kit.noSteps(name));
      const values = filled.map((step) => number(step.value));
      made.steps = values.filter((value) => value !== undefined);
      if (made.steps.some((value, index) => index > 0 && value <= (made.steps?.[index - 1] ?? value)))
        problems.push(t.kit.notRising(name));
      if (test.colours) made.swatches = filled.map((step) => step.swatch);
      if (filled.some((step) => step.colourName !== "")) made.colour_names = filled.map((step) => step.colourName);
    } else if (test.method === "drop_count") {
      const perDrop = number(test.perDrop);
      if (perDrop !== undefined) made.per_drop = perDrop;
    } else if (test.accuracy.trim() !== "") {
      const accuracy = number(test.accuracy);
      if (accuracy !== undefined) made.accuracy = accuracy;
    }
    const whole = (text: string): number | undefined => {
      const read = readNumber(text);
      if (read.ok && Number.isInteger(read.value) && read.value >= 0) return read.value;
      problems.push(t.kit.badNumber(name, text));
      return undefined;
    };
    if (test.timedSteps.length > 0) made.timed_steps = test.timedSteps.map((step) => timedStepOf(step, whole));
    return made;
  });
  return { kit: { key: draft.key || keyOfName(draft.name), name: draft.name.trim(), tests }, problems };
}
