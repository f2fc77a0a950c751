// A season shared in the classroom, on the whole page against the invented server.
import { cleanup, configure, fireEvent, render, screen, waitFor, within } from "@testing-library/svelte";
import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import App from "./App.svelte";
import { keepSession, keptSession, seasonKey } from "./bench/keeping";
import type { Classroom } from "./contract_classroom";
import { begun } from "./fixtures/bench";
import { access, audit, benchCode, inventedPassphrase, keeperHere, newtHere, nobodyHere } from "./fixtures/classroom";
import { day } from "./fixtures/day";
import { inventedServer } from "./fixtures/invented_server";
import { keep, kept } from "./keep";
import { t } from "./messages";
import { app } from "./state/app.svelte";
import { classroom } from "./state/classroom.svelte";

configure({ asyncUtilTimeout: 10_000 });
vi.setConfig({ testTimeout: 60_000 });

const words = t.classroom;
let server = inventedServer();

function open(me: Classroom, hash = "", asks = 0): void {
  server = inventedServer({ classroom: me, own: true, asks });
  vi.stubGlobal("fetch", async (url: string, request: { method: string; body: string | null }) => {
    const answer = server.answer(request.method, url, request.body ?? "");
    return new Response(JSON.stringify(answer.body), { status: answer.status });
  });
  location.hash = hash;
  render(App);
}

beforeEach(() => localStorage.clear());
afterEach(() => {
  cleanup();
  vi.unstubAllGlobals();
  Object.assign(app, { season: null, day: null, kits: null, asOf: null, newestDay: null, worked: null, problems: [] });
  Object.assign(classroom, { me: null, asksIn: false });
  location.hash = "";
  localStorage.clear();
});

async function signInWithCode(code: string): Promise<void> {
  await fireEvent.input(await screen.findByLabelText(words.signIn.code), { target: { value: code } });
  await fireEvent.click(screen.getByRole("button", { name: words.signIn.begin }));
}

describe("a page that nobody is signed in on", () => {
  it("shows nothing of the season but the sign-in, and says what each may do", async () => {
    open(nobodyHere);
    expect(await screen.findByText(words.signIn.teamMay)).toBeTruthy();
    expect(screen.getByText(words.signIn.keeperMay)).toBeTruthy();
    expect(screen.queryByText(day.season.name, { exact: false })).toBeNull();
    expect(screen.queryByRole("navigation", { name: t.nav.label })).toBeNull();
    expect(screen.queryByRole("alert")).toBeNull();
  });

  it("lets a team in with a code, to the bench and nothing else", async () => {
    open(nobodyHere, "#/water", 3);
    await signInWithCode(benchCode.code.toLowerCase());
    expect(await screen.findByText(words.bench.team("Team Newt", "11:45"))).toBeTruthy();
    expect((await screen.findAllByText(words.bench.loggedAs("Team Newt"))).length).toBeGreaterThan(0);
    expect(screen.getByRole("heading", { level: 1 }).textContent).toBe(t.bench.title);
    expect(screen.queryByRole("navigation", { name: t.nav.label })).toBeNull();
    expect(screen.queryByText(t.bench.whoReads)).toBeNull();
    // No address leads elsewhere, and nothing is asked that a bench code may not.
    for (const hash of ["#/today", "#/classroom", "#/copies", "#/emergency", "#/history"]) {
      location.hash = hash;
      await fireEvent(window, new Event("hashchange"));
      expect(screen.getByRole("heading", { level: 1 }).textContent).toBe(t.bench.title);
    }
    // Longer than the filter's work is asked after where it is shown.
    await new Promise((resolve) => setTimeout(resolve, 600));
    const may = [
      "/api/classroom",
      "/api/classroom/sign-in",
      "/api/season",
      "/api/day",
      "/api/kits",
      "/api/bench",
      "/api/thermometer",
    ];
    for (const asked of server.asked) expect(may).toContain(asked.split(" ")[1]?.split("?")[0]);
  });

  it("refuses a wrong code and stays", async () => {
    open(nobodyHere);
    await signInWithCode("XXXX-XXXX");
    expect((await screen.findByRole("alert")).textContent).toContain("There is no such code");
    expect(screen.queryByText(words.bench.team("Team Newt", "11:45"))).toBeNull();
  });

  it("lets the keeper in with the passphrase, to everything", async () => {
    open(nobodyHere);
    await fireEvent.input(await screen.findByLabelText(words.signIn.passphrase), {
      target: { value: inventedPassphrase },
    });
    await fireEvent.click(screen.getByRole("button", { name: words.signIn.enter }));
    expect(await screen.findByText(day.headline.sentence)).toBeTruthy();
    expect(screen.getByRole("navigation", { name: t.nav.label })).toBeTruthy();
  });

  it("says that a sitting is kept on the device", async () => {
    keepSession(seasonKey(day.season), begun(Date.now()));
    open(nobodyHere);
    expect(await screen.findByText(words.signIn.kept)).toBeTruthy();
  });
});

describe("at the bench", () => {
  it("goes on when the code ends: nothing counted is lost, and a new code takes it up", async () => {
    keepSession(seasonKey(day.season), begun(Date.now()));
    open(newtHere);
    await screen.findByText(words.bench.team("Team Newt", "11:45"));
    const before = JSON.stringify(keptSession(seasonKey(day.season)));
    server.endSessions();
    await fireEvent.click(await screen.findByRole("button", { name: t.bench.check }));
    await fireEvent(window, new Event("online"));
    expect(await screen.findByText(words.bench.ended)).toBeTruthy();
    expect(keptSession(seasonKey(day.season))).not.toBeNull();
    expect(JSON.stringify(keptSession(seasonKey(day.season))?.drops)).toBe(JSON.stringify(JSON.parse(before).drops));
    await fireEvent.click(screen.getByRole("button", { name: words.bench.typeCode }));
    await signInWithCode(benchCode.code);
    await waitFor(() => expect(screen.queryByText(words.bench.ended)).toBeNull());
    expect(screen.getByRole("heading", { level: 1 }).textContent).toBe(t.bench.results);
  });

  it("leaves nothing of the season on the device when it signs out", async () => {
    open(newtHere);
    await screen.findByText(words.bench.team("Team Newt", "11:45"));
    await waitFor(() => expect(kept("last")).not.toBeNull());
    keep("team", "Team Newt");
    await fireEvent.click(screen.getByRole("button", { name: words.signIn.out }));
    expect(await screen.findByText(words.signIn.teamMay)).toBeTruthy();
    expect(kept("last")).toBeNull();
    expect(screen.queryByText(day.season.name, { exact: false })).toBeNull();
  });
});

describe("the keeper's classroom", () => {
  it("makes a code, shows it large once, with its team, its end and where to type it", async () => {
    open(keeperHere, "#/classroom");
    await fireEvent.input(await screen.findByLabelText(new RegExp(words.codes.team)), {
      target: { value: "Team Newt" },
    });
    await fireEvent.click(screen.getByRole("button", { name: words.codes.make }));
    const board = await screen.findByRole("region", { name: words.codes.title });
    expect(within(board).getByText(benchCode.code)).toBeTruthy();
    expect(within(board).getByText(words.codes.forTeam("Team Newt"))).toBeTruthy();
    expect(within(board).getByText(keeperHere.addresses[0]!)).toBeTruthy();
    await fireEvent.click(within(board).getByRole("button", { name: words.codes.hide }));
    expect(screen.queryByText(benchCode.code)).toBeNull();
    expect(JSON.stringify({ ...localStorage })).not.toContain(benchCode.code);
  });

  it("refuses a label that looks like a person's address, at its field, before anything is sent", async () => {
    open(keeperHere, "#/classroom");
    const field = await screen.findByLabelText(new RegExp(words.codes.team));
    await fireEvent.input(field, { target: { value: "newt@example.org" } });
    await fireEvent.click(screen.getByRole("button", { name: words.codes.make }));
    expect(screen.getByRole("alert").textContent).toBe(t.classroom.email);
    expect(field.getAttribute("aria-invalid")).toBe("true");
    expect(server.asked).not.toContain("POST /api/classroom/codes");
  });

  it("lists codes and sessions, ends them, and asks before it ends all", async () => {
    open(keeperHere, "#/classroom");
    expect(await screen.findByText(access.sessions[1]!.from)).toBeTruthy();
    await fireEvent.click(screen.getAllByRole("button", { name: /^End the code for Team Newt/ })[0]!);
    await waitFor(() => expect(server.asked).toContain("POST /api/classroom/codes/2/end"));
    await fireEvent.click(screen.getByRole("button", { name: words.open.endAll }));
    expect(server.asked).not.toContain("POST /api/classroom/end-all");
    await fireEvent.click(screen.getByRole("button", { name: words.open.yes }));
    await waitFor(() => expect(server.asked).toContain("POST /api/classroom/end-all"));
  });

  it("says who did what, and what the list can't tell", async () => {
    open(keeperHere, "#/classroom/who");
    expect(await screen.findByText(audit.gaps[0]!)).toBeTruthy();
    expect(screen.getByText("Logged a reading.", { exact: false })).toBeTruthy();
    expect(screen.getByRole("link", { name: words.audit.entry(118) }).getAttribute("href")).toBe("#/history/118");
    await fireEvent.click(screen.getByRole("button", { name: words.audit.more }));
    await waitFor(() => expect(server.asked).toContain("GET /api/audit?before=41"));
  });

  it("says how to let teams in where Redd answers this computer only", async () => {
    open({ ...keeperHere, role: "this_machine", network: false }, "#/classroom");
    expect(await screen.findByText(words.off.words)).toBeTruthy();
    expect(screen.queryByRole("button", { name: words.codes.make })).toBeNull();
  });
});
