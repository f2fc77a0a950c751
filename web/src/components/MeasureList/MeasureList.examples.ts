import { outlook, ripening, unmeasured } from "../../fixtures/filter";
import { t } from "../../messages";
import { example } from "../example";
import MeasureList from "./MeasureList.svelte";

export const examples = [
  example(MeasureList, "for egg day", { measures: ripening.measures }, [
    "+20 points (give or take 3)",
    `${t.filter.helps}: +13 points`,
    "no clear change (within 3 points)",
    t.filter.planned,
  ]),
  example(MeasureList, "without a day", { measures: outlook.measures }),
  example(MeasureList, "none", { measures: unmeasured.measures }, [t.filter.noMeasures]),
];
