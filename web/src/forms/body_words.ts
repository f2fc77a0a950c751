// An entry in words while only this device has it: what the log would say comes from the server once it is there.
import type { Body } from "../contract";
import { longDay } from "../days";
import { t } from "../messages";
import { numeral } from "../units";
import { keyInUnit, recordKinds } from "./kinds";

/** Tells sittings apart and means nothing to a reader. */
const unsaid = new Set(["session"]);

function valueWords(key: string, value: string | number | boolean): string {
  if (typeof value === "boolean") return value ? t.log.yes : t.log.no;
  if (typeof value === "number") return numeral(value);
  if (/^\d{4}-\d\d-\d\d$/.test(value)) return longDay(value);
  return key === "test" ? t.quantities(value) : value;
}

/** "How many: 3 · Place: Tank": labels, choices, numbers and days as the form has them. */
export function bodyWords(kind: string, body: Body): string {
  const fields = recordKinds[kind] ?? [];
  const chosen = new Set(["form", "answer", ...fields.filter((one) => one.choices).map((one) => one.key)]);
  return Object.entries(body)
    .filter(([key]) => !unsaid.has(key))
    .flatMap(([key, value]) => {
      if (typeof value === "object") return [];
      const field = fields.find((one) => one.key === key || keyInUnit(one, true) === key);
      const second = field?.unit !== undefined && field.key !== key;
      const unit = field?.unit ? ` ${t.units[field.unit]?.[second ? 1 : 0] ?? ""}` : "";
      const words = typeof value === "string" && chosen.has(key) ? t.choices(value) : valueWords(key, value);
      return [`${t.fields.label(kind, field?.key ?? key)}: ${words}${unit}`];
    })
    .join(" · ");
}
