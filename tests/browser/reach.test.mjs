// Large targets, paper, and large text.
import assert from "node:assert/strict";
import { mkdirSync } from "node:fs";
import { join } from "node:path";
import { after, before, test } from "node:test";
import { go, openPage, settled, sizes, startBrowser, startRedd, sticksOut } from "./support/redd.mjs";

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

test("targets are large enough on a phone", async () => {
  const { page, close } = await openPage(browser, redd.address, { size: sizes.phone });
  for (const screen of ["today", "water", "water/changes", "brood", "brood/room", "brood/counts", "log", "history"]) {
    await go(page, screen);
    const small = await page.locator("main button, main a.button, main a.choice, header nav a").evaluateAll((all) =>
      all
        .filter((one) => one.getClientRects().length > 0)
        .map((one) => [one.textContent?.trim(), one.getBoundingClientRect()])
        .filter(([, box]) => box.height < 24 || box.width < 24)
        .map(([text]) => text),
    );
    assert.deepEqual(small, [], screen);
  }
  for (const name of ["Log a test"]) {
    await go(page, "today");
    const box = await page.getByRole("link", { name }).boundingBox();
    assert.ok(box && box.height >= 44 && box.width >= 44, name);
  }
  await close();
});

test("today, the season, the water changes and the brood print on paper, unfolded", async () => {
  const { page, close } = await openPage(browser, redd.address);
  await settled(page);
  await page.emulateMedia({ media: "print" });
  assert.equal(await page.getByRole("navigation").isVisible(), false);
  const details = page.locator(".print-open[hidden]");
  for (let index = 0; index < (await details.count()); index += 1) assert.ok(await details.nth(index).isVisible());
  const folder = process.env.REDD_SHOTS;
  for (const screen of ["today", "season", "water/changes", "brood", "brood/room", "brood/counts"]) {
    await page.emulateMedia({ media: "screen" });
    await go(page, screen);
    if (folder) mkdirSync(folder, { recursive: true });
    const pdf = await page.pdf({
      format: "A4",
      ...(folder ? { path: join(folder, `print-${screen.replaceAll("/", "-")}.pdf`) } : {}),
    });
    assert.ok(pdf.length > 10_000);
  }
  await close();
});

test("text at twice its size, and a window of 320 pixels, need no sideways scrolling", async () => {
  for (const [width, fontSize] of [
    [640, "200%"],
    [320, ""],
  ]) {
    const { page, close } = await openPage(browser, redd.address, { size: { width, height: 800 } });
    for (const screen of [
      "today",
      "season",
      "water",
      "water/changes",
      "brood",
      "brood/room",
      "brood/counts",
      "log",
      "log/fish_sample",
      "history",
    ]) {
      await go(page, screen);
      await page.evaluate((size) => (document.documentElement.style.fontSize = size), fontSize);
      await settled(page);
      assert.equal(await sticksOut(page), 0, `${screen} at ${width} pixels`);
    }
    await close();
  }
});
