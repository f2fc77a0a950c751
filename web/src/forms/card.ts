// What can be pressed on a colour card: below the first step, each step, between each two neighbours, above the last.
import type { Body, KitTest } from "../contract";
import { t } from "../messages";
import { figure, numeral } from "../units";

export type Form = "below_first" | "step" | "between" | "above_last";

export interface CardChoice {
  id: string;
  form: Form;
  /** In full, as the confirmation says it. */
  label: string;
  /** As it stands on the button, beside the heading of its column. */
  short: string;
  /** The lower step first; one colour for a step, two for a place between steps. */
  swatches: string[];
  colourName: string;
  value: number;
  upper: number | null;
}

export function choicesOf(test: KitTest): CardChoice[] {
  const steps = test.steps ?? [];
  const swatch = (index: number) => test.swatches?.[index];
  const colours = (...indices: number[]) => indices.map(swatch).filter((colour) => colour !== undefined);
  const choices: CardChoice[] = [];
  steps.forEach((value, index) => {
    const text = numeral(value);
    const next = steps[index + 1];
    // Nothing lies below a step printed as zero.
    if (index === 0 && value > 0)
      choices.push({
        id: "below",
        form: "below_first",
        label: t.log.below(text),
        short: t.log.below(text),
        swatches: colours(0),
        colourName: "",
        value,
        upper: null,
      });
    choices.push({
      id: `step-${index}`,
      form: "step",
      label: text,
      short: text,
      swatches: colours(index),
      colourName: test.colour_names?.[index] ?? "",
      value,
      upper: null,
    });
    if (next === undefined)
      choices.push({
        id: "above",
        form: "above_last",
        label: t.log.above(text),
        short: t.log.above(text),
        swatches: colours(index),
        colourName: "",
        value,
        upper: null,
      });
    else
      choices.push({
        id: `between-${index}`,
        form: "between",
        label: t.log.between(text, numeral(next)),
        short: t.log.betweenShort(text, numeral(next)),
        swatches: colours(index, index + 1),
        colourName: "",
        value,
        upper: next,
      });
  });
  return choices;
}

/** Tells two tests of one quantity apart: how it is read, over which range, and what its numbers stand for. */
export function howRead(test: KitTest): string {
  const unit = t.kitUnit(test.unit);
  const [first, last] = [test.steps?.[0], test.steps?.at(-1)];
  if (first !== undefined && last !== undefined) return t.log.range(numeral(first), numeral(last), unit);
  return test.method === "drop_count"
    ? t.log.dropTest(figure(String(test.per_drop ?? "")), unit)
    : t.log.meterTest(unit);
}

/** The part of a reading's body that says what was seen on the card. */
export function seenOf(choice: CardChoice): Body {
  if (choice.form === "between") return { form: "between", value: choice.value, upper_value: choice.upper };
  if (choice.form === "step") return { form: "step", value: choice.value };
  return { form: choice.form };
}

/** The choice that a saved reading was made with, or null where the card has changed since, or it spans several steps. */
export function choiceOf(test: KitTest, body: Body): CardChoice | null {
  return (
    choicesOf(test).find(
      (choice) =>
        choice.form === body.form &&
        (choice.form === "below_first" || choice.form === "above_last" || choice.value === body.value) &&
        (choice.form !== "between" || choice.upper === body.upper_value),
    ) ?? null
  );
}
