import { example } from "../example";
import Sentence from "./Sentence.svelte";

const long =
  "From Monday 5 May 2031 on the 183 animals expected are probably more than the tank carries: room is the limit, and by Friday 6 June 2031 it carries 105.";

export const examples = [
  example(Sentence, "short", { id: "short", text: "No change is needed." }, ["No change is needed."]),
  example(
    Sentence,
    "long, with more behind it",
    { id: "long", text: `${long} Without the filter, ammonia comes first.` },
    [`${long} Without the filter, ammonia comes first.`],
  ),
];
