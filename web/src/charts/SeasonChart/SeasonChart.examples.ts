import { example } from "../../components/example";
import { day, firstDay } from "../../fixtures/day";
import { t } from "../../messages";
import SeasonChart from "./SeasonChart.svelte";

export const examples = [
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
