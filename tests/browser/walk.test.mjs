// The main walk in a real browser: open the demo, read today, log a between-steps reading, see the answer change,
// correct it, undo it. Once with a mouse, once with the keyboard alone.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { axeFindings, go, openPage, settled, shot, sizes, startBrowser, startRedd } from "./support/redd.mjs";

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

const sentence = (page) => page.locator("#headline-sentence").innerText();

test("read today, log between two steps, see the change, correct it, undo it", async () => {
  const { page, complaints, close } = await openPage(browser, redd.address, { size: sizes.phone });
  await settled(page);
  assert.ok(await page.getByText("Invented demo season").isVisible());
  const first = await sentence(page);
  assert.notEqual(first, "");
  await shot(page, "walk-1-today");

  await page.getByRole("link", { name: "Log a test" }).click();
  await page.getByRole("link", { name: /^Nitrite/ }).click();
  await page.getByRole("heading", { name: "Nitrite" }).waitFor();
  const between = page.getByRole("radio", { name: /^In between/ });
  await between.last().check();
  await page.getByLabel(/Team or class label/).fill("Team Otter");
  await shot(page, "walk-2-card");
  await page.getByRole("button", { name: "Save this reading" }).click();
  await page.locator("#saved-words", { hasText: /Saved\. Nitrite: between/ }).waitFor();
  assert.ok(await page.getByText("The answer for today changed:").isVisible());
  const after_ = page.locator(".side.strong");
  assert.match(await after_.innerText(), /Nitrite/);
  await shot(page, "walk-3-changed");

  await page.getByRole("link", { name: "Correct it" }).click();
  await page.getByText(/You are correcting entry/).waitFor();
  assert.ok(
    await page
      .getByRole("radio", { name: /^In between/ })
      .last()
      .isChecked(),
  );
  await page.getByRole("radio").first().check();
  await shot(page, "walk-4-correct");
  await page.getByRole("button", { name: "Save this reading" }).click();
  await page.locator("li.corrected").first().waitFor();
  assert.match(await page.locator("li.corrected").first().innerText(), /Corrected[\s\S]*replaced by entry/);

  await go(page, "history");
  const newest = page.locator("main li").first();
  assert.match(await newest.innerText(), /replaces entry/);
  await newest.getByRole("button", { name: "Undo" }).click();
  await page.getByRole("button", { name: "Yes, undo it" }).click();
  await page.locator("li.undone").first().waitFor();
  assert.match(await page.locator("li.undone").first().innerText(), /Undone/);
  await shot(page, "walk-5-history");

  assert.deepEqual(complaints, []);
  await close();
});

test("an entry written down late stands under its own day, said so; no day has two headings", async () => {
  const { page, complaints, close } = await openPage(browser, redd.address, { size: sizes.phone });
  await go(page, "log/note");
  await page.getByLabel(/Your note/).fill("Found on a slip of paper.");
  await page.getByRole("radio", { name: "Another time" }).check();
  await page.getByLabel("Day and time").fill("2031-01-27T09:00");
  await page.getByRole("button", { name: "Save", exact: true }).click();
  await page.locator("#saved-words", { hasText: /Saved\./ }).waitFor();
  await go(page, "history");
  const late = page.locator("main li", { hasText: "Found on a slip of paper." });
  await late.waitFor();
  assert.match(await late.innerText(), /written down on Thursday,? 30 January 2031/);
  const headings = await page.locator("main h2").allInnerTexts();
  assert.ok(headings.length > 1);
  assert.equal(new Set(headings).size, headings.length);
  assert.match(
    await page.locator("main section", { hasText: "Found on a slip of paper." }).locator("h2").innerText(),
    /27 January/,
  );
  await shot(page, "walk-7-late");
  assert.deepEqual(complaints, []);
  await close();
});

test("each water test says its range and what its numbers stand for", async () => {
  const { page, close } = await openPage(browser, redd.address, { size: sizes.phone });
  await go(page, "log");
  const tests = page.locator("a[href^='#/log/test/']");
  assert.match(await tests.filter({ hasText: "Total ammonia" }).first().innerText(), /\d+ mg\/L as (NH₄|N)/);
  const words = await tests.allInnerTexts();
  assert.equal(new Set(words).size, words.length, "no two tests read alike");
  await shot(page, "walk-8-tests");
  await go(page, "log/kits");
  assert.match(await page.locator("[aria-labelledby='own-kits']").innerText(), /Total ammonia: .*mg\/L as (NH₄|N)/);
  await shot(page, "walk-9-kits");
  await close();
});

test("the set-up of a running season is shown, not asked again; a wrong address says so", async () => {
  const { page, complaints, close } = await openPage(browser, redd.address, { size: sizes.phone });
  await go(page, "setup");
  await page.getByRole("heading", { name: "Season set-up" }).waitFor();
  assert.equal(await page.locator("main form").count(), 0);
  assert.ok(await page.getByText("./start --new --data DIR").isVisible());
  await page.getByRole("link", { name: "Correct the set-up" }).waitFor();
  assert.deepEqual(await axeFindings(page), []);
  await shot(page, "walk-10-setup");
  await page.getByRole("link", { name: "Correct the set-up" }).click();
  assert.equal(await page.getByRole("textbox", { name: "Water in the tank" }).inputValue(), "210");
  await go(page, "no-such-page");
  await page.getByRole("heading", { name: "There is no such page" }).waitFor();
  assert.deepEqual(await axeFindings(page), []);
  await page.getByRole("link", { name: "To today's page" }).click();
  await page.locator("#headline-sentence").waitFor();
  assert.deepEqual(complaints, []);
  await close();
});

/** Presses Tab until the focused element's name fits. */
async function tabTo(page, name, most = 120) {
  for (let press = 0; press < most; press += 1) {
    await page.keyboard.press("Tab");
    const found = await page.evaluate(() => {
      const at = document.activeElement;
      return `${at?.getAttribute("aria-label") ?? ""} ${at?.closest("label")?.innerText ?? ""} ${at?.innerText ?? ""}`.trim();
    });
    if (name.test(found)) return;
  }
  assert.fail(`Tab never reached ${name}`);
}

test("the same with the keyboard alone", async () => {
  const { page, complaints, close } = await openPage(browser, redd.address);
  await settled(page);
  await page.keyboard.press("Tab");
  assert.match(await page.evaluate(() => document.activeElement?.textContent ?? ""), /Skip to the main part/);
  await page.keyboard.press("Enter");
  await tabTo(page, /^Log a test$/);
  const outline = await page.evaluate(() => getComputedStyle(document.activeElement).outlineWidth);
  assert.notEqual(outline, "0px", "focus can be seen");
  await page.keyboard.press("Enter");
  await page.getByRole("heading", { name: "Log", exact: true }).waitFor();
  assert.equal(await page.evaluate(() => document.activeElement?.tagName), "H1", "focus follows to the new screen");
  await tabTo(page, /^Nitrite/);
  await page.keyboard.press("Enter");
  await page.getByText("What do you see?").waitFor();
  // The first choice takes focus with Tab; arrows walk the card.
  for (let press = 0; press < 10; press += 1) {
    await page.keyboard.press("Tab");
    if (await page.evaluate(() => document.activeElement?.getAttribute("type") === "radio")) break;
  }
  await page.keyboard.press("ArrowDown");
  await page.keyboard.press("ArrowDown");
  const checked = page.locator("input[type=radio]:checked").first();
  assert.match(await checked.evaluate((input) => input.closest("label")?.innerText ?? ""), /\d/);
  await tabTo(page, /^Save this reading$/);
  await page.keyboard.press("Enter");
  await page.locator("#saved-words", { hasText: /Saved\. Nitrite/ }).waitFor();
  await tabTo(page, /^Undo this entry$/);
  await page.keyboard.press("Enter");
  await page.getByText("Undone. The entry stays in the history, struck through.").first().waitFor();

  // The drop counter by space bar.
  await go(page, "log");
  await tabTo(page, /^Alkalinity/);
  await page.keyboard.press("Enter");
  await tabTo(page, /One more drop/);
  for (let drop = 0; drop < 5; drop += 1) await page.keyboard.press(" ");
  assert.equal(await page.locator(".count").innerText(), "5");
  assert.deepEqual(complaints, []);
  await close();
});

test("bad input keeps what was typed and names the field", async () => {
  const { page, close } = await openPage(browser, redd.address, { size: sizes.phone });
  await go(page, "log/temperature");
  const field = page.getByLabel("Temperature", { exact: true });
  await field.fill("200");
  await page.getByRole("button", { name: "Save", exact: true }).click();
  await page.getByRole("alert").waitFor();
  assert.equal(await field.inputValue(), "200");
  assert.equal(await field.getAttribute("aria-invalid"), "true");
  assert.match(await page.locator(".problem").first().innerText(), /200/);
  await shot(page, "walk-6-problem");
  await page.getByRole("alert").getByRole("link").first().click();
  assert.equal(await field.evaluate((input) => input === document.activeElement), true);
  await field.fill("8,2");
  await page.getByRole("button", { name: "Save", exact: true }).click();
  await page.locator("#saved-words", { hasText: /Saved\./ }).waitFor();
  await close();
});

test("the story slider changes what is known", async () => {
  const { page, complaints, close } = await openPage(browser, redd.address);
  await settled(page);
  const first = await page.locator("section.headline").innerText();
  await page.getByRole("slider").fill((await page.getByRole("slider").getAttribute("min")) ?? "0");
  await page.waitForFunction((old) => document.querySelector("section.headline")?.innerText !== old, first);
  await settled(page);
  const opening = await page.locator("section.headline").innerText();
  assert.notEqual(opening, first);
  assert.match(opening, /No animals|Empty|filter|Filter|ripen/i);
  assert.ok(await page.getByRole("button", { name: "Day before" }).isDisabled());
  await page.getByRole("button", { name: "Day after" }).click();
  await page.waitForFunction((old) => document.querySelector("section.headline")?.innerText !== old, opening);
  assert.match(await page.getByRole("status").last().innerText(), /Showing what was known on/);
  await go(page, "season");
  assert.ok(await page.getByText("Invented demo season").isVisible());
  assert.deepEqual(complaints, []);
  await close();
});
