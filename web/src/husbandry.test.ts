// The screens about water changes and the brood against the invented server: what each says in its states, and the ways
// to act from there.
import { cleanup, configure, fireEvent, render, screen, waitFor, within } from "@testing-library/svelte";
import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import App from "./App.svelte";
import { counts, noBrood, outbreak } from "./fixtures/counts";
import { feed, held, nothingToFeed, waiting } from "./fixtures/feed";
import { inventedServer } from "./fixtures/invented_server";
import { fits, loading, noLoad } from "./fixtures/loading";
import { noChange, nothingPlanned, waterPlan } from "./fixtures/water_plan";
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
  await waitFor(() => expect(document.querySelector(".verdict")).not.toBeNull());
}

const linkTo = (name: string) => screen.getByRole("link", { name }).getAttribute("href");
const text = () => document.body.textContent?.replace(/\s+/g, " ") ?? "";

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
  vi.unstubAllGlobals();
});

describe("Water changes", () => {
  it("says the programme, the next change with all that hands need, and three ways side by side", async () => {
    await open("#/water/changes");
    expect(document.title).toContain(t.titles.changes);
    expect(document.getElementById("changes-sentence")?.textContent?.trim()).toBe(waterPlan.sentence);
    const next = screen.getByRole("heading", { name: t.changes.next }).closest("section")!;
    for (const words of [
      "35 L (17 %)",
      t.changes.aim("8.1 °C", "6.2 to 10.0 °C"),
      "24 hours, needed",
      "45 minutes or more",
    ])
      expect(within(next).getByText(words)).toBeTruthy();
    for (const one of waterPlan.alternatives) {
      const card = screen.getByRole("article", { name: one.title });
      expect(within(card).getByText(one.broken_text)).toBeTruthy();
    }
    for (const caution of waterPlan.cautions) expect(screen.getByText(caution)).toBeTruthy();
    expect(linkTo(t.filter.toToday)).toBe("#/today");
    for (const series of waterPlan.alternatives[0]!.series)
      expect(screen.getByRole("article", { name: series.name })).toBeTruthy();
  });

  it("says that none is needed, or that there is nothing to plan", async () => {
    await open("#/water/changes", { waterPlan: noChange });
    expect(screen.getByText(t.changes.words.noChange ?? "")).toBeTruthy();
    expect(screen.queryByRole("heading", { name: t.changes.next })).toBeNull();
    cleanup();
    await open("#/water/changes", { waterPlan: nothingPlanned });
    expect(screen.getByText(nothingPlanned.sentence)).toBeTruthy();
    expect(screen.queryByText(t.changes.tryTitle)).toBeNull();
  });

  it("tries a change: before, after, the day after, the chance with and without it; nothing is kept", async () => {
    await open("#/water/changes");
    await fireEvent.input(screen.getByLabelText(t.changes.amount), { target: { value: "35" } });
    await fireEvent.input(screen.getByLabelText(new RegExp("Temperature of the new water")), {
      target: { value: "8,5" },
    });
    await fireEvent.click(screen.getByLabelText(t.changes.tryVacuum));
    await fireEvent.click(screen.getByRole("button", { name: t.changes.try }));
    expect(await screen.findByText(/^It helps/)).toBeTruthy();
    expect(screen.getByRole("columnheader", { name: t.action.nextDay })).toBeTruthy();
    expect(screen.getByText("0.06 to 0.13 mg/L as N")).toBeTruthy();
    expect(server.tried).toEqual([{ volume_l: 35, new_water_c: 8.5, vacuum: true, stood: true, dechlorinated: true }]);
    expect(server.sent).toEqual([]);
  });

  it("names what is wrong with a tried change, its own words or the server's, and keeps what was typed", async () => {
    await open("#/water/changes");
    const amount = screen.getByLabelText<HTMLInputElement>(t.changes.amount);
    await fireEvent.click(screen.getByRole("button", { name: t.changes.try }));
    expect(await screen.findByText(t.errors.required(t.changes.amount))).toBeTruthy();
    await fireEvent.input(amount, { target: { value: "900" } });
    await fireEvent.click(screen.getByRole("button", { name: t.changes.try }));
    expect(await screen.findByText(/at most the whole tank/)).toBeTruthy();
    expect(amount.value).toBe("900");
    expect(amount.getAttribute("aria-invalid")).toBe("true");
    await fireEvent.input(amount, { target: { value: "150" } });
    await fireEvent.click(screen.getByRole("button", { name: t.changes.try }));
    expect(await screen.findByText(t.changes.against)).toBeTruthy();
    expect(screen.getByText("The pH would jump by more than 0.5.")).toBeTruthy();
  });
});

describe("Food", () => {
  it("says today's food, what tomorrow's does, who feeds on closed days, and how they grow", async () => {
    await open("#/brood");
    expect(screen.getByText(feed.sentence)).toBeTruthy();
    expect(screen.getByText("5 small portions, at least 3")).toBeTruthy();
    expect(screen.getByRole("progressbar", { name: "0.8 g logged of 2 level spoons (1.6 g)" })).toBeTruthy();
    for (const words of feed.cost!.texts) expect(screen.getByText(words)).toBeTruthy();
    expect(screen.getByText(t.food.uncovered)).toBeTruthy();
    expect(screen.getByText(t.food.onDuty("Team Heron"))).toBeTruthy();
    expect(screen.getByText(t.food.nobody)).toBeTruthy();
    for (const words of feed.gaps[0]!.do_not) expect(screen.getByText(words)).toBeTruthy();
    expect(screen.getAllByText(feed.growth!.texts[0]!).length).toBeGreaterThan(0);
    expect(linkTo(t.food.logFeeding)).toBe("#/log/feeding");
    expect(screen.queryByRole("link", { name: t.food.logSpoon })).toBeNull();
  });

  it("shows no ration while none may be given, and why", async () => {
    await open("#/brood", { feed: { ...held, overfed: null } });
    expect(screen.getByText(t.food.words.hold ?? "")).toBeTruthy();
    expect(screen.getByText(held.hold.texts[0]!)).toBeTruthy();
    expect(screen.queryByText("5 small portions, at least 3")).toBeNull();
  });

  it("looks weeks ahead before first feeding, and says when there is nothing to feed", async () => {
    await open("#/brood", { feed: waiting });
    expect(screen.getByText(waiting.break_risk!.texts[0]!)).toBeTruthy();
    expect(linkTo(t.food.toSeason)).toBe("#/season");
    expect(linkTo(t.food.stages)).toBe("#/season");
    cleanup();
    await open("#/brood", { feed: { ...waiting, stage: "near" } });
    expect(linkTo(t.food.logSwum)).toBe("#/log/count");
    cleanup();
    await open("#/brood", { feed: nothingToFeed });
    expect(linkTo(t.food.logReceipt)).toBe("#/log/egg_receipt");
  });
});

describe("How many fit", () => {
  it("says until when, what could be done, which limit is least on each day, and how long the oxygen lasts", async () => {
    await open("#/brood/room");
    expect(document.title).toContain(t.titles.room);
    expect(screen.getByText(loading.sentence)).toBeTruthy();
    for (const option of loading.options) expect(screen.getByText(option.text)).toBeTruthy();
    const table = screen.getByRole("region", { name: t.room.tableLabel });
    expect(within(table).getAllByRole("row").length).toBe(loading.shown.length + 1);
    expect(within(table).getAllByText(t.room.over).length).toBe(2);
    for (const hold of loading.reserve) expect(screen.getAllByText(hold.text).length).toBeGreaterThan(0);
    expect(linkTo(t.room.describe)).toBe("#/log/tank_build");
    expect(linkTo(t.room.emergency)).toBe("#/emergency/power_cut");
  });

  it("calls ammonia's column what it is while the filter is not known, and never good", async () => {
    await open("#/brood/room", { loading: { ...fits, filter: { known: false, doubted: false, working: true } } });
    expect(screen.getByText(t.room.words.unknown ?? "")).toBeTruthy();
    expect(screen.getByText(t.room.working)).toBeTruthy();
    expect(screen.getAllByText(t.room.noFilter).length).toBeGreaterThan(1);
    expect(screen.queryByText(t.room.limits.ammonia ?? "")).toBeNull();
  });

  it("shows sizes alone where no eggs are planned", async () => {
    await open("#/brood/room", { loading: noLoad });
    expect(screen.getByRole("region", { name: t.room.sizesLabel })).toBeTruthy();
    expect(screen.queryByRole("region", { name: t.room.tableLabel })).toBeNull();
    expect(linkTo(t.room.eggDay)).toBe("#/setup");
  });
});

describe("Counts", () => {
  it("says who lives as a range, losses, survival by stage, and the counts taken", async () => {
    await open("#/brood/counts");
    expect(screen.getByText(counts.losses.sentence)).toBeTruthy();
    expect(screen.getAllByText(counts.alive!.text).length).toBeGreaterThan(0);
    for (const stage of counts.stages) expect(screen.getByText(stage.verdict_text)).toBeTruthy();
    expect(text()).toContain(counts.counts[0]!.text);
    expect(screen.queryByText(t.counts.check)).toBeNull();
    expect(linkTo(t.counts.logCount)).toBe("#/log/count");
  });

  it("says since when more died, what to look at in which order, and what changed before", async () => {
    await open("#/brood/counts", { counts: outbreak });
    expect(screen.getByText(outbreak.losses.sentence)).toBeTruthy();
    const list = screen.getByRole("heading", { name: t.counts.check }).closest("section")!.querySelector("ol")!;
    const items = within(list)
      .getAllByRole("listitem")
      .map((one) => one.textContent ?? "");
    expect(items.map((item) => item.trim().slice(0, 6))).toEqual(["Oxygen", "Ammoni", "Temper"]);
    expect(screen.getByText(/rinsed on 22 January/)).toBeTruthy();
    expect(screen.getByText(outbreak.findings[0]!.sentence, { exact: false })).toBeTruthy();
  });

  it("asks for the eggs before there is anything to count, and says when the server is gone", async () => {
    await open("#/brood/counts", { counts: noBrood });
    expect(linkTo(t.counts.logReceipt)).toBe("#/log/egg_receipt");
    expect(screen.queryByText(t.counts.curve)).toBeNull();
    cleanup();
    await open("#/brood/counts");
    online = false;
    location.hash = "#/brood/room";
    await fireEvent(window, new Event("hashchange"));
    expect(await screen.findByText(t.errors.noConnection)).toBeTruthy();
  });
});
