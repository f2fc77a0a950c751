// The Water view against the invented server: its states, the work behind it, and looking back.
import { cleanup, configure, fireEvent, render, screen, waitFor } from "@testing-library/svelte";
import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import App from "./App.svelte";
import { absent, cancelled, failed, lostTrack, outlook, ripening, unmeasured, working } from "./fixtures/filter";
import { inventedServer } from "./fixtures/invented_server";
import { t } from "./messages";
import { app } from "./state/app.svelte";

// Generous, as the machine may be busy: nothing here is about speed.
configure({ asyncUtilTimeout: 10_000 });
vi.setConfig({ testTimeout: 60_000 });

let server = inventedServer();
let online = true;

async function open(hash: string, options: Parameters<typeof inventedServer>[0] = {}): Promise<void> {
  server = inventedServer(options);
  location.hash = hash;
  render(App);
  await waitFor(() => expect(app.day).not.toBeNull());
  await screen.findAllByRole("heading", { level: 1 });
}

async function go(hash: string): Promise<void> {
  location.hash = hash;
  await fireEvent(window, new Event("hashchange"));
}

const count = (start: string) => server.asked.filter((one) => one.startsWith(start)).length;
const rest = (ms: number) => new Promise((resolve) => setTimeout(resolve, ms));

beforeEach(() => {
  localStorage.clear();
  online = true;
  Object.assign(app, {
    route: { name: "today", rest: [] },
    season: null,
    day: null,
    kits: null,
    asOf: null,
    newestDay: null,
    worked: null,
    problems: [],
    announcement: "",
  });
  Element.prototype.scrollIntoView = () => undefined;
  window.scrollTo = () => undefined;
  vi.stubGlobal("fetch", async (url: string, request: { method: string; body: string | null }) => {
    if (!online) throw new TypeError("no connection");
    const answer = server.answer(request.method, url, request.body ?? "");
    return new Response(JSON.stringify(answer.body), { status: answer.status });
  });
});

afterEach(() => {
  cleanup();
  vi.restoreAllMocks();
  vi.unstubAllGlobals();
});

describe("the Water view", () => {
  it("says how things stand, when, what it carries, what comes, what helps and what is in doubt", async () => {
    await open("#/water", { filter: ripening });
    expect(screen.getByText(ripening.sentence)).toBeTruthy();
    expect(screen.getByText(t.filter.chanceBy("by 7 January 2031"))).toBeTruthy();
    expect(screen.getByText(ripening.ready.window.text)).toBeTruthy();
    expect(screen.getByText(ripening.capacity.sentence)).toBeTruthy();
    for (const chart of ripening.charts) expect(screen.getAllByText(chart.summary).length).toBeGreaterThan(0);
    expect(screen.getByRole("heading", { name: t.filter.nextReadings("6 February 2031") })).toBeTruthy();
    expect(screen.getByText("Warm the tank to 26 °C until it is chilled.")).toBeTruthy();
    expect(screen.getByRole("link", { name: "entry 104" }).getAttribute("href")).toBe("#/history/104");
    expect(screen.queryByRole("progressbar")).toBeNull();
    expect(count("GET /api/filter")).toBe(0);
  });

  it("draws the chance that the sentence speaks of, and calls no other by its name", async () => {
    await open("#/water", { filter: outlook });
    expect(screen.getByText(t.filter.chanceCarries)).toBeTruthy();
    expect(screen.getByText(outlook.capacity.carries_text)).toBeTruthy();
    expect(screen.getByText(t.filter.ifToday)).toBeTruthy();
  });

  it("speaks of a trial today where neither eggs nor a load are planned", async () => {
    await open("#/water", { filter: { ...outlook, capacity: unmeasured.capacity } });
    expect(screen.getByText(t.filter.chanceToday)).toBeTruthy();
    expect(screen.getByText(outlook.ready.probability_text)).toBeTruthy();
    expect(screen.queryByText(t.filter.ifToday)).toBeNull();
  });

  it("draws no chance large where the newest tests are not explained, and leads to them", async () => {
    await open("#/water", { filter: lostTrack });
    expect(document.getElementById("filter-sentence")?.textContent?.trim()).toBe(lostTrack.sentence);
    expect(screen.getByText(t.filter.lostTrack)).toBeTruthy();
    expect(screen.getByText(t.tone.unknown)).toBeTruthy();
    expect(screen.queryByText(lostTrack.capacity.carries_text)).toBeNull();
    expect(screen.queryByText(t.filter.noDoubts)).toBeNull();
    expect(document.querySelectorAll("main .tone-good").length).toBe(0);
    expect(screen.getByRole("link", { name: "entry 103" }).getAttribute("href")).toBe("#/history/103");
  });

  it("shows a filter of which nothing is known without a window, a load or a measure", async () => {
    await open("#/water", { filter: unmeasured });
    expect(screen.getByText(unmeasured.ready.window.text)).toBeTruthy();
    expect(screen.queryByText(/coming load/)).toBeNull();
    expect(screen.getByText(t.filter.noNext)).toBeTruthy();
    expect(screen.getByText(t.filter.noMeasures)).toBeTruthy();
  });

  it.each([cancelled, failed, absent])("says so where there is nothing: $state", async (filter) => {
    await open("#/water", { filter });
    expect(screen.getByText(filter.sentence)).toBeTruthy();
    if (filter.state === "ready" || filter.state === "working") throw new Error("not a state of nothing");
    expect(screen.getByText(t.filter.whatNext[filter.state])).toBeTruthy();
    expect(screen.queryByRole("button", { name: t.filter.start }) === null).toBe(filter.state === "absent");
    expect(screen.queryByRole("heading", { name: t.filter.charts })).toBeNull();
    await rest(600);
    expect(count("GET /api/filter")).toBe(0);
  });

  it("says so where the server works out nothing of a filter", async () => {
    await open("#/water", { filter: null });
    expect(screen.getByText(t.filter.notOffered)).toBeTruthy();
  });

  it("follows the work and asks for the day once when it is done", async () => {
    await open("#/water", { asks: 3 });
    const bar = screen.getByRole("progressbar", { name: t.filter.progress });
    expect(bar.getAttribute("aria-valuenow")).toBe("25");
    await waitFor(() => expect(screen.getByRole("progressbar").getAttribute("aria-valuenow")).toBe("50"));
    await waitFor(() => expect(screen.queryByText(outlook.sentence)).toBeTruthy());
    expect(screen.queryByRole("progressbar")).toBeNull();
    await rest(900);
    expect([count("GET /api/filter"), count("GET /api/day")]).toEqual([3, 2]);
    expect(app.announcement).toContain(t.filter.finished);
  });

  it("asks nothing while nobody can see the page, or where nobody needs it", async () => {
    const sight = vi.spyOn(document, "visibilityState", "get").mockReturnValue("hidden");
    await open("#/water", { asks: 100 });
    await rest(600);
    expect(count("GET /api/filter")).toBe(0);
    sight.mockReturnValue("visible");
    await fireEvent(document, new Event("visibilitychange"));
    await waitFor(() => expect(count("GET /api/filter")).toBeGreaterThan(0));
    await go("#/log");
    const before = count("GET /api/filter");
    await rest(900);
    expect(count("GET /api/filter")).toBe(before);
  });

  it("stops the work and starts it again with one button that keeps its focus", async () => {
    await open("#/water", { asks: 4 });
    const button = screen.getByRole("button", { name: t.filter.stop });
    button.focus();
    await fireEvent.click(button);
    await screen.findByText(cancelled.sentence);
    expect(document.activeElement?.textContent?.trim()).toBe(t.filter.start);
    expect(screen.queryByRole("progressbar")).toBeNull();
    const before = count("GET /api/filter");
    await rest(600);
    expect(count("GET /api/filter")).toBe(before);
    await fireEvent.click(screen.getByRole("button", { name: t.filter.start }));
    expect(await screen.findByRole("progressbar")).toBeTruthy();
    await waitFor(() => expect(screen.queryByText(outlook.sentence)).toBeTruthy());
    expect(server.asked.filter((one) => one.startsWith("POST")).map((one) => one.split("?")[0])).toEqual([
      "POST /api/filter/cancel",
      "POST /api/filter/start",
    ]);
  });

  it("keeps the older outlook readable, said to be older, while a newer one is in the making", async () => {
    await open("#/water", { asksAnew: 2 });
    expect(screen.getByText(outlook.sentence)).toBeTruthy();
    await fireEvent.click(screen.getByRole("button", { name: t.demo.before }));
    await screen.findByRole("progressbar");
    expect(screen.getByText(t.filter.older("Thursday 30 January 2031"))).toBeTruthy();
    expect(screen.getByText(outlook.sentence)).toBeTruthy();
    await waitFor(() => expect(screen.queryByText(/^Older:/)).toBeNull());
    expect(app.day?.today).toBe("2031-01-29");
  });

  it("says that it has lost the server, and follows the work again once that is back", async () => {
    await open("#/water", { asks: 3 });
    online = false;
    expect(await screen.findByText(t.errors.noConnection)).toBeTruthy();
    online = true;
    await fireEvent.click(screen.getByRole("button", { name: t.tryAgain }));
    await waitFor(() => expect(screen.queryByText(outlook.sentence)).toBeTruthy());
  });

  it("draws the last eight weeks on demand; the tables keep all", async () => {
    await open("#/water", { filter: outlook });
    const months = () => document.querySelectorAll("article .grid").length;
    const before = months();
    await fireEvent.click(screen.getByRole("button", { name: t.filter.aroundNow }));
    expect(screen.getByRole("button", { name: t.filter.aroundNow }).getAttribute("aria-pressed")).toBe("true");
    expect(months()).toBeLessThan(before);
    await fireEvent.click(screen.getAllByRole("button", { name: t.filter.table })[0]!);
    expect(screen.getAllByRole("rowheader", { name: "22 Aug" }).length).toBeGreaterThan(0);
  });
});

describe("today", () => {
  it("waits for nothing: one line leads to the work", async () => {
    await open("#/today", { filter: working(0.4) });
    expect(screen.getByText(t.today.next)).toBeTruthy();
    const line = screen.getByRole("link", { name: /is being worked out … 40\s%/ });
    expect(line.getAttribute("href")).toBe("#/water");
  });

  it("takes up the advice that the finished outlook brings", async () => {
    await open("#/today", { asks: 1 });
    await waitFor(() => expect(count("GET /api/day")).toBe(2));
    await waitFor(() => expect(screen.queryByText(/is being worked out/)).toBeNull());
  });
});

describe("looking back in a season of one's own", () => {
  it("shows the day, writes nothing into it, and ends when the view is left", async () => {
    await open("#/water", { own: true });
    const field = screen.getByLabelText<HTMLInputElement>(t.filter.lookBack);
    expect([field.min, field.max]).toEqual(["2030-08-19", "2031-01-30"]);
    await fireEvent.change(field, { target: { value: "2030-11-12" } });
    await screen.findByText(t.filter.lookingBack("The invented day 2030-11-12"));
    expect(server.asked.at(-1)).toBe("GET /api/day?as_of=2030-11-12");
    await go("#/today");
    await waitFor(() => expect(app.day?.today).toBe("2031-01-30"));
    expect(app.asOf).toBeNull();
    expect(server.asked.at(-1)).toBe("GET /api/day");
  });

  it("leads back to today", async () => {
    await open("#/water", { own: true });
    await fireEvent.change(screen.getByLabelText(t.filter.lookBack), { target: { value: "2030-11-12" } });
    await fireEvent.click(await screen.findByRole("button", { name: t.filter.toNow }));
    await waitFor(() => expect(app.day?.today).toBe("2031-01-30"));
    expect(screen.queryByRole("button", { name: t.filter.toNow })).toBeNull();
  });

  it("stays where it was when the day asked for cannot be shown", async () => {
    await open("#/water", { own: true });
    await fireEvent.change(screen.getByLabelText(t.filter.lookBack), { target: { value: "2030-08-01" } });
    expect(await screen.findByText(/Nothing was known yet on 2030-08-01/)).toBeTruthy();
    expect([app.asOf, app.day?.today]).toEqual([null, "2031-01-30"]);
    expect(screen.getByText(outlook.sentence)).toBeTruthy();
  });

  it("has no field in the demo, whose clock stands above", async () => {
    await open("#/water");
    expect(screen.queryByLabelText(t.filter.lookBack)).toBeNull();
  });
});
