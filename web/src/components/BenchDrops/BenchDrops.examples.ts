import { example } from "../example";
import BenchDrops from "./BenchDrops.svelte";

const still = { ondrop: () => undefined, onundo: () => undefined, listens: false };
export const examples = [
  example(BenchDrops, "none yet", { ...still, count: 0, wanted: 6 }, ["0"]),
  example(BenchDrops, "all in", { ...still, count: 6, wanted: 6 }, ["All drops are in."]),
  example(BenchDrops, "too many", { ...still, count: 7, wanted: 6 }, ["More drops than the card asks for"]),
  example(BenchDrops, "many, until the colour turns", { ...still, count: 137 }, ["137"]),
];
