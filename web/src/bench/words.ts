// How tests, steps and times of a sitting are called on the page.
import type { Kit, KitTest } from "../contract";
import { howRead } from "../forms/card";
import { t } from "../messages";
import { figure, numeral } from "../units";
import type { PlanStep, ReadValue } from "./plan";

/** "4:05", as a timer shows it; never below nought. */
export function clock(seconds: number): string {
  const whole = Math.max(0, Math.ceil(seconds - 1e-6));
  return `${Math.floor(whole / 60)}:${String(whole % 60).padStart(2, "0")}`;
}

/** The name of a test; of two tests of one quantity with its range. */
export function nameOf(kit: Kit, key: string): string {
  const test = kit.tests.find((one) => one.key === key);
  if (!test) return key;
  const name = t.quantities(test.quantity);
  return kit.tests.filter((one) => one.quantity === test.quantity).length > 1 ? `${name} (${howRead(test)})` : name;
}

/** When the other card of a quantity is due. */
export const laterText = (kit: Kit, rule: { first: string; then: string; printed: number; at_or_above: boolean }) =>
  t.bench.laterOnly(nameOf(kit, rule.then), nameOf(kit, rule.first), numeral(rule.printed), rule.at_or_above);

/** A turn in the core's words, the test by its name on the page where the core begins with its key. */
export const turnText = (kit: Kit, turn: { test: string; sentence: string }) =>
  turn.sentence.startsWith(turn.test) ? nameOf(kit, turn.test) + turn.sentence.slice(turn.test.length) : turn.sentence;

export function stepText(step: PlanStep): string {
  if (step.text) return step.text;
  if (step.assumed && step.do === "fill") return t.bench.assumedFill;
  if (step.assumed && step.ends_s - step.starts_s >= 60) return t.bench.wholeTest;
  return t.bench.usual[step.do] ?? "";
}

/** What was read, in the card's own numbers. */
export function valueText(test: KitTest | undefined, value: ReadValue): string {
  const unit = t.kitUnit(test?.unit ?? "");
  const low = figure(String(value.value ?? ""));
  switch (value.form) {
    case "drops":
      return t.bench.dropCount(value.value ?? 0);
    case "between":
      return t.log.step(t.bench.between(low, figure(String(value.upper_value ?? ""))), unit);
    case "below_first":
      return t.log.step(t.log.below(figure(String(test?.steps?.[0] ?? ""))), unit);
    case "above_last":
      return t.log.step(t.log.above(figure(String(test?.steps?.at(-1) ?? ""))), unit);
    default:
      return t.log.step(low, unit);
  }
}
