import { kit } from "../../fixtures/kits";
import { example } from "../example";
import BenchEntry from "./BenchEntry.svelte";

const [nitrite, , kh, ph] = kit.tests;
if (!nitrite || !kh || !ph) throw new Error("the invented kit has lost its tests");
const still = {
  teams: [""],
  team: 0,
  drops: 0,
  listens: false,
  ondrop: () => undefined,
  onundo: () => undefined,
  onread: () => undefined,
};
const teams = ["Team Otter", "The team with the very long label from the room at the end of the corridor"];
export const examples = [
  example(BenchEntry, "a card, nobody named", { ...still, test: nitrite }),
  example(BenchEntry, "hand it over, long label", { ...still, test: nitrite, teams, team: 1 }, ["1 of 2 teams are in"]),
  example(BenchEntry, "the team's own drops", { ...still, test: kh, teams, team: 0, drops: 4, handed: true }, [
    "The colour has turned: 4 drops",
  ]),
  example(BenchEntry, "a meter", { ...still, test: ph }),
];
