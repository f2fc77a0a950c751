import type { FilterChart, WaterQuantity } from "../../contract";
import { example } from "../../components/example";
import { water } from "../../fixtures/day";
import { outlook, ripening, unmeasured } from "../../fixtures/filter";
import { t } from "../../messages";
import ForecastChart from "./ForecastChart.svelte";
import ForecastKey from "./ForecastKey.svelte";

const waterOf = (key: string): WaterQuantity | undefined => water.find((one) => one.key === key);
const chartOf = (charts: FilterChart[], key: string): FilterChart => {
  const found = charts.find((one) => one.key === key);
  if (!found) throw new Error(`no chart ${key}`);
  return found;
};
const show = (name: string, chart: FilterChart, own: WaterQuantity | undefined, shows: string[] = []) =>
  example(ForecastChart, name, { chart, water: own, timeZone: "America/Denver" }, shows);

const nitrite = chartOf(outlook.charts, "nitrite");
const readings = waterOf("nitrite");
if (!readings?.series[2]) throw new Error("the invented day has lost its nitrite");
const none: FilterChart = { ...nitrite, days: [], low_90: [], low_50: [], mid: [], high_50: [], high_90: [] };
const long = "Nitrite as measured by the second kit that the lower school borrowed from the upper school";

export const examples = [
  ...outlook.charts.map((chart) => show(chart.name, chart, waterOf(chart.key), [chart.summary, t.filter.now])),
  show("half way", chartOf(ripening.charts, "nitrite"), { ...readings, series: [] }, [t.filter.noReadings]),
  show("no data", none, undefined, [t.filter.nothingToDraw]),
  show(
    "one reading, above the card",
    nitrite,
    {
      ...readings,
      series: [{ ...readings.series[2], low: 0.7, mid: 1.4, high: null, raw_text: "above the last step" }],
    },
    ["above 0.7", t.filter.outside("above the last step")],
  ),
  show("huge doubt", chartOf(unmeasured.charts, "nitrite"), undefined, [t.filter.cut]),
  show(
    "a season whose first day is today, with gaps",
    {
      ...nitrite,
      days: nitrite.days.slice(0, 30),
      mid: nitrite.mid.slice(0, 30).map((value, index) => (index > 9 && index < 15 ? null : value)),
      low_50: nitrite.low_50.slice(0, 30).map((value, index) => (index > 9 && index < 15 ? null : value)),
      now_index: 0,
    },
    undefined,
  ),
  show("another unit", nitrite, { ...readings, unit_text: "mg/L as NO2" }, [t.filter.otherUnit("mg/L as NO2")]),
  show(
    "very long names",
    {
      ...nitrite,
      name: long,
      limits: nitrite.limits.map((limit) => ({ ...limit, name: `${long}: ${limit.name}` })),
    },
    readings,
    [long],
  ),
  example(ForecastKey, "what the marks mean", {}, [t.filter.openReading]),
];
