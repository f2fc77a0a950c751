import { example } from "../../components/example";
import { outlook, unmeasured } from "../../fixtures/filter";
import { t } from "../../messages";
import CapacityBars from "./CapacityBars.svelte";

const own = outlook.capacity;
export const examples = [
  example(CapacityBars, "well within", { capacity: own }, [t.filter.capacityNow, own.now.text, own.coming_load.text]),
  example(CapacityBars, "huge doubt, no load", { capacity: unmeasured.capacity }, [unmeasured.capacity.at_target.text]),
  example(
    CapacityBars,
    "more load than it can carry",
    {
      capacity: { ...own, coming_load: { value: 2.4, text: "2.4 mg N/L a day", day: "2031-04-20" } },
    },
    ["2.4 mg N/L a day"],
  ),
  example(CapacityBars, "nothing at all", {
    capacity: {
      ...own,
      now: { low: 0, mid: 0, high: 0, text: "none" },
      at_target: { low: 0, mid: 0, high: 0, text: "none" },
      coming_load: { value: 0, text: "none planned", day: null },
    },
  }),
];
