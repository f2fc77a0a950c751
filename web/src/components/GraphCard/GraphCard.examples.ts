import { lessons } from "../../fixtures/lessons";
import { example } from "../example";
import GraphCard from "./GraphCard.svelte";

export const examples = lessons.graphs.map((graph) =>
  example(GraphCard, graph.key, { graph, today: lessons.today }, [graph.title, graph.summary]),
);
