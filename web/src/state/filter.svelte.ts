// The filter's outlook takes the server a while: how the page follows that work, stops it and starts it again.
import { cancelFilter, getFilter, startFilter } from "../api";
import { t } from "../messages";
import { announce, app, refreshDay } from "./app.svelte";

const pollMs = 400;
/** Rises when an older answer about the work may no longer be believed. */
let round = 0;

/** Asks how far the work is until it is done, then for the day once more, whose advice may have changed. */
export function followWork(): () => void {
  let stopped = false;
  let timer: ReturnType<typeof setTimeout> | undefined;

  async function look(): Promise<void> {
    const [asked, day] = [round, app.asOf];
    const outcome = await getFilter(day);
    if (stopped) return;
    if (asked === round && day === app.asOf && app.day) {
      if (!outcome.ok) {
        app.problems = outcome.problems;
        return;
      }
      const filter = outcome.value.filter;
      if (filter.state === "ready") {
        await refreshDay();
        if (app.day?.filter?.state === "ready") announce(t.filter.finished);
      } else {
        app.day.filter = filter;
      }
    }
    if (!stopped) timer = setTimeout(() => void look(), pollMs);
  }

  timer = setTimeout(() => void look(), pollMs);
  return () => {
    stopped = true;
    clearTimeout(timer);
  };
}

async function order(send: typeof cancelFilter, said: string): Promise<void> {
  round += 1;
  const day = app.asOf;
  const outcome = await send(day);
  if (day !== app.asOf || !app.day) return;
  if (!outcome.ok) {
    app.problems = outcome.problems;
    return;
  }
  round += 1;
  app.problems = [];
  // It may have come to its end just before it was stopped.
  if (outcome.value.filter.state === "ready") await refreshDay();
  else app.day.filter = outcome.value.filter;
  announce(said);
}

export const stopWork = () => order(cancelFilter, t.filter.stopped);
export const startWork = () => order(startFilter, t.filter.started);
