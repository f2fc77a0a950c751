// The Season view against the invented server: reading the plan, trying something, putting it back, logging a setting.
import { cleanup, configure, fireEvent, render, screen, waitFor, within } from "@testing-library/svelte";
import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import App from "./App.svelte";
import { inventedServer } from "./fixtures/invented_server";
import { emergencies } from "./fixtures/emergency";
import { planBeforeEggs, planView } from "./fixtures/plan";
import { t } from "./messages";
import { app } from "./state/app.svelte";
import { plan } from "./state/plan.svelte";

configure({ asyncUtilTimeout: 10_000 });
vi.setConfig({ testTimeout: 60_000 });

let server = inventedServer();

function serve(options: Parameters<typeof inventedServer>[0] = {}): void {
  server = inventedServer(options);
  vi.stubGlobal("fetch", async (url: string, request: { method: string; body: string | null }) => {
    const answer = server.answer(request.method, url, request.body ?? "");
    return new Response(JSON.stringify(answer.body), { status: answer.status });
  });
}

async function open(options: Parameters<typeof inventedServer>[0] = {}): Promise<void> {
  serve(options);
  location.hash = "#/season";
  render(App);
  await screen.findByRole("heading", { name: t.titles.season });
}

const tries = () => server.asked.filter((one) => one.startsWith("POST /api/plan/try"));

beforeEach(() => {
  localStorage.clear();
  location.hash = "";
  Object.assign(app, {
    route: { name: "today", rest: [] },
    season: null,
    day: null,
    kits: null,
    asOf: null,
    problems: [],
  });
  Object.assign(plan, { day: null, view: null, problems: [], chosen: "best", trial: null, tried: null, refusals: [] });
  window.scrollTo = () => undefined;
});

afterEach(() => {
  cleanup();
  vi.unstubAllGlobals();
});

describe("the season's plan", () => {
  it("says when the stages come, what to do next, the wishes' chances and what stands in the way", async () => {
    await open();
    expect(await screen.findByText("Hatch around 5 Feb, first feeding around 12 Mar.")).toBeTruthy();
    expect(screen.getByText("Set the controller to 7.5 °C on 31 Jan.")).toBeTruthy();
    expect(screen.getAllByText("8 chances in 10").length).toBeGreaterThan(0);
    expect(screen.getByText(/Two wishes collide/)).toBeTruthy();
    expect(screen.getByText(/0.4 °C warmer than planned/)).toBeTruthy();
    expect(screen.getByText(/The chiller can't hold 8.0 °C/)).toBeTruthy();
  });

  it("shows where a moved day leads, and puts it back with Escape; nothing is written", async () => {
    await open();
    const hatch = await screen.findByRole("slider", { name: t.season.dayHandles.hatch ?? "" });
    expect(hatch.getAttribute("aria-valuetext")).toBe("Wednesday 5 February 2031");
    await fireEvent.keyDown(hatch, { key: "PageUp" });
    expect(await screen.findByRole("heading", { name: t.season.tried })).toBeTruthy();
    expect(await screen.findByText("Hatch around 12 Feb, first feeding around 14 Mar.")).toBeTruthy();
    await waitFor(() => expect(hatch.getAttribute("aria-valuetext")).toBe("Wednesday 12 February 2031"));
    await fireEvent.keyDown(hatch, { key: "Escape" });
    await waitFor(() => expect(screen.queryByRole("heading", { name: t.season.tried })).toBeNull());
    expect(hatch.getAttribute("aria-valuetext")).toBe("Wednesday 5 February 2031");
    expect(server.sent).toEqual([]);
  });

  it("moves a temperature by keys and by buttons, and says why it can't be", async () => {
    await open();
    const step = await screen.findByRole("slider", { name: t.season.stepHandle });
    expect(step.getAttribute("aria-valuenow")).toBe("7.5");
    await fireEvent.keyDown(step, { key: "ArrowDown" });
    expect(step.getAttribute("aria-valuenow")).toBe("7");
    expect(await screen.findByText(/Hatch around 7 Feb/)).toBeTruthy();
    await fireEvent.click(screen.getByRole("button", { name: t.season.moveTitle }));
    await fireEvent.click(screen.getByRole("button", { name: t.season.colder("31 Jan", "0.5\u00a0°C") }));
    expect(await screen.findByText(/Hatch around 9 Feb/)).toBeTruthy();
    for (let press = 0; press < 3; press += 1) await fireEvent.keyDown(step, { key: "ArrowDown" });
    expect(await screen.findByText(/too cold for eggs/)).toBeTruthy();
    expect(screen.getByText(t.season.refusedKept)).toBeTruthy();
    await fireEvent.click(screen.getByRole("button", { name: t.season.putBack }));
    await waitFor(() => expect(step.getAttribute("aria-valuenow")).toBe("7.5"));
    expect(tries().length).toBeGreaterThan(1);
  });

  it("asks nothing after it was put back, and keeps no answer that comes late", async () => {
    await open();
    const step = await screen.findByRole("slider", { name: t.season.stepHandle });
    await fireEvent.keyDown(step, { key: "ArrowDown" });
    await fireEvent.keyDown(step, { key: "Escape" });
    await new Promise((resolve) => setTimeout(resolve, 100));
    expect(screen.queryByRole("heading", { name: t.season.tried })).toBeNull();
    expect(plan.tried).toBeNull();
  });

  it("says what it takes to keep a change, and writes nothing by itself", async () => {
    await open({ plan: planBeforeEggs });
    const eggs = await screen.findByRole("slider", { name: t.season.dayHandles.egg_day ?? "" });
    await fireEvent.keyDown(eggs, { key: "ArrowRight" });
    await fireEvent.click(await screen.findByRole("button", { name: t.season.keep }));
    expect(screen.getByText(t.season.keepIntro)).toBeTruthy();
    expect(screen.getByText(new RegExp(t.season.keepEggDay("Saturday 1 February 2031").slice(0, 30)))).toBeTruthy();
    expect(server.sent).toEqual([]);
  });

  it("logs the next setting only once it is saved", async () => {
    await open();
    await fireEvent.click(await screen.findByRole("button", { name: t.season.logSetting }));
    expect(server.sent).toEqual([]);
    expect(screen.getByDisplayValue("7.5")).toBeTruthy();
    await fireEvent.click(screen.getByRole("button", { name: t.log.saveRecord }));
    await waitFor(() => expect(server.sent).toHaveLength(1));
    expect(server.sent[0]).toMatchObject({ kind: "set_point", body: { temperature_c: 7.5 } });
  });

  it("puts another of the plans on the line", async () => {
    await open();
    const card = (await screen.findByRole("heading", { name: "Fewest changes" })).closest("article") as HTMLElement;
    await fireEvent.click(within(card).getByRole("button", { name: /Show on the line/ }));
    expect(await screen.findByText("Hatch around 3 Feb, first feeding around 12 Mar.")).toBeTruthy();
  });

  it("says what to do where there is nothing to plan yet", async () => {
    const sentence = "There are no eggs yet and no day for them: correct the season's set-up with the day they come.";
    await open({ plan: { code: "egg_day_missing", field: "egg_day", sentence } });
    expect(await screen.findByText(sentence)).toBeTruthy();
    expect(screen.getByRole("link", { name: t.season.setUp }).getAttribute("href")).toBe("#/setup");
  });

  it("ends calmly after the release, and offers to try again after other trouble", async () => {
    await open({ plan: { code: "released", field: "", sentence: "The brood has been released." } });
    expect(await screen.findByText(t.season.planEnded)).toBeTruthy();
    cleanup();
    plan.day = null;
    await open({ plan: { code: "busy", field: "", sentence: "Redd is busy." } });
    expect(await screen.findByText("Redd is busy.")).toBeTruthy();
    serve({ plan: planView });
    await fireEvent.click(screen.getByRole("button", { name: t.tryAgain }));
    expect(await screen.findByText("Hatch around 5 Feb, first feeding around 12 Mar.")).toBeTruthy();
  });
});

async function openAt(hash: string): Promise<void> {
  serve();
  location.hash = hash;
  render(App);
}

describe("emergencies", () => {
  it("are one tap away from every screen, what is happening first", async () => {
    await open();
    expect(screen.getByRole("link", { name: t.nav.emergency }).getAttribute("href")).toBe("#/emergency");
    cleanup();
    await openAt("#/emergency");
    await screen.findByText(t.emergency.intro(emergencies.animals));
    const links = screen.getAllByRole("link").filter((one) => one.getAttribute("href")?.startsWith("#/emergency/"));
    expect(links.map((one) => one.getAttribute("href"))).toEqual([
      "#/emergency/chiller_failed",
      "#/emergency/power_cut",
      "#/emergency/lid_off",
    ]);
    expect(links[0]?.textContent).toContain(t.emergency.now);
  });

  it("say the first three steps first, how long it holds, and whom to call", async () => {
    await openAt("#/emergency/power_cut");
    const first = (await screen.findByRole("heading", { name: t.emergency.first })).closest("section") as HTMLElement;
    const lists = within(first).getAllByRole("list");
    expect(lists[0]?.children).toHaveLength(3);
    expect(lists[1]?.getAttribute("start")).toBe("4");
    expect(screen.getByText(/2 hours \(at the soonest 1 hour/)).toBeTruthy();
    expect(screen.getByText("The caretaker.")).toBeTruthy();
  });

  it("show the list where an emergency is not known, and say so", async () => {
    await openAt("#/emergency/dragon");
    expect(await screen.findByText(t.emergency.unknown)).toBeTruthy();
    expect(screen.getByRole("link", { name: /Power cut/ })).toBeTruthy();
  });

  it("do not wait for the day", async () => {
    serve();
    const answer = server.answer;
    server.answer = (method, url, text) =>
      url.startsWith("/api/day")
        ? { status: 500, body: { problems: [{ code: "broken", field: "", sentence: "The day is not to be had." }] } }
        : answer(method, url, text);
    location.hash = "#/emergency/power_cut";
    render(App);
    expect(await screen.findByRole("heading", { name: t.emergency.first })).toBeTruthy();
  });
});

describe("the chiller", () => {
  it("is judged by the worse of what is likely and what a careful person counts on", async () => {
    await openAt("#/heat");
    const sentence = await screen.findByText(/the chiller holds 8.0 °C, running 40 %/);
    expect(sentence.closest("section")?.className).toContain("tone-watch");
    expect(screen.getByText(t.heat.noTimes)).toBeTruthy();
  });

  it("answers what if, and is as it is again", async () => {
    await openAt("#/heat");
    await fireEvent.input(await screen.findByLabelText(t.heat.room("°C")), { target: { value: "27,5" } });
    await fireEvent.click(screen.getByRole("button", { name: t.heat.ask }));
    expect(await screen.findByText(/In a room at 27.5 °C/)).toBeTruthy();
    await fireEvent.click(screen.getByRole("button", { name: t.heat.back }));
    expect(await screen.findByText(/In a room at 20.6 °C/)).toBeTruthy();
    await fireEvent.input(screen.getByLabelText(t.heat.target("°C")), { target: { value: "cold" } });
    await fireEvent.click(screen.getByRole("button", { name: t.heat.ask }));
    expect((await screen.findAllByText(t.errors.noNumber(t.heat.target("°C"), "cold"))).length).toBeGreaterThan(0);
  });
});

describe("the calendar for the wall", () => {
  it("shows a month a page with what to set, windows, closures and duty", async () => {
    await openAt("#/season/wall");
    expect(await screen.findByRole("heading", { name: /^January 2031/ })).toBeTruthy();
    expect(screen.getAllByRole("heading", { level: 2 })).toHaveLength(3);
    expect(screen.getByText("Set the controller to 7.5 °C").closest("td")?.textContent).toMatch(/^Fri 31/);
    expect(screen.getAllByText("Spring break")).toHaveLength(5);
    expect(screen.getAllByText(t.wall.duty("Team Heron"))).toHaveLength(5);
    expect(screen.getByText(t.wall.shutFrom("12:30"))).toBeTruthy();
    // The first of February 2031 was a Saturday.
    const february = screen.getByRole("heading", { name: /^February 2031/ }).closest("section") as HTMLElement;
    const first = within(february).getAllByRole("row")[1]?.children[5];
    expect(first?.textContent).toMatch(/^Sat 11 Feb/);
    expect(first?.className).toContain("closed");
    // A window is named where it begins, where it becomes likely and at each new week; else only spoken.
    const said = within(february).getAllByText(/^Hatch: half of the eggs/);
    expect(said).toHaveLength(14);
    expect(said.filter((one) => one.className.includes("window"))).toHaveLength(4);
  });
});

describe("the school's calendar", () => {
  it("is shown first and kept only when somebody says so", async () => {
    await openAt("#/season/calendar");
    await fireEvent.click(await screen.findByRole("button", { name: t.calendar.show }));
    expect((await screen.findAllByText(t.calendar.noText)).length).toBeGreaterThan(0);
    await fireEvent.input(screen.getByLabelText(t.calendar.text), {
      target: { value: "2031-03-03, Thaw day\nsoon, Fair" },
    });
    await fireEvent.click(screen.getByRole("button", { name: t.calendar.show }));
    expect(await screen.findByText("Thaw day")).toBeTruthy();
    expect(screen.getByText(/It names no day/)).toBeTruthy();
    const posts = () => server.asked.filter((one) => one.startsWith("POST /api/calendar?"));
    expect(posts()).toHaveLength(0);
    await fireEvent.click(screen.getByRole("button", { name: t.calendar.keep(1) }));
    expect((await screen.findAllByText(t.calendar.kept(1))).length).toBeGreaterThan(0);
    expect(posts()).toHaveLength(1);
  });
});
