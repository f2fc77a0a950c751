// What the browser keeps for this page: drafts of forms until the server has them, the team's label, chosen units.
// A browser that forbids storage only loses this convenience.

export function keep(key: string, value: unknown): void {
  try {
    localStorage.setItem(`redd.${key}`, JSON.stringify(value));
  } catch {
    // Storage is full or forbidden: the form itself still holds what was typed.
  }
}

export function kept<T>(key: string): T | null {
  try {
    const text = localStorage.getItem(`redd.${key}`);
    return text === null ? null : (JSON.parse(text) as T);
  } catch {
    return null;
  }
}

export function forget(key: string): void {
  try {
    localStorage.removeItem(`redd.${key}`);
  } catch {
    // Nothing kept, nothing to forget.
  }
}

/** A key that makes a resent entry recognisable. Works without a secure context, unlike randomUUID. */
export function newEntryKey(): string {
  const bytes = crypto.getRandomValues(new Uint8Array(16));
  return `page-${Array.from(bytes, (byte) => byte.toString(16).padStart(2, "0")).join("")}`;
}
