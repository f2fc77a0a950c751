// What is checked of every screen at one size: no accessibility findings, nothing sticks out, no complaints in the
// console, nothing asked of any other server; folded and unfolded.
import assert from "node:assert/strict";
import { test } from "node:test";
import { axeFindings, go, openPage, settled, shot, sizes, sticksOut } from "./redd.mjs";

async function someTests(page) {
  await go(page, "log");
  const links = await page
    .locator("a[href^='#/log/test/']")
    .evaluateAll((all) => all.map((a) => a.getAttribute("href")));
  return links.map((href) => href.replace("#/", ""));
}

/** Presses every button that opens something, until none is left. `except`: buttons left alone, as where opening one
 * folds another. */
export async function unfoldAll(page, except = "") {
  const buttons = `main button[aria-expanded='false']${except ? `:not(${except})` : ""}`;
  for (;;) {
    const folded = page.locator(buttons).first();
    if ((await folded.count()) === 0) break;
    await folded.click();
  }
  await settled(page);
}

/** Registers the tests. `ready` gives the running program and browser once they stand. */
export function everyScreen(sizeNames, schemes, ready) {
  for (const sizeName of sizeNames) {
    const size = sizes[sizeName];
    for (const scheme of schemes) {
      test(`every screen, ${sizeName}, ${scheme}`, async () => {
        const { browser, redd } = ready();
        const { page, complaints, close } = await openPage(browser, redd.address, {
          size,
          scheme,
          reducedMotion: "reduce",
        });
        const tests = await someTests(page);
        assert.ok(tests.length > 3);
        const nitrite = tests.find((one) => one.includes("nitrite"));
        const drops = tests.find((one) => /kh|gh/.test(one));
        const screens = [
          "today",
          "season",
          "season/wall",
          "season/calendar",
          "water",
          "heat",
          "emergency",
          "emergency/power_cut",
          "log",
          nitrite,
          drops,
          "log/water_change",
          "log/egg_receipt",
          "log/kits",
          "history",
        ];
        for (const screen of screens) {
          await go(page, screen);
          assert.deepEqual(await axeFindings(page), [], `${screen} at ${sizeName}, ${scheme}`);
          assert.equal(await sticksOut(page), 0, `${screen} sticks out at ${sizeName}`);
          await shot(page, `${screen.replaceAll("/", "-")}-${sizeName}-${scheme}`);
        }
        // With everything unfolded.
        for (const screen of ["today", "season"]) {
          await go(page, screen);
          await unfoldAll(page);
          assert.deepEqual(await axeFindings(page), [], `${screen}, unfolded, at ${sizeName}, ${scheme}`);
          assert.equal(await sticksOut(page), 0, `${screen}, unfolded, sticks out at ${sizeName}`);
          await shot(page, `${screen.replaceAll("/", "-")}-unfolded-${sizeName}-${scheme}`);
        }
        await go(page, "log/kits");
        await page
          .getByRole("button", { name: /^Edit / })
          .first()
          .click();
        assert.deepEqual(await axeFindings(page), [], `kit editor at ${sizeName}, ${scheme}`);
        assert.equal(await sticksOut(page), 0, `kit editor sticks out at ${sizeName}`);
        await shot(page, `kit-editor-${sizeName}-${scheme}`);
        assert.deepEqual(complaints, []);
        await close();
      });
    }
  }
}
