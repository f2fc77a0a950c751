// The set-points of a plan as steps, and how a step is moved. A step holds from its day until the next one's.
import type { Day, PlanRow } from "./contract";
import { dayNumber, dayOfNumber } from "./days";

export interface Step {
  day: Day;
  c: number;
}

/** The days that can be moved on the season's line. */
export type MovedDay = "egg_day" | "hatch" | "swim_up" | "release_until";

/** Controllers are set in halves of a degree. */
export const stepC = 0.5;

export function stepsOf(row: Pick<PlanRow, "days" | "c">): Step[] {
  const steps: Step[] = [];
  row.days.forEach((day, index) => {
    const c = row.c[index];
    if (c !== undefined && c !== steps.at(-1)?.c) steps.push({ day, c });
  });
  return steps;
}

/** A temperature with one decimal, halves to the even tenth as the server does it. */
export function degrees(c: number): string {
  // Quarters are the only ties there are; the rest is rounded alike everywhere.
  const tie = Number.isInteger(c * 4) && !Number.isInteger(c * 2);
  return tie ? (Math.round(c * 5) / 5).toFixed(1) : c.toFixed(1);
}

/** To the nearest half degree inside [low, high]. */
export function snapped(c: number, low: number, high: number): number {
  return Math.min(
    Math.floor(high / stepC) * stepC,
    Math.max(Math.ceil(low / stepC) * stepC, Math.round(c / stepC) * stepC),
  );
}

/** The next half degree up or down, also from a temperature in between. */
export function nudged(c: number, direction: 1 | -1, low: number, high: number): number {
  const next = direction > 0 ? Math.floor(c / stepC + 1e-6) + 1 : Math.ceil(c / stepC - 1e-6) - 1;
  return snapped(next * stepC, low, high);
}

/** A step keeps its place among its neighbours; the first one keeps its day. */
export function moved(steps: readonly Step[], index: number, to: Partial<Step>, last: Day): Step[] {
  const step = steps[index];
  if (!step) return [...steps];
  let day = step.day;
  if (to.day !== undefined && index > 0) {
    const low = dayNumber(steps[index - 1]?.day ?? step.day) + 1;
    const high = (steps[index + 1] ? dayNumber(steps[index + 1]?.day ?? last) : dayNumber(last) + 1) - 1;
    day = dayOfNumber(Math.max(low, Math.min(high, dayNumber(to.day))));
  }
  return steps.map((one, place) => (place === index ? { day, c: to.c ?? one.c } : one));
}

/** One step more in the middle of the longest wait, at the same temperature; null where no day is left. */
export function withOneMore(steps: readonly Step[], last: Day): { steps: Step[]; index: number } | null {
  let widest = 1;
  let index = -1;
  steps.forEach((step, place) => {
    const length = dayNumber(steps[place + 1]?.day ?? last) - dayNumber(step.day);
    if (length > widest) [widest, index] = [length, place];
  });
  const before = steps[index];
  if (!before) return null;
  const day = dayOfNumber(dayNumber(before.day) + Math.floor(widest / 2));
  return { steps: [...steps.slice(0, index + 1), { day, c: before.c }, ...steps.slice(index + 1)], index: index + 1 };
}

export const without = (steps: readonly Step[], index: number) =>
  steps.filter((_, place) => place !== index || place === 0);

/** All steps by so many days later or earlier. */
export const shifted = (steps: readonly Step[], days: number): Step[] =>
  steps.map((step) => ({ day: dayOfNumber(dayNumber(step.day) + days), c: step.c }));
