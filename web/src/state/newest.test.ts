import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { newestWins } from "./newest";

let frames: FrameRequestCallback[] = [];
const frame = () => {
  const due = frames;
  frames = [];
  for (const one of due) one(0);
};
const settle = () => new Promise((resolve) => setTimeout(resolve, 0));

beforeEach(() => {
  frames = [];
  vi.stubGlobal("requestAnimationFrame", (one: FrameRequestCallback) => frames.push(one));
});
afterEach(() => vi.unstubAllGlobals());

describe("newest wins", () => {
  it("asks once a frame, and only what is newest", async () => {
    const asked: number[] = [];
    const taken: number[] = [];
    const tries = newestWins(
      async (n: number) => (asked.push(n), n * 10),
      (answer) => taken.push(answer),
    );
    for (const n of [1, 2, 3]) tries.ask(n);
    frame();
    await settle();
    expect(asked).toEqual([3]);
    expect(taken).toEqual([30]);
  });

  it("waits for an answer before it asks again", async () => {
    let answerNow: (value: number) => void = () => undefined;
    const asked: number[] = [];
    const taken: number[] = [];
    const tries = newestWins(
      (n: number) => {
        asked.push(n);
        return new Promise<number>((resolve) => (answerNow = resolve));
      },
      (answer) => taken.push(answer),
    );
    tries.ask(1);
    frame();
    tries.ask(2);
    tries.ask(3);
    frame();
    expect(asked).toEqual([1]);
    answerNow(10);
    await settle();
    frame();
    expect(asked).toEqual([1, 3]);
    answerNow(30);
    await settle();
    expect(taken).toEqual([10, 30]);
  });

  it("drops what is on its way when it is told to forget", async () => {
    let answerNow: (value: number) => void = () => undefined;
    const taken: number[] = [];
    const tries = newestWins(
      (_: number) => new Promise<number>((resolve) => (answerNow = resolve)),
      (answer) => taken.push(answer),
    );
    tries.ask(1);
    frame();
    tries.forget();
    answerNow(10);
    await settle();
    expect(taken).toEqual([]);
    tries.ask(2);
    frame();
    answerNow(20);
    await settle();
    expect(taken).toEqual([20]);
  });
});
