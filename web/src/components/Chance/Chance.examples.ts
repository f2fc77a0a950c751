import { t } from "../../messages";
import { example } from "../example";
import Chance from "./Chance.svelte";

const show = (probability: number, words: string) =>
  example(Chance, words, { probability, words, of: t.filter.chanceBy("by 7 January 2031") }, [
    words,
    t.chancePercent(probability),
  ]);
export const examples = [
  show(0.73, "7 chances in 10"),
  show(0.002, "less than 1 chance in 20"),
  show(0.998, "more than 19 chances in 20"),
];
