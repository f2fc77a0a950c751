// The sitting under way in the browser's storage, one a season, written after every tap. What is read back is checked: a
// sitting that does not hang together is not taken up.
import { forget, keep, kept } from "../keep";
import type { Session } from "./session";

const nameOf = (season: string) => `bench.${season}`;

/** Which season a sitting belongs to. */
export const seasonKey = (season: { name: string; first_day: string }) => `${season.first_day}.${season.name}`;

function holds(found: unknown): found is Session {
  const one = found as Partial<Session> | null;
  return (
    one?.version === 1 &&
    typeof one.id === "string" &&
    Array.isArray(one.kit?.tests) &&
    Array.isArray(one.tests) &&
    Array.isArray(one.turns) &&
    Array.isArray(one.active) &&
    Array.isArray(one.teams)
  );
}

export function keptSession(season: string): Session | null {
  const found = kept<unknown>(nameOf(season));
  return holds(found) ? found : null;
}

/** False where the browser keeps nothing: then a reload would lose the sitting, and the page says so. */
export function keepSession(season: string, session: Session): boolean {
  keep(nameOf(season), session);
  return kept<Partial<Session>>(nameOf(season))?.id === session.id;
}

export const forgetSession = (season: string) => forget(nameOf(season));

/** The storage key, to notice another window of the same page. */
export const storageKeyOf = (season: string) => `redd.${nameOf(season)}`;

/** Whether a sitting of any season is kept here: before somebody is signed in, nobody can say of which. */
export function anySittingKept(): boolean {
  try {
    // A season's key begins with its first day.
    return Object.keys(localStorage).some((key) => /^redd\.bench\.\d{4}-/.test(key));
  } catch {
    return false;
  }
}
