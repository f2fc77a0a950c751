import type { WaterQuantity } from "../../contract";
import { day, water } from "../../fixtures/day";
import { t } from "../../messages";
import { example } from "../example";
import WaterCard from "./WaterCard.svelte";

const own = (key: string): WaterQuantity => {
  const found = water.find((one) => one.key === key);
  if (!found) throw new Error(`no quantity ${key}`);
  return found;
};
const show = (name: string, one: WaterQuantity, shows: string[] = [], folded = false) =>
  example(WaterCard, name, { water: one, now: day.now, timeZone: day.season.time_zone, folded }, shows);

const nitrite = own("nitrite");
export const examples = [
  ...water.map((one) => show(one.name, one, [one.meaning, t.tone[one.tone]])),
  show("folded", own("ph"), [t.water.chart], true),
  show("one reading", { ...nitrite, series: nitrite.series.slice(-1) }),
  show("never measured", own("oxygen"), [t.water.notMeasured, t.tone.unknown]),
  show("huge doubt", {
    ...nitrite,
    tone: "unknown",
    meaning: "Above the card: at least 0.7, how much more is not known.",
    series: [{ ...nitrite.series[0]!, low: 0.02, mid: 5, high: 1e6 }],
  }),
  show(
    "above the card's last step",
    {
      ...nitrite,
      meaning: "Above the card.",
      series: [
        ...nitrite.series.slice(0, 2),
        { ...nitrite.series[2]!, low: 0.18, mid: 0.3, high: null, raw_text: "above the last step" },
      ],
    },
    ["above 0.18"],
  ),
  show("many readings", {
    ...nitrite,
    series: Array.from({ length: 80 }, (_, index) => ({
      ...nitrite.series[0]!,
      at: new Date(Date.parse(day.now) - (80 - index) * 86_400_000).toISOString(),
      low: (index % 7) / 40,
      mid: (index % 7) / 40 + 0.02,
      high: (index % 7) / 40 + 0.04,
    })),
  }),
  show("very long name", {
    ...nitrite,
    name: "Nitrite as measured by the second kit that the lower school borrowed from the upper school",
  }),
];
