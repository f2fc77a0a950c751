// Asks no faster than the screen is drawn, one question at a time; a question that was overtaken is never asked.

/** Gives `ask`: remembers the newest question and, at the next frame after the last answer, sends it. */
export function newestWins<Question, Answer>(
  send: (question: Question) => Promise<Answer>,
  take: (answer: Answer, question: Question) => void,
) {
  let waiting: { question: Question } | null = null;
  let frame: number | null = null;
  let asking = false;
  /** Rises when what is on its way may no longer be believed. */
  let round = 0;

  function schedule(): void {
    if (frame !== null || asking || waiting === null) return;
    frame = requestAnimationFrame(() => void go());
  }

  async function go(): Promise<void> {
    frame = null;
    if (waiting === null) return;
    const { question } = waiting;
    const own = round;
    waiting = null;
    asking = true;
    const answer = await send(question);
    asking = false;
    // An answer is shown even when a newer question waits: it is nearer than what stands there.
    if (own === round) take(answer, question);
    schedule();
  }

  return {
    ask(question: Question): void {
      waiting = { question };
      schedule();
    },
    forget(): void {
      round += 1;
      waiting = null;
    },
  };
}
