// The what-if screen's state: the base, the sliders, and the newest answer. Answers come from the core in the page, from the
// server only where the browser cannot run it; nothing is kept anywhere.
import { getWhatIfBase, tryWhatIf, type Outcome } from "../api";
import type { DayView, Problem } from "../contract";
import type { WhatIfAnswer, WhatIfBase, WhatIfSliderName, WhatIfSliders } from "../contract_whatif";
import { askEngine } from "../engine/engine";
import { app, refreshDay } from "./app.svelte";
import { newestWins } from "./newest";

export const sliderNames: WhatIfSliderName[] = [
  "room_warmer_c",
  "set_point_warmer_c",
  "weekly_change_fraction",
  "animals_factor",
  "food_factor",
];

class WhatIfState {
  base: WhatIfBase | null = $state.raw(null);
  sliders: WhatIfSliders | null = $state.raw(null);
  planned: WhatIfAnswer | null = $state.raw(null);
  answer: WhatIfAnswer | null = $state.raw(null);
  problems: Problem[] = $state.raw([]);
  /** The browser cannot run the core. */
  byServer = $state(false);
}
export const whatif = new WhatIfState();

let request = 0;

type Answered = Outcome<{ what_if: WhatIfAnswer }>;

async function reckon(sliders: WhatIfSliders, base: WhatIfBase, asOf: string | null): Promise<Answered> {
  if (!whatif.byServer) {
    const own: Answered = await askEngine({ what_if: { base: base.asked, sliders } });
    if (own.ok || !own.problems.some((problem) => problem.code === "no_engine")) return own;
    whatif.byServer = true;
  }
  return tryWhatIf(sliders, asOf);
}

export function neutral(base: WhatIfBase): WhatIfSliders {
  const sliders = {} as WhatIfSliders;
  for (const name of sliderNames) sliders[name] = base.sliders[name].as_planned;
  return sliders;
}

/** Asks for the base of a day. Another day begins with all as it is; the same day told anew leaves the sliders where they are. */
export async function loadWhatIf(_day: DayView, again: boolean): Promise<void> {
  const own = ++request;
  const anew = !again || !whatif.base;
  if (anew) tries.forget();
  const outcome = await getWhatIfBase(app.asOf);
  if (own !== request) return;
  whatif.problems = outcome.ok ? [] : outcome.problems;
  if (anew) {
    whatif.base = outcome.ok ? outcome.value.what_if_base : null;
    whatif.answer = whatif.planned = whatif.sliders = null;
  }
  if (!outcome.ok) return;
  const base = outcome.value.what_if_base;
  const planned = await reckon(neutral(base), base, app.asOf);
  if (own !== request) return;
  whatif.problems = planned.ok ? [] : planned.problems;
  if (!planned.ok) return;
  tries.forget();
  whatif.base = base;
  whatif.planned = planned.value.what_if;
  // An hour has passed since the day was told: the work on this one is followed by the day.
  if (base.filter_working && app.day?.filter?.state === "ready") void refreshDay(true);
  if (!anew && whatif.sliders) return tries.ask(whatif.sliders);
  whatif.sliders = neutral(base);
  whatif.answer = whatif.planned;
}

const tries = newestWins(
  (sliders: WhatIfSliders): Promise<Answered> =>
    whatif.base ? reckon(sliders, whatif.base, app.asOf) : Promise.resolve({ ok: false, problems: [] }),
  (outcome) => {
    whatif.problems = outcome.ok ? [] : outcome.problems;
    if (outcome.ok) whatif.answer = outcome.value.what_if;
  },
);

export function moveSliders(sliders: WhatIfSliders): void {
  whatif.sliders = sliders;
  tries.ask(sliders);
}
