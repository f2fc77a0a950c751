import { example } from "../example";
import BenchVerb from "./BenchVerb.svelte";

export const examples = (["fill", "drops", "powder", "mix", "wait", "read"] as const).map((verb) =>
  example(BenchVerb, verb, { verb }),
);
