import { afterEach, describe, expect, it, vi } from "vitest";
import script from "../public/early.js?raw";
import { earlyAnswer, forgetEarlyAnswers } from "./early_answers";
import { keep } from "./keep";
import { readerHeaders } from "./state/reader.svelte";

let state = "ready";
const asked = vi.fn((path: string, _options?: RequestInit) =>
  Promise.resolve(new Response(`{"path":"${path}","state":"${state}"}`, { status: 200 })),
);
/** The season first, then what stands on it. */
const settle = () => new Promise((resolve) => setTimeout(resolve));

/** As the browser runs it, before the page's own script. */
function runEarly(): void {
  vi.stubGlobal("fetch", asked);
  new Function(script)();
}

afterEach(() => {
  state = "ready";
  vi.unstubAllGlobals();
  vi.useRealTimers();
  asked.mockClear();
  localStorage.clear();
  forgetEarlyAnswers();
});

describe("first questions asked early", () => {
  it("are asked as the page asks them, and each answer is handed out once", async () => {
    runEarly();
    await settle();
    expect(asked.mock.calls.map(([path]) => path)).toEqual(["/api/season", "/api/day", "/api/kits"]);
    expect(asked.mock.calls[0]?.[1]?.headers).toEqual(readerHeaders());
    expect(await earlyAnswer("/api/day", readerHeaders())).toEqual({
      status: 200,
      text: '{"path":"/api/day","state":"ready"}',
    });
    expect(earlyAnswer("/api/day", readerHeaders())).toBeNull();
    expect(earlyAnswer("/api/plan", readerHeaders())).toBeNull();
  });

  it("are not taken for another reader", () => {
    keep("reader", { language: "es", units: "us" });
    runEarly();
    expect(asked.mock.calls[0]?.[1]?.headers).toEqual({ "accept-language": "es", "redd-units": "us" });
    expect(earlyAnswer("/api/season", readerHeaders())).toBeNull();
  });

  it("are not taken once they are old, or once something was written", () => {
    runEarly();
    vi.spyOn(performance, "now").mockReturnValue(performance.now() + 6000);
    expect(earlyAnswer("/api/season", readerHeaders())).toBeNull();
    vi.restoreAllMocks();
    runEarly();
    forgetEarlyAnswers();
    expect(earlyAnswer("/api/season", readerHeaders())).toBeNull();
  });

  it("ask no day of a season that is not there", async () => {
    state = "empty";
    runEarly();
    await settle();
    expect(asked.mock.calls.map(([path]) => path)).toEqual(["/api/season"]);
    expect(await earlyAnswer("/api/day", readerHeaders())).toBeNull();
  });

  it("leave a broken choice to the page", async () => {
    localStorage.setItem("redd.reader", "{not JSON");
    runEarly();
    await settle();
    expect(asked).toHaveBeenCalledTimes(3);
  });
});
