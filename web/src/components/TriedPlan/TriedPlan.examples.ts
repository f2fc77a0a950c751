import { example } from "../example";
import type { PlanRow } from "../../contract";
import { planView, triedPlan } from "../../fixtures/plan";
import { t } from "../../messages";
import TriedPlan from "./TriedPlan.svelte";

const before = planView.plans[0] as PlanRow;
const onback = () => undefined;
const days = { egg_day: "2031-02-02", hatch: "2031-02-09", release_until: "2031-05-20" };

export const examples = [
  example(TriedPlan, "days moved", { before, tried: triedPlan(days), trial: days, refusals: [], onback }, [
    t.season.was,
    t.season.keep,
  ]),
  example(
    TriedPlan,
    "refused, with an older answer",
    { before, tried: triedPlan({}), trial: { changes: [] }, refusals: ["Too cold for eggs."], onback },
    [t.season.refused, t.season.refusedKept],
  ),
  example(TriedPlan, "no answer yet", { before, tried: null, trial: {}, refusals: [], onback }, [
    t.season.triedNothing,
  ]),
];
