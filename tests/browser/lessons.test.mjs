// Lessons against the program: a team guesses blind on a phone, another with the keyboard alone; every screen at every
// size, folded and unfolded; a worksheet and its answers on paper.
import assert from "node:assert/strict";
import { mkdirSync } from "node:fs";
import { join } from "node:path";
import { after, before, test } from "node:test";
import {
  axeFindings,
  go,
  openPage,
  settled,
  shot,
  sizes,
  startBrowser,
  startRedd,
  sticksOut,
} from "./support/redd.mjs";
import { unfoldAll } from "./support/screens.mjs";

let redd;
let browser;

before(async () => {
  redd = await startRedd("demo");
  browser = await startBrowser();
});

after(async () => {
  await browser?.close();
  await redd?.stop();
});

/** The open question whose text has these words, with its form unfolded. */
async function formOf(page, words) {
  const item = page.locator("section[aria-labelledby='open-questions'] li", { hasText: words });
  await item.getByRole("button", { name: /^Make a guess: / }).click();
  await item.locator("form").waitFor();
  return item;
}

test("a team lays its chips on a phone, and nobody sees them", async () => {
  const { page, complaints, close } = await openPage(browser, redd.address, { size: sizes.phone });
  await go(page, "lessons");
  await page.locator("#game-sentence").waitFor();
  const item = await formOf(page, "nitrate test");
  await item.getByLabel("Team label").fill("Team Dipper");
  for (let chip = 0; chip < 7; chip += 1)
    await item
      .getByRole("button", { name: /^One chip more on/ })
      .nth(2)
      .click();
  await item.getByRole("button", { name: "Hide it and hand in" }).click();
  await item.getByRole("alert").waitFor();
  assert.match(await item.getByRole("alert").innerText(), /Lay all 10 chips/);
  for (let chip = 0; chip < 3; chip += 1)
    await item
      .getByRole("button", { name: /^One chip more on/ })
      .nth(3)
      .click();
  assert.deepEqual(await axeFindings(page), []);
  assert.equal(await sticksOut(page), 0);
  await shot(page, "lessons-walk-1-chips");
  await item.getByRole("button", { name: "Hide it and hand in" }).click();
  await item.getByText("The guess of Team Dipper is in and hidden.").waitFor();
  await item.getByText("10 chips left to lay.").waitFor();
  await settled(page);
  assert.match(await item.innerText(), /Team Dipper/);
  await shot(page, "lessons-walk-2-in");
  const history = await (await page.request.get(`${redd.address}api/history?limit=5`)).json();
  const kept = history.records.find((record) => record.kind === "guess");
  assert.deepEqual(Object.keys(kept.body).sort(), ["question", "team"]);
  assert.deepEqual(complaints, []);
  await close();
});

test("a range is handed in with the keyboard alone", async () => {
  const { page, complaints, close } = await openPage(browser, redd.address);
  await go(page, "lessons");
  const item = page.locator("section[aria-labelledby='open-questions'] li", { hasText: "How many drops" }).first();
  await item.getByRole("button", { name: /^Make a guess: / }).focus();
  await page.keyboard.press("Enter");
  await page.keyboard.press("Tab");
  await page.keyboard.type("Team Shrew");
  await page.keyboard.press("Tab");
  await page.keyboard.type("5");
  await page.keyboard.press("Tab");
  await page.keyboard.type("8");
  await page.keyboard.press("Enter");
  await item.getByText("The guess of Team Shrew is in and hidden.").waitFor();
  assert.equal(await item.getByLabel("Team label").inputValue(), "");
  assert.deepEqual(complaints, []);
  await close();
});

test("answers to a graph stay folded until they are asked for", async () => {
  const { page, complaints, close } = await openPage(browser, redd.address);
  await go(page, "lessons/graphs");
  const answer = page.locator(".answer").first();
  assert.equal(await answer.isVisible(), false);
  await page.getByRole("button", { name: "Show the answer" }).first().click();
  assert.equal(await answer.isVisible(), true);
  assert.deepEqual(complaints, []);
  await close();
});

test("a sheet and its answers share a mark, and print without the page around them", async () => {
  const { page, complaints, close } = await openPage(browser, redd.address);
  await go(page, "lessons/sheets");
  await page.getByLabel("Sheet number").fill("3");
  await page.getByRole("button", { name: "Show this sheet" }).click();
  await page.getByText(/Ages 8 to 10, sheet 3/).waitFor();
  const mark = /Mark [0-9A-F]{4}/.exec(await page.locator(".sheet-view").innerText())[0];
  const tasks = await page.locator(".sheet-view li").count();
  assert.ok(tasks >= 6 && tasks <= 10, `${tasks} tasks`);
  const folder = process.env.REDD_SHOTS;
  if (folder) mkdirSync(folder, { recursive: true });
  for (const [name, format] of [
    ["sheet", "A4"],
    ["answers", "Letter"],
  ]) {
    if (name === "answers") await page.getByRole("link", { name: "To the answers" }).click();
    await page.getByRole("heading", { name: name === "answers" ? /^Answers: / : /^Worksheet: / }).waitFor();
    await settled(page);
    assert.ok((await page.locator(".sheet-view").innerText()).includes(mark));
    await page.emulateMedia({ media: "print" });
    assert.equal(await page.getByRole("navigation").first().isVisible(), false);
    assert.equal(await page.locator("footer").isVisible(), false);
    const pdf = await page.pdf({ format, ...(folder ? { path: join(folder, `print-lessons-${name}.pdf`) } : {}) });
    assert.ok(pdf.length > 10_000);
    await page.emulateMedia({ media: "screen" });
  }
  assert.equal(await page.locator(".sheet-view li").count(), tasks);
  await go(page, "lessons/sheets/older/3");
  await page.getByText(/Ages 11 to 14, sheet 3/).waitFor();
  assert.deepEqual(complaints, []);
  await close();
});

const screens = [
  "lessons",
  "lessons/teams",
  "lessons/graphs",
  "lessons/sheets/younger/2",
  "lessons/sheets/older/2",
  "lessons/sheets/older/2/answers",
];
for (const [sizeName, scheme] of [
  ["small", "light"],
  ["phone", "dark"],
  ["desktop", "light"],
  ["projector", "dark"],
])
  test(`lessons, ${sizeName}, ${scheme}`, async () => {
    const { page, complaints, close } = await openPage(browser, redd.address, {
      size: sizes[sizeName],
      scheme,
      reducedMotion: "reduce",
    });
    for (const screen of screens) {
      await go(page, screen);
      await shot(page, `${screen.replaceAll("/", "-")}-${sizeName}-${scheme}`);
      // Of the open questions one form stands at a time.
      const guess = page.getByRole("button", { name: /^Make a guess: / }).first();
      if ((await guess.count()) > 0) await guess.click();
      await unfoldAll(page, "section[aria-labelledby='open-questions'] button");
      assert.deepEqual(await axeFindings(page), [], `${screen} at ${sizeName}, ${scheme}`);
      assert.equal(await sticksOut(page), 0, `${screen} sticks out at ${sizeName}`);
      const small = await page.locator("main button, main a.button").evaluateAll((all) =>
        all
          .filter((one) => one.getClientRects().length > 0)
          .map((one) => [one.textContent?.trim(), one.getBoundingClientRect()])
          .filter(([, box]) => box.height < 24 || box.width < 24)
          .map(([text]) => text),
      );
      assert.deepEqual(small, [], screen);
    }
    assert.deepEqual(complaints, []);
    await close();
  });
