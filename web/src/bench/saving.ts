// The readings of a sitting as ordinary records. Each has an entry key of its own made from the sitting, the test and the
// team, so that a reading sent twice is kept once.
import type { Outcome } from "../api";
import type { Body, NewRecord, Problem, Saved } from "../contract";
import { plainValue, valuesOf, type Session } from "./session";

export interface ToSave {
  test: string;
  team: number;
  record: NewRecord;
}

/** `at`: whether each reading carries its own time; a demo writes at the story's day instead. */
export function readingsToSave(session: Session, author: string, at: boolean): ToSave[] {
  return session.tests.flatMap((test) =>
    valuesOf(session, test).flatMap((value, team) => {
      if (!value || value.none || value.savedAs !== null) return [];
      const label = session.teams[team] ?? "";
      const body: Body = {
        kit: session.kit.key,
        test,
        ...plainValue(value),
        session: session.id,
        ...(label ? { team: label } : {}),
      };
      const record: NewRecord = {
        kind: "reading",
        author: label || author,
        entry_key: `${session.id}.${test}.${team}`,
        body,
        ...(at ? { at: new Date(value.at).toISOString().replace(/\.\d+Z$/, "Z") } : {}),
      };
      return [{ test, team, record }];
    }),
  );
}

/** Sends what is not saved yet, one after the other; stops at the first that is refused, and says which.
 *
 * In   onsaved: called for each reading the server has, so that it is marked at once. */
export async function saveReadings(
  readings: readonly ToSave[],
  send: (record: NewRecord) => Promise<Outcome<Saved>>,
  onsaved: (one: ToSave, id: number) => void,
): Promise<{ problems: Problem[]; at: ToSave | null }> {
  for (const one of readings) {
    let outcome = await send(one.record);
    if (!outcome.ok && one.record.at !== undefined && outcome.problems.some((each) => each.field === "/at")) {
      // The device's clock does not fit the server's: the server's own now is near enough.
      const { at: _, ...undated } = one.record;
      outcome = await send(undated);
    }
    if (!outcome.ok) return { problems: outcome.problems, at: one };
    if (outcome.value.id !== null) onsaved(one, outcome.value.id);
  }
  return { problems: [], at: null };
}
