import { example } from "../../components/example";
import { outlook, ripening, unmeasured } from "../../fixtures/filter";
import { t } from "../../messages";
import ReadyStrip from "./ReadyStrip.svelte";

const show = (name: string, one: typeof outlook, shows: string[]) =>
  example(
    ReadyStrip,
    name,
    {
      rows: [
        { name: t.filter.readyRow, window: one.ready.window },
        { name: t.filter.ammoniaPeak, window: one.total_ammonia_peak },
        { name: t.filter.nitritePeak, window: one.nitrite_peak },
      ],
      readyOn: one.ready_on,
      from: one.first_day,
      to: one.charts[0]?.days.at(-1) ?? one.now,
      now: one.now,
      eggDay: one.ready.by_day,
    },
    [one.ready.window.text, ...shows],
  );

export const examples = [
  show("ready long ago", outlook, ["From 60"]),
  show("half way, no sure end", ripening, [t.filter.eggDay]),
  show("nothing known", unmeasured, [t.chancePercent(0.12)]),
  show("no chances by day", { ...ripening, ready_on: [] }, []),
];
