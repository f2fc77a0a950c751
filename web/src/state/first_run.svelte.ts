// The set-up under way: what was typed, where one is, and what the server has kept so far. It lives in the browser, so
// that a reload goes on where one was; it ends when the season has begun and its plan stands.
import { freshAnswers, openKeys, unitPairs, type Answers } from "../forms/first_run";
import type { Slots } from "../forms/first_run_save";
import { wallClock } from "../days";
import { forget, keep, kept } from "../keep";
import { reader } from "./reader.svelte";

interface Run {
  answers: Answers;
  /** The screen last seen. */
  screen: string;
  slots: Slots;
  /** Everything is kept; only the kit's card is still to be matched. */
  begun: boolean;
}

const name = "first_run";

export const timeZoneOfDevice = () => Intl.DateTimeFormat().resolvedOptions().timeZone || "UTC";
export const todayIn = (zone: string): string => {
  try {
    return wallClock(new Date(), zone).slice(0, 10);
  } catch {
    return new Date().toISOString().slice(0, 10);
  }
};

function fresh(): Run {
  const zone = timeZoneOfDevice();
  return {
    answers: freshAnswers(zone, todayIn(zone), reader.units, reader.language),
    screen: "units",
    slots: {},
    begun: false,
  };
}

/** What was begun earlier, by an older page too. Language and units are what the reader has chosen since; a number keeps
 * the unit it was typed in. */
function found(): Run | null {
  const run = kept<Run>(name);
  if (!(run?.answers?.values && run.answers.breaks && run.slots)) return null;
  const { values, second } = run.answers;
  for (const key of Object.keys(values)) if (values[key] && unitPairs.has(key)) second[key] ??= values.units === "us";
  Object.assign(values, { language: reader.language, units: reader.units });
  if (run.screen === "language") run.screen = "units";
  return run;
}

export const run: Run = $state(found() ?? fresh());

export const keepRun = () => keep(name, $state.snapshot(run));

/** A season is kept and the set-up is not over: its name tells it from a season of another folder. */
export const goesOnWith = (season: string): boolean => {
  const sent = run.slots.season?.sent?.body.name;
  return sent !== undefined && sent === season;
};

/** Nothing is kept where there is no season: what was kept belongs to another folder. */
export function beginAnew(): void {
  run.slots = {};
  run.begun = false;
}

/** What was left open, for the plan page and the set-up's own page. */
export const leftOpen = (): string[] => kept<string[]>(`${name}.open`) ?? [];

export function endRun(): void {
  if (run.slots.season) keep(`${name}.open`, openKeys(run.answers));
  forget(name);
  Object.assign(run, fresh());
}
