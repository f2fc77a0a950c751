import { example } from "../../components/example";
import { day, firstDay } from "../../fixtures/day";
import { planBeforeEggs, planView, triedPlan } from "../../fixtures/plan";
import { t } from "../../messages";
import { stepsOf } from "../../plan_steps";
import SeasonChart from "./SeasonChart.svelte";

const nothing = () => undefined;
const chosen = planView.plans[0] ?? triedPlan({});
const moves = { onstep: nothing, onday: nothing };

export const examples = [
  example(
    SeasonChart,
    "with its plan",
    {
      line: day.season_line,
      milestones: day.milestones,
      today: day.today,
      summary: "In words.",
      plan: { view: planView, row: chosen, before: null, trial: null },
      steps: stepsOf(chosen),
      ...moves,
    },
    [t.season.stepHandle, t.season.release, "Spring break"],
  ),
  example(
    SeasonChart,
    "eggs to come, their day moved",
    {
      line: firstDay.season_line,
      milestones: [],
      today: "2031-01-28",
      summary: "In words.",
      plan: {
        view: planBeforeEggs,
        row: triedPlan({ egg_day: "2031-02-05" }),
        before: chosen,
        trial: { egg_day: "2031-02-05" },
      },
      steps: stepsOf(chosen),
      from: "2031-01-14",
      active: 1,
      ...moves,
    },
    [t.season.dayHandles.egg_day ?? ""],
  ),
  example(
    SeasonChart,
    "a season half way",
    { line: day.season_line, milestones: day.milestones, today: day.today, summary: "In words." },
    [t.season.today, "Half hatched"],
  ),
  example(SeasonChart, "first day, nothing planned", {
    line: firstDay.season_line,
    milestones: [],
    today: "2030-08-19",
    summary: "In words.",
  }),
  example(SeasonChart, "failed logger and a window of months", {
    line: { ...day.season_line, temperature: day.season_line.temperature.filter((_, index) => index % 9 === 0) },
    milestones: day.milestones.map((one) => ({
      ...one,
      observed_day: null,
      window90: { from: "2030-12-01", to: "2031-06-30" },
    })),
    today: "2031-07-15",
    summary: "In words.",
  }),
];
