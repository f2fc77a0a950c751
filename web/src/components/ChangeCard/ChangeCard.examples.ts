import { waterPlan } from "../../fixtures/water_plan";
import { example } from "../example";
import ChangeCard from "./ChangeCard.svelte";

const change = waterPlan.alternatives[0]?.changes[0];
if (!change) throw new Error("no invented change");
export const examples = [
  example(ChangeCard, "with all", { change }, [
    "35 L (17 %)",
    "6.2 to 10.0 °C",
    "0.5 g",
    "24 hours, needed",
    "45 minutes",
  ]),
  example(
    ChangeCard,
    "water as it comes, no chlorine",
    {
      change: { ...change, as_it_comes: true, must_stand: false, thiosulfate_text: null, vacuum: false, effects: [] },
    },
    ["as it comes", "no chlorine in it", "24 hours are best"],
  ),
];
