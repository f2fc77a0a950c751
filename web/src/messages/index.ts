// The words of the page in the language in use. A second language is one more file of the same shape as en.ts.
import { en } from "./en";

export type Messages = typeof en;
export const t: Messages = en;
