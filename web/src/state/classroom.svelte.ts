// Who is at this page where a season is shared in the classroom: nobody yet, a team at the bench, or the keeper.
import { getClassroom, signIn, signOut, whenSignedOut } from "../api";
import type { Classroom, SignIn } from "../contract_classroom";
import type { Problem } from "../contract";
import { forget } from "../keep";

class ClassroomState {
  /** Null until it is known; a page without a server, or an older one, never tells. */
  me: Classroom | null = $state.raw(null);
  /** The server asks who is here before it says anything. */
  asksIn = $state(false);

  /** With a bench code only the bench stands. */
  get atBench(): boolean {
    return this.me?.role === "bench";
  }
  /** The one label that entries may carry; null: whichever is typed. */
  get label(): string | null {
    return this.atBench ? (this.me?.label ?? null) : null;
  }
}

export const classroom = new ClassroomState();

whenSignedOut(() => {
  classroom.asksIn = true;
});

/** On another machine than Redd's own it must be known who is here before a screen is shown. */
export const fromElsewhere = (): boolean =>
  /^https?:$/.test(location.protocol) && !/^(localhost|127(\.\d+){3}|\[::1\])$/.test(location.hostname);

function take(me: Classroom): void {
  classroom.me = me;
  classroom.asksIn = me.network && me.role === "nobody";
}

export async function lookWhoIsHere(): Promise<void> {
  const outcome = await getClassroom();
  if (outcome.ok && typeof outcome.value.role === "string") take(outcome.value);
}

/** What stands in the way; nothing once somebody is in. */
export async function enter(as: SignIn): Promise<Problem[]> {
  const outcome = await signIn(as);
  if (!outcome.ok) return outcome.problems;
  take(outcome.value);
  return [];
}

/** What was seen of the season does not stay on a device that others use. A sitting under way does. */
export async function leave(): Promise<Problem[]> {
  const outcome = await signOut();
  if (!outcome.ok) return outcome.problems;
  forget("last");
  take(outcome.value);
  return [];
}
