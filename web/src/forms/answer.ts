// What a new entry changed in the answer for today: the sentences before and after, side by side. Only texts are
// compared; what they mean was worked out by the server.
import type { DayView, Tone } from "../contract";

export interface AnswerLine {
  tone: Tone;
  text: string;
}

export interface Answer {
  headline: AnswerLine;
  quantity: (AnswerLine & { name: string; meaning: string }) | null;
  action: string;
}

/** The answer of a day as far as an entry about `quantityKey` ("" for none) could change it. */
export function answerOf(day: DayView, quantityKey: string): Answer {
  const water = day.water.find((quantity) => quantity.key === quantityKey);
  const action = day.actions[0];
  return {
    headline: { tone: day.headline.tone, text: day.headline.sentence },
    quantity: water
      ? { name: water.name, tone: water.tone, text: water.latest?.text ?? "", meaning: water.meaning }
      : null,
    action: action ? [action.what.replace(/\.$/, ""), action.how_much].filter(Boolean).join(": ") : "",
  };
}

export function sameAnswer(before: Answer, after: Answer): boolean {
  return JSON.stringify(before) === JSON.stringify(after);
}
