import { example } from "../example";
import FootKey from "./FootKey.svelte";

const onkey = () => undefined;
export const examples = [
  example(FootKey, "none", { key: "", onkey }, ["No other key is set."]),
  example(FootKey, "one set", { key: "F13", onkey }, ["F13"]),
];
