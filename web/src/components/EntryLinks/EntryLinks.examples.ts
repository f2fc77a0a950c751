import { example } from "../example";
import EntryLinks from "./EntryLinks.svelte";

export const examples = [
  example(EntryLinks, "some named twice", { ids: [464, 475, 479, 465, 475, 466] }, [
    "entry 464, entry 475, entry 479, entry 465 and 1 more",
  ]),
  example(EntryLinks, "the others unsaid", { ids: [1, 2, 3], most: 2, silent: true }, ["entry 1, entry 2"]),
  example(EntryLinks, "none", { ids: [] }),
];
