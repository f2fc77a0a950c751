import { kit } from "../../fixtures/kits";
import { example } from "../example";
import KitEditor from "./KitEditor.svelte";

const props = {
  onsave: async () => ({ ok: false as const, problems: [] }),
  oncancel: () => undefined,
  ondone: () => undefined,
};
export const examples = [
  example(KitEditor, "a kit of four tests", { ...props, from: kit }),
  example(KitEditor, "from nothing", { ...props, template: true }),
];
