import type { Tone } from "../../contract";
import { day, firstDay } from "../../fixtures/day";
import { t } from "../../messages";
import { example } from "../example";
import Headline from "./Headline.svelte";

const tones: Tone[] = ["alarm", "act", "watch", "good", "unknown"];
const long =
  "Ammonia, nitrite and temperature are all beyond what newly hatched alevins can bear, and the last reading of each is older than the weekend: change 70 litres now, then test again before you leave.";
export const examples = [
  ...tones.map((tone) =>
    example(
      Headline,
      `tone ${tone}`,
      { headline: { ...day.headline, tone }, today: day.today_text, stage: day.stage },
      [t.tone[tone]],
    ),
  ),
  example(Headline, "first day", { headline: firstDay.headline, today: day.today_text, stage: firstDay.stage }, [
    "Nothing has been measured yet.",
    t.tone.unknown,
  ]),
  example(Headline, "very long sentence", {
    headline: { tone: "alarm" as const, sentence: long, detail: long },
    today: day.today_text,
    stage: day.stage,
  }),
];
