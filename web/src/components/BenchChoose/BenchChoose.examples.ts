import { plan } from "../../fixtures/bench";
import { day } from "../../fixtures/day";
import { kit, twoKits } from "../../fixtures/kits";
import { example } from "../example";
import BenchChoose from "./BenchChoose.svelte";

const still = { day, footKey: "", onkey: () => undefined, onbegin: () => undefined };
export const examples = [
  example(BenchChoose, "an order", { ...still, kits: [kit], ask: async () => ({ ok: true as const, value: plan }) }, [
    "Which tests",
  ]),
  example(BenchChoose, "two kits, a card for later, long words", {
    ...still,
    footKey: "F13",
    kits: twoKits.kits,
    ask: async () => ({
      ok: true as const,
      value: {
        ...plan,
        lasts_with_later_text: "about 11 minutes",
        later: [{ first: "nitrite", then: "ammonia", at_or_above: true, printed: 0.7, sentence: "" }],
      },
    }),
  }),
  example(BenchChoose, "no order", {
    ...still,
    kits: [kit],
    ask: async () => ({
      ok: false as const,
      problems: [
        {
          code: "windows_collide",
          field: "/bench_schedule/tests",
          sentence: 'Tests "nitrite" and "ammonia" can\'t all be read in time by one pair of hands.',
        },
      ],
    }),
  }),
  example(BenchChoose, "no kit", { ...still, kits: [], ask: async () => ({ ok: true as const, value: plan }) }, [
    "Describe your kit",
  ]),
];
