// The what-if screen against the invented server: what it says while the filter's outlook is on its way, and afterwards.
import { cleanup, configure, fireEvent, render, screen, waitFor } from "@testing-library/svelte";
import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import App from "./App.svelte";
import { working } from "./fixtures/filter";
import { inventedServer } from "./fixtures/invented_server";
import { unsureWhatIfBase } from "./fixtures/whatif";
import { t } from "./messages";
import { app } from "./state/app.svelte";

configure({ asyncUtilTimeout: 10_000 });
vi.setConfig({ testTimeout: 60_000 });

const coming = unsureWhatIfBase.cautions[0]!;
let server = inventedServer();
/** The work on the outlook gets no further. */
let held = false;

async function open(options: Parameters<typeof inventedServer>[0]): Promise<void> {
  server = inventedServer(options);
  location.hash = "#/whatif";
  render(App);
  await waitFor(() => expect(document.querySelector("#whatif-sentence")).not.toBeNull());
}
const bases = () => server.asked.filter((one) => one.startsWith("GET /api/what-if")).length;
const room = () => screen.getByRole<HTMLInputElement>("slider", { name: /the room/ });

beforeEach(() => {
  localStorage.clear();
  Object.assign(app, {
    route: { name: "today", rest: [] },
    season: null,
    day: null,
    kits: null,
    asOf: null,
    problems: [],
  });
  window.scrollTo = () => undefined;
  vi.stubGlobal("fetch", async (url: string, request: { method: string; body: string | null }) => {
    const still = held && url.startsWith("/api/filter");
    const answer = still
      ? { status: 200, body: { filter: working(0.4) } }
      : server.answer(request.method, url, request.body ?? "");
    return new Response(JSON.stringify(answer.body), { status: answer.status });
  });
});
afterEach(() => {
  cleanup();
  vi.unstubAllGlobals();
});

describe("What if", () => {
  it("says that a better answer is coming, and asks for it with the sliders where they are", async () => {
    held = true;
    await open({ asks: 1 });
    expect(screen.getByText(coming)).toBeTruthy();
    await fireEvent.click(screen.getByRole("button", { name: t.whatif.preset.warm }));
    held = false;
    await waitFor(() => expect(screen.queryByText(coming)).toBeNull());
    expect(bases()).toBe(2);
    expect(room().value).toBe("6");
    await waitFor(() => expect(document.querySelector("#whatif-sentence")?.textContent).toMatch(/does not hold/));
    expect(app.announcement.trim()).not.toBe("");
  });

  it("asks once and says nothing of it when the outlook is there, or nobody works one out", async () => {
    for (const filter of [undefined, null]) {
      await open(filter === null ? { filter } : {});
      expect(screen.queryByText(coming)).toBeNull();
      expect(bases()).toBe(1);
      expect(server.asked.filter((one) => one.includes("/api/filter"))).toEqual([]);
      cleanup();
    }
  });
});
