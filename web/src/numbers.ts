// Reads a number as people type it. A comma may be a decimal comma; where it could as well group thousands the number
// is refused, because guessing wrong by a factor of a thousand is worse than asking again.

export type ReadNumber = { ok: true; value: number } | { ok: false; reason: "empty" | "unclear" | "not_a_number" };

export function readNumber(text: string): ReadNumber {
  const typed = text.trim().replace(/\u2212/g, "-");
  if (typed === "") return { ok: false, reason: "empty" };
  if (/^[+-]?[1-9]\d{0,2}(,\d{3})+(\.\d+)?$/.test(typed)) return { ok: false, reason: "unclear" };
  const plain = typed.replace(",", ".");
  if (!/^[+-]?(\d+\.?\d*|\.\d+)$/.test(plain)) return { ok: false, reason: "not_a_number" };
  return { ok: true, value: Number(plain) };
}

/**
 * Several numbers, one a line or with spaces, semicolons, or commas and spaces between. `bad` is the first part that is
 * none, or could be two: 31,33 is refused.
 */
export function readNumbers(text: string): { ok: true; values: number[] } | { ok: false; bad: string } {
  const parts = text.split(/[\s;]+|,\s+/).map((part) => part.replace(/,$/, ""));
  const values: number[] = [];
  for (const part of parts.filter((one) => one !== "")) {
    const read = readNumber(part);
    if (!read.ok || /\d,\d\d/.test(part)) return { ok: false, bad: part };
    values.push(read.value);
  }
  return { ok: true, values };
}
