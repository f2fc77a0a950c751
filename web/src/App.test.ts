// The whole page against the invented server: the walks a user makes, and what goes wrong on the way.
import { cleanup, configure, fireEvent, render, screen, waitFor, within } from "@testing-library/svelte";
import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import App from "./App.svelte";
import type { DayView } from "./contract";
import { inventedServer } from "./fixtures/invented_server";
import { t } from "./messages";
import { app } from "./state/app.svelte";
import { connection } from "./state/connection.svelte";
import { endRun } from "./state/first_run.svelte";

// Generous, as the machine may be busy: nothing here is about speed.
configure({ asyncUtilTimeout: 10_000 });
vi.setConfig({ testTimeout: 60_000 });

let server = inventedServer();
let online = true;
/** What the season is called that the server holds; "": as the fixtures have it. */
let heldSeason = "";

function serve(options: Parameters<typeof inventedServer>[0] = {}): void {
  server = inventedServer(options);
  online = true;
  heldSeason = "";
  vi.stubGlobal("fetch", async (url: string, request: { method: string; body: string | null }) => {
    if (!online) throw new TypeError("no connection");
    const answer = server.answer(request.method, url, request.body ?? "");
    if (heldSeason && url.startsWith("/api/day")) {
      const day = structuredClone(answer.body) as DayView;
      return new Response(JSON.stringify({ ...day, season: { ...day.season, name: heldSeason } }), { status: 200 });
    }
    return new Response(JSON.stringify(answer.body), { status: answer.status });
  });
}

async function go(hash: string): Promise<void> {
  location.hash = hash;
  await fireEvent(window, new Event("hashchange"));
}

// happy-dom does not know that a chosen option is :checked, which is how Svelte finds it.
const find = HTMLSelectElement.prototype.querySelector;
HTMLSelectElement.prototype.querySelector = function (this: HTMLSelectElement, selector: string) {
  return selector === ":checked" ? (this.selectedOptions[0] ?? null) : find.call(this, selector);
} as typeof find;

beforeEach(() => {
  localStorage.clear();
  connection.lost = false;
  connection.look();
  endRun();
  location.hash = "";
  Object.assign(app, {
    route: { name: "today", rest: [] },
    season: null,
    day: null,
    kits: null,
    asOf: null,
    newestDay: null,
    worked: null,
    problems: [],
  });
  Element.prototype.scrollIntoView = () => undefined;
  window.scrollTo = () => undefined;
  serve();
});

afterEach(() => {
  cleanup();
  vi.unstubAllGlobals();
});

const nitriteAtZero = async () => {
  await fireEvent.click(await screen.findByRole("radio", { name: /^0\s*chalk/ }));
  await fireEvent.click(screen.getByRole("button", { name: t.log.save }));
};

describe("the page", () => {
  it("opens on today's sentence, the first step unfolded", async () => {
    render(App);
    expect(await screen.findByText("Nitrite is too high for alevins: change 70 litres today.")).toBeTruthy();
    const folds = screen.getAllByRole("button", { name: new RegExp(`^(${t.action.open}|${t.action.close})$`) });
    expect(folds.map((button) => button.getAttribute("aria-expanded"))).toEqual(["true", "false"]);
    expect(screen.getByText(new RegExp(t.demo.mark))).toBeTruthy();
  });

  it("shows so many steps at once, the rest on request, and what was answered", async () => {
    render(App);
    await screen.findByText(t.today.next);
    const steps = () => screen.getAllByRole("heading", { name: /^\d\. / }).map((one) => one.textContent);
    expect(steps()).toEqual(["1. Change water", "2. Measure nitrate and hardness"]);
    const rest = screen.getByRole("button", { name: t.action.rest(1) });
    await fireEvent.click(rest);
    expect(steps()[2]).toBe("3. Look for the first hatched alevins");
    expect(screen.getByText("Top up the water")).toBeTruthy();
    expect(screen.getByText(/falls from 60 % to 5 %/)).toBeTruthy();
  });

  it("writes down that a step is done, leads to its form, and takes the answer back", async () => {
    render(App);
    await screen.findByText(t.today.next);
    const group = screen.getByRole("group", { name: t.action.answer("Change water") });
    await fireEvent.click(within(group).getByRole("button", { name: t.action.answers.done }));
    await screen.findAllByText("Noted as done: Change water.");
    expect(server.sent[0]).toMatchObject({
      kind: "advice_answer",
      body: { answer: "done", action: "nitrite/water_change" },
    });
    await waitFor(() => expect(document.activeElement?.id).toBe("answer-given"));
    const form = screen.getByRole("link", { name: t.action.writeDown.change_water });
    expect(form.getAttribute("href")).toBe("#/log/water_change");
    expect(screen.queryByRole("group", { name: t.action.answer("Change water") })).toBeNull();
    await fireEvent.click(screen.getByRole("button", { name: t.action.undoOf("Change water") }));
    expect(await screen.findByRole("group", { name: t.action.answer("Change water") })).toBeTruthy();
  });

  it("asks until when a step is put off", async () => {
    render(App);
    await screen.findByText(t.today.next);
    const group = screen.getByRole("group", { name: t.action.answer("Change water") });
    await fireEvent.click(within(group).getByRole("button", { name: t.action.answers.not_now }));
    const days = await screen.findByRole("group", { name: t.action.until });
    expect(server.sent).toEqual([]);
    await fireEvent.click(within(days).getByRole("button", { name: t.action.untilSave }));
    expect(screen.getByText(t.action.noUntil)).toBeTruthy();
    await fireEvent.click(within(days).getByRole("button", { name: /Tomorrow/ }));
    await waitFor(() =>
      expect(server.sent[0]?.body).toEqual({
        answer: "not_now",
        action: "nitrite/water_change",
        until: "2031-01-31",
      }),
    );
    expect(await screen.findByText("Answered: not_now until 2031-01-31.")).toBeTruthy();
  });

  it("sends a between-steps reading as it was seen", async () => {
    render(App);
    await screen.findByText(t.today.next);
    await go("#/log/test/nitrite");
    await fireEvent.click(await screen.findByRole("radio", { name: /0\.09 to 0\.18/ }));
    await fireEvent.input(screen.getByLabelText(new RegExp(t.log.team)), { target: { value: "Team Heron" } });
    await fireEvent.click(screen.getByRole("button", { name: t.log.save }));
    expect(await screen.findByText(/Saved\. Nitrite: between 0\.09 and 0\.18/)).toBeTruthy();
    expect(server.sent[0]).toMatchObject({
      kind: "reading",
      author: "Team Heron",
      body: { kit: "pebble", test: "nitrite", form: "between", value: 0.09, upper_value: 0.18, team: "Team Heron" },
    });
    expect(server.sent[0]).not.toHaveProperty("at");
    expect(server.sent[0]?.entry_key).toMatch(/^page-[0-9a-f]{32}$/);
  });

  it("shows before and now when the answer changes, and undoes it", async () => {
    render(App);
    await screen.findByText(t.today.next);
    await go("#/log/test/nitrite");
    await nitriteAtZero();
    expect(await screen.findByText(t.log.changed)).toBeTruthy();
    expect(screen.getByText("All that was measured is in order.")).toBeTruthy();
    expect(screen.getByText("Nitrite is too high for alevins: change 70 litres today.")).toBeTruthy();
    await fireEvent.click(screen.getByRole("button", { name: t.log.undoThis }));
    expect((await screen.findAllByText(t.log.undone)).length).toBeGreaterThan(0);
  });

  it("asks for what was seen before it sends anything", async () => {
    render(App);
    await screen.findByText(t.today.next);
    await go("#/log/test/nitrite");
    await fireEvent.click(await screen.findByRole("button", { name: t.log.save }));
    expect(await screen.findByText(t.errors.nothingChosen)).toBeTruthy();
    expect(server.sent).toEqual([]);
  });

  it("counts drops by pressing, and takes one back", async () => {
    render(App);
    await screen.findByText(t.today.next);
    await go("#/log/test/kh");
    const more = await screen.findByRole("button", { name: new RegExp(t.log.addDrop) });
    for (let drop = 0; drop < 4; drop += 1) await fireEvent.click(more);
    await fireEvent.click(screen.getByRole("button", { name: t.log.takeDrop }));
    await fireEvent.click(screen.getByRole("button", { name: t.log.save }));
    await waitFor(() => expect(server.sent[0]?.body).toMatchObject({ test: "kh", form: "drops", value: 3 }));
  });

  it("keeps what was typed when the server refuses, and names the field", async () => {
    render(App);
    await screen.findByText(t.today.next);
    await go("#/log/temperature");
    const input = await screen.findByLabelText<HTMLInputElement>("Temperature");
    await fireEvent.input(input, { target: { value: "200" } });
    await fireEvent.click(screen.getByRole("button", { name: t.log.saveRecord }));
    expect((await screen.findAllByText(/200 °C can't be right/)).length).toBe(2);
    expect(input.value).toBe("200");
    expect(input.getAttribute("aria-invalid")).toBe("true");
    await fireEvent.input(input, { target: { value: "8,5" } });
    await fireEvent.click(screen.getByRole("button", { name: t.log.saveRecord }));
    await waitFor(() => expect(server.sent[0]?.body).toEqual({ temperature_c: 8.5, place: "tank" }));
  });

  it("sends the second unit under its own key and converts nothing", async () => {
    render(App);
    await screen.findByText(t.today.next);
    await go("#/log/temperature");
    await fireEvent.input(await screen.findByLabelText("Temperature"), { target: { value: "46.4" } });
    await fireEvent.change(screen.getByLabelText(t.log.unitOf("Temperature")), { target: { value: "second" } });
    await fireEvent.click(screen.getByRole("button", { name: t.log.saveRecord }));
    await waitFor(() => expect(server.sent[0]?.body).toEqual({ temperature_f: 46.4, place: "tank" }));
  });

  it("keeps an entry on this device over a lost connection and a reload, and sends it once by itself", async () => {
    const first = render(App);
    await screen.findByText(t.today.next);
    await go("#/log/note");
    await fireEvent.input(await screen.findByLabelText(/Your note/), { target: { value: "Eyes in every egg." } });
    online = false;
    await fireEvent.click(screen.getByRole("button", { name: t.log.saveRecord }));
    expect(await screen.findByText(t.outbox.keptTitle)).toBeTruthy();
    expect(await screen.findByText(t.outbox.waiting(1))).toBeTruthy();
    expect(screen.getByText(t.outbox.lost)).toBeTruthy();
    first.unmount();
    const second = render(App);
    expect(await screen.findByText(t.outbox.lost)).toBeTruthy();
    expect(server.sent).toEqual([]);
    second.unmount();
    online = true;
    render(App);
    await waitFor(() => expect(server.sent).toHaveLength(1));
    expect(server.sent[0]?.body).toEqual({ text: "Eyes in every egg." });
    await waitFor(() => expect(screen.queryByText(t.outbox.waiting(1))).toBeNull());
    expect(localStorage.getItem("redd.draft.note")).toBeNull();
  });

  it("never sends an entry to another season that took the place of its own", async () => {
    render(App);
    await screen.findByText(t.today.next);
    await go("#/log/note");
    await fireEvent.input(await screen.findByLabelText(/Your note/), { target: { value: "Of the first tank." } });
    online = false;
    await fireEvent.click(screen.getByRole("button", { name: t.log.saveRecord }));
    await screen.findByText(t.outbox.keptTitle);
    online = true;
    heldSeason = "The tank next door";
    await fireEvent.click(screen.getByRole("button", { name: t.outbox.tryNow }));
    const note = await screen.findByRole("group", { name: t.outbox.elsewhereTitle("Note") });
    expect(server.sent).toEqual([]);
    await fireEvent.click(within(note).getByRole("button", { name: t.outbox.discard }));
    await fireEvent.click(within(note).getByRole("button", { name: t.outbox.sureYes }));
    await waitFor(() => expect(screen.queryByRole("group", { name: t.outbox.elsewhereTitle("Note") })).toBeNull());
  });

  it("says when an entry that waited has gone out, and no longer offers to take it back", async () => {
    render(App);
    await screen.findByText(t.today.next);
    await go("#/log/note");
    await fireEvent.input(await screen.findByLabelText(/Your note/), { target: { value: "Late, but there." } });
    online = false;
    await fireEvent.click(screen.getByRole("button", { name: t.log.saveRecord }));
    await screen.findByText(t.outbox.keptTitle);
    online = true;
    await fireEvent.click(screen.getByRole("button", { name: t.outbox.tryNow }));
    expect(await screen.findByText(t.outbox.arrivedTitle)).toBeTruthy();
    expect(screen.queryByRole("button", { name: t.outbox.takeBack })).toBeNull();
    expect(server.sent).toHaveLength(1);
  });

  it("takes back an entry that still waits, and it is never sent", async () => {
    render(App);
    await screen.findByText(t.today.next);
    await go("#/log/note");
    await fireEvent.input(await screen.findByLabelText(/Your note/), { target: { value: "Not so." } });
    online = false;
    await fireEvent.click(screen.getByRole("button", { name: t.log.saveRecord }));
    await fireEvent.click(await screen.findByRole("button", { name: t.outbox.takeBack }));
    online = true;
    await fireEvent.click(screen.getByRole("button", { name: t.outbox.tryNow }));
    await waitFor(() => expect(screen.queryByText(t.outbox.lost)).toBeNull());
    expect(server.sent).toEqual([]);
  });

  it("corrects from the history with the old values filled in", async () => {
    render(App);
    await screen.findByText(t.today.next);
    await go("#/history/104/correct");
    const old = await screen.findByRole<HTMLInputElement>("radio", { name: /0\.09 to 0\.18/ });
    expect(old.checked).toBe(true);
    await nitriteAtZero();
    await waitFor(() => expect(server.sent[0]).toMatchObject({ supersedes: 104, at: "2031-01-30T15:10:00Z" }));
    expect(server.sent[0]?.body).toMatchObject({ form: "step", value: 0, session: "s1" });
    expect(await screen.findByText(t.history.status.corrected ?? "")).toBeTruthy();
  });

  it("asks before it undoes, then shows the entry struck through", async () => {
    render(App);
    await screen.findByText(t.today.next);
    await go("#/history");
    await fireEvent.click((await screen.findAllByRole("button", { name: t.history.undo }))[1]!);
    await fireEvent.click(await screen.findByRole("button", { name: t.history.undoYes }));
    await waitFor(() => expect(document.querySelector("#entry-103 s")?.textContent).toBe("Tank 8.2 °C"));
  });

  it("moves the story clock and says so", async () => {
    render(App);
    await screen.findByText(t.today.next);
    await fireEvent.click(screen.getByRole("button", { name: t.demo.before }));
    await waitFor(() => expect(app.asOf).toBe("2031-01-29"));
    await waitFor(() => expect(app.announcement).toContain("Showing what was known on"));
  });

  it("begins an empty season: everything may stay open, and it ends on a plan", async () => {
    serve({ empty: true, own: true });
    render(App);
    const next = () => fireEvent.click(screen.getByRole("button", { name: t.firstRun.next }));
    const arrive = async (step: string) => {
      await fireEvent(window, new Event("hashchange"));
      await screen.findByRole("heading", { level: 1, name: t.firstRun.steps[step] ?? step });
    };
    await screen.findByRole("heading", { level: 1, name: t.firstRun.steps.language });
    await fireEvent.click(screen.getByLabelText("°C and litres"));
    for (const step of ["school", "tank"]) {
      await next();
      await arrive(step);
    }
    await fireEvent.input(screen.getByLabelText("Water in the tank"), { target: { value: "much" } });
    await next();
    expect(await screen.findByText(/“much” is not a number/, { selector: ".problem" })).toBeTruthy();
    await fireEvent.input(screen.getByLabelText("Water in the tank"), { target: { value: "180" } });
    for (const step of ["around", "cold", "water", "eggs", "kit", "calendar", "permit", "check"]) {
      await next();
      await arrive(step);
    }
    expect(server.sent).toEqual([]);
    online = false;
    await fireEvent.click(screen.getByRole("button", { name: t.firstRun.check.begin }));
    expect(await screen.findByText(t.errors.noConnection)).toBeTruthy();
    online = true;
    await fireEvent.click(screen.getByRole("button", { name: t.firstRun.check.begin }));
    await waitFor(() => expect(location.hash).toBe("#/setup/plan"));
    await arrive("plan");
    expect(await screen.findByText(t.firstRun.plan.next)).toBeTruthy();
    expect(screen.getByText(/What keeps your tap water clean/)).toBeTruthy();
    expect(server.sent.map((record) => record.kind)).toEqual(["season_setup", "note"]);
    expect(server.sent[0]?.body).toMatchObject({ volume_l: 180, target_c: 8, species: "rainbow_trout" });
    await go("#/today");
    expect(await screen.findByText(t.today.next)).toBeTruthy();
  });

  it("shows the set-up of a running season in words, and leads to its correction", async () => {
    render(App);
    await screen.findByText(t.today.next);
    await go("#/setup");
    expect(await screen.findByRole("heading", { name: t.titles.setupShown })).toBeTruthy();
    expect(screen.getByText("210 L")).toBeTruthy();
    expect(screen.queryByRole("button", { name: t.firstRun.next })).toBeNull();
    expect(screen.getByText("./start --new --data DIR")).toBeTruthy();
    const link = await screen.findByRole("link", { name: t.setup.correct });
    expect(link.getAttribute("href")).toBe("#/history/1/correct");
    await go("#/history/1/correct");
    expect((await screen.findByLabelText<HTMLInputElement>("Water in the tank")).value).toBe("210");
  });

  it("has fields for what ready means and for the filter material, tucked away in the correction", async () => {
    render(App);
    await screen.findByText(t.today.next);
    await go("#/history/1/correct");
    await screen.findByLabelText("Water in the tank");
    await fireEvent.click(screen.getByRole("button", { name: t.log.more }));
    await fireEvent.input(screen.getByLabelText(/Filter material/), { target: { value: "2.5" } });
    await fireEvent.input(screen.getByLabelText(/test dose/), { target: { value: "0,5" } });
    await fireEvent.input(screen.getByLabelText(/within \(hours\)/), { target: { value: "24" } });
    await fireEvent.click(screen.getByRole("button", { name: t.log.saveRecord }));
    await waitFor(() => expect(server.sent).toHaveLength(1));
    expect(server.sent[0]?.body).toMatchObject({
      filter_media_l: 2.5,
      ready_test_dose_mg_n_per_l: 0.5,
      ready_within_hours: 24,
    });
    expect(server.sent[0]?.body).not.toHaveProperty("ready_nitrite_mg_n_per_l");
  });

  it("leads to every sheet that can be printed, and shows the report and the bench sheet", async () => {
    render(App);
    await screen.findByText(t.today.next);
    await go("#/print");
    expect(screen.getAllByRole("link", { name: /Bench sheet/ })[0]?.getAttribute("href")).toBe("#/print/bench");
    await go("#/print/report");
    expect(await screen.findByText("30 alevins, estimated")).toBeTruthy();
    await go("#/print/bench");
    expect(await screen.findByText(/The order could not be worked out/)).toBeTruthy();
    expect(screen.getByText(/Eye protection for everyone/)).toBeTruthy();
  });

  it("says plainly that an address leads nowhere", async () => {
    render(App);
    await screen.findByText(t.today.next);
    await go("#/fish");
    expect(await screen.findByRole("heading", { name: t.titles.missing })).toBeTruthy();
    expect(screen.getByRole("link", { name: t.missing.toToday }).getAttribute("href")).toBe("#/today");
  });

  it("says so when Redd does not answer, and tries again", async () => {
    online = false;
    render(App);
    expect(await screen.findByText(t.errors.noConnection)).toBeTruthy();
    online = true;
    await fireEvent.click(screen.getByRole("button", { name: t.tryAgain }));
    expect(await screen.findByText(t.today.next)).toBeTruthy();
  });
});
