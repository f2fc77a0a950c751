import { triedWater } from "../../fixtures/water_plan";
import { example } from "../example";
import TryChange from "./TryChange.svelte";

const ontry = async (trial: Parameters<typeof triedWater>[0]) => ({
  ok: true as const,
  value: { tried: triedWater(trial) },
});
export const examples = [
  example(TryChange, "one kind of water", { waters: [], ontry }, ["Try it", "Dechlorinated"]),
  example(
    TryChange,
    "two kinds of water",
    {
      waters: [
        { key: "tap", name: "cold tap in the lab" },
        { key: "rain", name: "rain barrel behind the shed, filtered twice, kept in the dark" },
      ],
      ontry,
    },
    ["Which water"],
  ),
];
