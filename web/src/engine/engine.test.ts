import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { t } from "../messages";
import { chooseReader } from "../state/reader.svelte";
import { engineAt } from "./engine";
import type { FromWorker, ToWorker } from "./protocol";

/** A worker that does what the test says; `made` are all there have been. */
class PlayedWorker {
  static made: PlayedWorker[] = [];
  heard: ToWorker[] = [];
  ended = false;
  onmessage: ((event: MessageEvent<FromWorker>) => void) | null = null;
  onerror: (() => void) | null = null;
  constructor() {
    PlayedWorker.made.push(this);
  }
  postMessage(message: ToWorker): void {
    this.heard.push(message);
  }
  terminate(): void {
    this.ended = true;
  }
  say(message: FromWorker): void {
    this.onmessage?.({ data: message } as MessageEvent<FromWorker>);
  }
}

const engine = () =>
  engineAt({ makeWorker: () => new PlayedWorker() as unknown as Worker, core: () => "assets/redd_core.wasm" });
const newest = () => PlayedWorker.made.at(-1)!;
const sentenceOf = (outcome: { ok: boolean; problems?: { sentence: string }[] }) => outcome.problems?.[0]?.sentence;

beforeEach(() => {
  chooseReader({ language: "en", units: "metric" });
  PlayedWorker.made = [];
  vi.stubGlobal("Worker", PlayedWorker);
  vi.spyOn(console, "error").mockImplementation(() => undefined);
});
afterEach(() => {
  vi.useRealTimers();
  vi.unstubAllGlobals();
  vi.restoreAllMocks();
});

describe("the engine in the page", () => {
  it("starts nothing before the first question, and one worker for all", async () => {
    const ask = engine();
    expect(PlayedWorker.made).toHaveLength(0);
    const [first, second] = [ask({ ping: 1 }), ask({ ping: 2 })];
    expect(PlayedWorker.made).toHaveLength(1);
    expect(newest().heard).toEqual([
      { load: "assets/redd_core.wasm" },
      { id: 1, question: '{"ping":1,"reader":{"language":"en","units":"metric"}}' },
      { id: 2, question: '{"ping":2,"reader":{"language":"en","units":"metric"}}' },
    ]);
    newest().say({ ready: true });
    newest().say({ id: 2, answer: '{"pong":2}' });
    newest().say({ id: 1, answer: '{"pong":1}' });
    expect(await first).toEqual({ ok: true, value: { pong: 1 } });
    expect(await second).toEqual({ ok: true, value: { pong: 2 } });
  });

  it("asks in the language and units of the page", () => {
    const ask = engine();
    chooseReader({ language: "es", units: "us" });
    void ask({ ping: 1 });
    expect(newest().heard.at(-1)).toEqual({ id: 1, question: '{"ping":1,"reader":{"language":"es","units":"us"}}' });
  });

  it("hands on problems in the core's own words", async () => {
    const asked = engine()({});
    newest().say({ id: 1, answer: '{"problems":[{"code":"c","field":"f","sentence":"Say what."}]}' });
    expect(await asked).toEqual({ ok: false, problems: [{ code: "c", field: "f", sentence: "Say what." }] });
  });

  it("starts anew after a trap, and tells all who waited", async () => {
    const ask = engine();
    const [broken, waiting] = [ask({ ping: 1 }), ask({ ping: 2 })];
    newest().say({ id: 1, failed: "unreachable" });
    expect(sentenceOf(await broken)).toBe(t.engine.stopped);
    expect(sentenceOf(await waiting)).toBe(t.engine.stopped);
    expect(PlayedWorker.made[0]?.ended).toBe(true);
    const again = ask({ ping: 3 });
    expect(PlayedWorker.made).toHaveLength(2);
    newest().say({ id: 3, answer: '{"pong":3}' });
    expect(await again).toEqual({ ok: true, value: { pong: 3 } });
  });

  it("says in plain words when the browser cannot run it", async () => {
    const unusable = engine()({ ping: 1 });
    newest().say({ unusable: "CompileError" });
    expect(sentenceOf(await unusable)).toBe(t.engine.unusable);
    const unmade = engine()({ ping: 1 });
    newest().onerror?.();
    expect(sentenceOf(await unmade)).toBe(t.engine.unusable);
    vi.stubGlobal("WebAssembly", undefined);
    expect(sentenceOf(await engine()({ ping: 1 }))).toBe(t.engine.unusable);
  });

  it("does not wait for ever", async () => {
    vi.useFakeTimers();
    const asked = engine()({ ping: 1 });
    await vi.advanceTimersByTimeAsync(61_000);
    expect(sentenceOf(await asked)).toBe(t.engine.slow);
    expect(newest().ended).toBe(true);
  });
});
