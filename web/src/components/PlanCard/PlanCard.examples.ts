import { example } from "../example";
import { planView } from "../../fixtures/plan";
import { t } from "../../messages";
import PlanCard from "./PlanCard.svelte";

const onchoose = () => undefined;
const [best, calmest, keep] = planView.plans;

export const examples = [
  ...(best ? [example(PlanCard, "on the line", { plan: best, chosen: true, onchoose }, [t.season.onLine])] : []),
  ...(calmest ? [example(PlanCard, "without a change", { plan: calmest, chosen: false, onchoose }, ["Leave"])] : []),
  ...(keep ? [example(PlanCard, "not possible", { plan: keep, chosen: false, onchoose }, ["chiller"])] : []),
];
