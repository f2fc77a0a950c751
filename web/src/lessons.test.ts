// The lessons against the invented server: guessing blind, graphs that keep their answers folded, sheets and their answers.
import { cleanup, configure, fireEvent, render, screen, waitFor, within } from "@testing-library/svelte";
import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import App from "./App.svelte";
import { inventedServer } from "./fixtures/invented_server";
import { begun, chipQuestion, lessons, rangeQuestion, warmQuestion } from "./fixtures/lessons";
import { t } from "./messages";
import { app } from "./state/app.svelte";

configure({ asyncUtilTimeout: 10_000 });
vi.setConfig({ testTimeout: 60_000 });

let server = inventedServer();

async function open(hash: string, options: Parameters<typeof inventedServer>[0] = {}): Promise<void> {
  server = inventedServer(options);
  location.hash = hash;
  render(App);
  await waitFor(() => expect(document.querySelector("main [aria-busy='true']")).toBeNull());
  await waitFor(() => expect(document.querySelector(".sheet, .sheet-view")).not.toBeNull());
}
const text = () => document.body.textContent?.replace(/\s+/g, " ") ?? "";

beforeEach(() => {
  localStorage.clear();
  Object.assign(app, {
    route: { name: "today", rest: [] },
    season: null,
    day: null,
    kits: null,
    asOf: null,
    newestDay: null,
    worked: null,
    busy: false,
    problems: [],
    announcement: "",
  });
  vi.stubGlobal("fetch", (url: string, request: RequestInit = {}) => {
    const answer = server.answer(request.method ?? "GET", url, typeof request.body === "string" ? request.body : "");
    return Promise.resolve(new Response(JSON.stringify(answer.body), { status: answer.status }));
  });
});
afterEach(() => {
  cleanup();
  vi.unstubAllGlobals();
});

/** The form of one question, opened. */
async function formOf(question: string): Promise<HTMLElement> {
  await fireEvent.click(await screen.findByRole("button", { name: t.lessons.game.guess(question) }));
  return screen.findByRole("form", { name: t.lessons.game.guess(question) });
}

describe("guessing", () => {
  it("takes ten chips, hides them, and is ready for the next team", async () => {
    await open("#/lessons");
    const form = within(await formOf(chipQuestion.text));
    await fireEvent.input(form.getByLabelText(t.lessons.game.team), { target: { value: "Team Heron" } });
    const more = form.getByRole("button", { name: t.lessons.game.add("12") });
    for (let chip = 0; chip < 10; chip += 1) await fireEvent.click(more);
    expect(more.hasAttribute("disabled")).toBe(true);
    await fireEvent.click(form.getByRole("button", { name: t.lessons.game.save }));
    await waitFor(() => expect(text()).toContain(t.lessons.game.saved("Team Heron")));
    expect(server.guesses).toMatchObject([
      { question: chipQuestion.key, team: "Team Heron", chips: [0, 0, 10, 0, 0, 0] },
    ]);
    expect(text()).toContain("10 chips left to lay.");
    expect(text()).toContain("Team Otter, Team Heron");
  });

  it("takes °F where the question is in °F, and sends °C", async () => {
    await open("#/lessons", { lessons: { ...lessons, game: { ...lessons.game, open: [warmQuestion] } } });
    const form = within(await formOf(warmQuestion.text));
    await fireEvent.input(form.getByLabelText(t.lessons.game.team), { target: { value: "Team Heron" } });
    await fireEvent.input(form.getByLabelText(t.lessons.game.low("°F")), { target: { value: "41" } });
    await fireEvent.input(form.getByLabelText(t.lessons.game.high("°F")), { target: { value: "46.4" } });
    await fireEvent.click(form.getByRole("button", { name: t.lessons.game.save }));
    await waitFor(() => expect(server.guesses).toHaveLength(1));
    expect(server.guesses[0]?.low).toBeCloseTo(5, 9);
    expect(server.guesses[0]?.high).toBeCloseTo(8, 9);
  });

  it("says what is missing and sends nothing", async () => {
    await open("#/lessons");
    const form = within(await formOf(rangeQuestion.text));
    await fireEvent.click(form.getByRole("button", { name: t.lessons.game.save }));
    await waitFor(() => expect(text()).toContain(t.lessons.game.needRange));
    expect(text()).toContain(t.lessons.game.needTeam);
    await fireEvent.input(form.getByLabelText(t.lessons.game.team), { target: { value: "Team Heron" } });
    const ends = [form.getByLabelText(t.lessons.game.low("drops")), form.getByLabelText(t.lessons.game.high("drops"))];
    for (const [from, to, sentence] of [
      ["9", "5", t.lessons.game.crossed],
      ["5.5", "7", t.lessons.game.needWhole],
    ] as const) {
      await fireEvent.input(ends[0]!, { target: { value: from } });
      await fireEvent.input(ends[1]!, { target: { value: to } });
      await fireEvent.click(form.getByRole("button", { name: t.lessons.game.save }));
      await waitFor(() => expect(text()).toContain(sentence));
    }
    expect(server.guesses).toEqual([]);
  });

  it("leads to the log while nothing is open", async () => {
    await open("#/lessons", { lessons: begun });
    expect(text()).toContain(t.lessons.game.noneOpen);
    expect(screen.getAllByRole("link", { name: t.lessons.game.logTest })[0]?.getAttribute("href")).toBe("#/log");
  });
});

describe("the other lessons", () => {
  it("keep an answer folded until it is asked for", async () => {
    await open("#/lessons/graphs");
    const answer = screen.getByText("55.6 degree-days.");
    expect(answer.closest("[hidden]")).not.toBeNull();
    const item = answer.closest("li");
    await fireEvent.click(within(item!).getByRole("button", { name: t.lessons.graphs.answer }));
    expect(answer.closest("[hidden]")).toBeNull();
  });

  it("show what teams read", async () => {
    await open("#/lessons/teams");
    expect(text()).toContain("Team Dipper");
    expect(text()).toContain("s = 0.48 steps");
  });

  it("print a sheet, and its answers under the same mark", async () => {
    await open("#/lessons/sheets/younger/7");
    expect(server.asked.some((one) => one.includes("sheet=7"))).toBe(true);
    expect(text()).toContain("Mark 4F2A");
    expect(text()).not.toContain("193.");
    cleanup();
    await open("#/lessons/sheets/younger/7/answers");
    expect(text()).toContain("Mark 4F2A");
    expect(text()).toContain("193.");
    expect(text()).toContain("no test has been read by two teams");
  });
});
