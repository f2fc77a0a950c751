// Answers that public/early.js asked for while this script was on its way.
import type { Reply } from "./transport";

interface Early {
  headers: Record<string, string>;
  answers: Map<string, Promise<Reply | null>>;
  at: number;
}

/** Assumed: what was asked longer ago is asked anew, as somebody may have written since. */
const freshFor_ms = 5000;

/** The answer to a first question, once; null where it was not asked, asked for another reader, or is old. Comes to null
 * where there was no season to ask of. */
export function earlyAnswer(path: string, headers: Record<string, string>): Promise<Reply | null> | null {
  const early = (globalThis as { reddEarly?: Early }).reddEarly;
  const answer = early?.answers.get(path);
  if (!early || !answer) return null;
  early.answers.delete(path);
  const same = Object.entries(headers).every(([name, value]) => early.headers[name] === value);
  return same && performance.now() - early.at < freshFor_ms ? answer : null;
}

/** What is written makes them old. */
export const forgetEarlyAnswers = () => (globalThis as { reddEarly?: Early }).reddEarly?.answers.clear();
