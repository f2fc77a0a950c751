import { plan, planForTwo } from "../../fixtures/bench";
import { kit } from "../../fixtures/kits";
import { example } from "../example";
import BenchPicture from "./BenchPicture.svelte";

export const examples = [
  example(BenchPicture, "one pair of hands", { plan, kit, hands: 1 }, ["Nitrite"]),
  example(BenchPicture, "two pairs of hands", { plan: planForTwo, kit, hands: 2 }),
  example(BenchPicture, "nothing left", { plan: { ...plan, turns: [], lasts_s: 0 }, kit, hands: 1 }),
];
