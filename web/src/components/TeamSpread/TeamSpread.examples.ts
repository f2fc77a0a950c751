import { pooled, pooledApart } from "../../fixtures/bench";
import { example } from "../example";
import TeamSpread from "./TeamSpread.svelte";

export const examples = [
  example(TeamSpread, "three teams", { pooled, name: "Nitrite" }, ["Team Heron", "Together they say"]),
  example(
    TeamSpread,
    "two that can hardly both be right, open above, long label",
    { pooled: pooledApart, name: "Nitrite" },
    ["can hardly all be right"],
  ),
  example(TeamSpread, "one alone", {
    pooled: { ...pooled, spread_text: "", alone: pooled.alone.slice(0, 1) },
    name: "Nitrite",
  }),
];
