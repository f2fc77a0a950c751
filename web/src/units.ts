// Numbers as this reader writes and measures them. Inside the page everything is °C and litres; only what is shown or
// typed is converted, here.
import type { UnitKind } from "./forms/kinds";
import { t } from "./messages";
import { readNumber } from "./numbers";
import { degrees } from "./plan_steps";
import { reader } from "./state/reader.svelte";

const fahrenheit = () => reader.units === "us";
const litresPerGallon = 3.785411784;
const metresPerFoot = 0.3048;
export const fFromC = (c: number) => 1.8 * c + 32;
export const cFromF = (f: number) => (f - 32) / 1.8;
/** A number and its unit stay on one line. */
const together = (number: string, unit: string) => `${number}\u00a0${unit}`;

/** "8.5" as "8,5" for a Spanish reader. For figures without grouping. */
export const figure = (plain: string) => (reader.language === "es" ? plain.replace(".", ",") : plain);

/** A number as it is printed on a card or typed. */
export const numeral = (value: number) => figure(String(value));
/** The same for a form, which must be able to read it again: 1,234 it would ask about. */
export const typedNumeral = (value: number) => (readNumber(numeral(value)).ok ? numeral(value) : String(value));

export const temperatureUnit = () => (fahrenheit() ? "°F" : "°C");
/** °C as the number this reader expects beside temperatureUnit(). */
export const shownTemperature = (c: number) => (fahrenheit() ? fFromC(c) : c);
/** What this reader typed, in °C. */
export const typedTemperature = (value: number) => (fahrenheit() ? cFromF(value) : value);
export const temperatureFigure = (c: number) => figure(degrees(shownTemperature(c)));
export const temperatureText = (c: number) => together(temperatureFigure(c), temperatureUnit());
/** A difference of temperatures, in °C: no zero to shift. */
export const temperatureChangeText = (c: number) =>
  together(figure(degrees(fahrenheit() ? 1.8 * c : c)), temperatureUnit());

/** What this reader typed as litres or gallons, in litres. */
export const typedVolume = (value: number) => (fahrenheit() ? value * litresPerGallon : value);
export const volumeText = (litres: number) =>
  together(
    String(Math.round(fahrenheit() ? litres / litresPerGallon : litres)),
    t.units.volume?.[fahrenheit() ? 1 : 0] ?? "",
  );
/** A height above the sea, in whole metres or feet. */
export const heightText = (m: number) =>
  together(String(Math.round(fahrenheit() ? m / metresPerFoot : m)), t.units.height?.[fahrenheit() ? 1 : 0] ?? "");

/** How a drawing shows what comes in `unit`: only °C has another one. */
export const shownIn = (unit: string) =>
  unit === "°C" ? { unit: temperatureUnit(), of: shownTemperature } : { unit, of: (value: number) => value };

/** Which fields of a form begin in their second unit. */
export function unitsOfReader(): Record<UnitKind, boolean> {
  const us = fahrenheit();
  return { temperature: us, volume: us, mass: false, length: us, thickness: us, cooling: us };
}
