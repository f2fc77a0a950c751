// Who reads the page: in which language, with which units. Chosen once and kept in the browser, or in the address where
// it keeps nothing; until then the browser's own language says what is likely.
import { forget, keep, kept } from "../keep";

export const languages = ["en", "es"] as const;
export const unitSystems = ["metric", "us"] as const;
export type Language = (typeof languages)[number];
/** "us": °F and US gallons in place of °C and litres. */
export type Units = (typeof unitSystems)[number];

export interface Reader {
  language: Language;
  units: Units;
}

const one = <T extends string>(known: readonly T[], found: unknown): T | null =>
  known.find((word) => word === found) ?? null;

/** What a language tag such as "es-MX" or "en-US" suggests: °F only where the tag names the United States. */
export function likelyReader(tag: string): Reader {
  return {
    language: /^es\b/i.test(tag) ? "es" : "en",
    units: /^[a-z]{2,3}(-[a-z]{4})?-US\b/i.test(tag) ? "us" : "metric",
  };
}

function readerAtStart(): Reader {
  const likely = likelyReader(globalThis.navigator?.language ?? "en");
  const address: { language?: unknown; units?: unknown } = Object.fromEntries(
    new URLSearchParams(globalThis.location?.search ?? ""),
  );
  const chosen = kept<Partial<Reader>>("reader") ?? address;
  return {
    language: one(languages, chosen?.language) ?? likely.language,
    units: one(unitSystems, chosen?.units) ?? likely.units,
  };
}

/** Stands for as long as the page does: a choice loads it anew. */
export const reader: Reader = readerAtStart();

/** Keeps the choice; chosen units hold for every form again. Whatever the server has worded is to be asked for anew. */
export function chooseReader(choice: Partial<Reader>): void {
  Object.assign(reader, choice);
  if (choice.units) forget("units");
  keep("reader", reader);
}

/** Keeps the choice and loads the page anew in it. What is typed into forms is kept by itself. */
export function chooseAnew(choice: Partial<Reader>): void {
  chooseReader(choice);
  if (kept("reader")) location.reload();
  else location.search = new URLSearchParams(readerParameters()).toString();
}

/** Sent with every question, so that the server words its answers for this reader. */
export const readerHeaders = (): Record<string, string> => ({
  "accept-language": reader.language,
  "redd-units": reader.units,
});

/** The same for an address that a calendar program or a printer asks for, where no header can be set. */
export const readerParameters = (): Record<string, string> => ({ language: reader.language, units: reader.units });
