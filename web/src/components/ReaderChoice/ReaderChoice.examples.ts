import { example } from "../example";
import type { Reader } from "../../state/reader.svelte";
import ReaderChoice from "./ReaderChoice.svelte";

const onchoose = () => undefined;
const english: Reader = { language: "en", units: "metric" };
const spanish: Reader = { language: "es", units: "us" };

export const examples = [
  example(ReaderChoice, "English, metric", { reader: english, onchoose }, ["English", "Español", "°C and litres"]),
  example(ReaderChoice, "Spanish, US units", { reader: spanish, onchoose }, ["°F and US gallons"]),
];
