// A short beep and a buzz, made by the browser itself. Browsers let sound begin only after a tap: wake() belongs into one.

let context: AudioContext | null = null;

export function wake(): void {
  try {
    context ??= new AudioContext();
    void context.resume();
  } catch {
    // No sound here: the flash and the words remain.
  }
}

function tone(at: number, hertz: number): void {
  if (!context) return;
  const source = context.createOscillator();
  const gain = context.createGain();
  source.frequency.value = hertz;
  gain.gain.setValueAtTime(0.0001, at);
  gain.gain.exponentialRampToValueAtTime(0.35, at + 0.02);
  gain.gain.exponentialRampToValueAtTime(0.0001, at + 0.22);
  source.connect(gain).connect(context.destination);
  source.start(at);
  source.stop(at + 0.24);
}

/** Three rising notes: a wait is over. */
export function ring(muted: boolean): void {
  try {
    navigator.vibrate?.([200, 100, 200, 100, 300]);
    if (muted || !context) return;
    const now = context.currentTime;
    [660, 880, 1100].forEach((hertz, index) => tone(now + index * 0.28, hertz));
  } catch {
    // As above.
  }
}

/** Keeps the screen on while a sitting runs, where the browser can; it lets go by itself when the page is hidden. */
export async function stayAwake(): Promise<() => void> {
  try {
    const lock = await navigator.wakeLock.request("screen");
    return () => void lock.release();
  } catch {
    return () => undefined;
  }
}
