import { kit } from "../../fixtures/kits";
import { example } from "../example";
import DropCounter from "./DropCounter.svelte";

const test = kit.tests[2];
if (!test) throw new Error("the invented kit has lost its drop test");
export const examples = [
  example(DropCounter, "none yet", { test, drops: "", id: "none" }),
  example(DropCounter, "many", { test, drops: "137", id: "many" }, ["137"]),
];
