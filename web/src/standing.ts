// How the water programme, the food and the room stand, in one word and a tone. Only marks that the server set are read;
// what is not known, too old or still to be done is never called good.
import type { Day, FeedView, LoadingView, Tone, WaterPlan } from "./contract";

export interface Standing {
  /** Key of the word in messages. */
  word: string;
  tone: Tone;
}

export function waterStanding(plan: WaterPlan): Standing {
  if (plan.state !== "ready") return { word: "none", tone: "unknown" };
  if (plan.stale) return { word: "stale", tone: "unknown" };
  if (!plan.reached) return { word: "notEnough", tone: "act" };
  const next = plan.alternatives.find((one) => one.key === "programme")?.changes[0];
  if (next) return next.day <= plan.today ? { word: "today", tone: "act" } : { word: "planned", tone: "watch" };
  // A limit may be passed at this moment even where the weeks ahead look well.
  return { word: "noChange", tone: plan.cautions.length > 0 ? "watch" : "good" };
}

export const isFeeding = (view: FeedView) => view.stage === "pinch" || view.stage === "routine";

/** Food still to be given is a thing to do, not a good state. */
export function foodStanding(view: FeedView): Standing {
  if (view.stage === "none") return { word: "none", tone: "unknown" };
  if (view.overfed) return { word: "overfed", tone: "act" };
  if (!isFeeding(view)) return { word: view.stage, tone: "watch" };
  if (view.hold.food === "none") return { word: "hold", tone: "act" };
  const planned = view.today?.planned_g ?? 0;
  if (planned > 0 && (view.fed_today_g ?? 0) >= 0.9 * planned) return { word: "fed", tone: "good" };
  return { word: view.hold.food === "half" ? "half" : "feed", tone: "act" };
}

export function roomStanding(view: LoadingView, today: Day): Standing {
  if (view.state === "released") return { word: "released", tone: "unknown" };
  if (view.state === "nothing_planned" || view.days.length === 0) return { word: "nothing", tone: "unknown" };
  if (view.reached)
    return view.state === "in_tank" && view.reached.day <= today
      ? { word: "over", tone: "act" }
      : { word: "overLater", tone: "watch" };
  if (!view.filter.known) return { word: "unknown", tone: "unknown" };
  if (view.filter.doubted || view.first_possible) return { word: "unsure", tone: "watch" };
  return { word: "fits", tone: "good" };
}
