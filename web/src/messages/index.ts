// The words of the page in the language in use. Another language is one more file of the same shape as en.ts, fetched only
// for those who read it; everything else waits for it, as no screen can be drawn without words.
import { reader } from "../state/reader.svelte";
import { en } from "./en";

export type Messages = typeof en;
export const t: Messages = reader.language === "es" ? (await import("./es")).es : en;
