// The Water view's ways, against the invented server: following, stopping and starting the work, an older outlook, looking
// back, paper, large text.
import assert from "node:assert/strict";
import { join } from "node:path";
import { after, before, test } from "node:test";
import { startInvented } from "./support/invented.mjs";
import { axeFindings, go, openPage, settled, shot, sizes, startBrowser, sticksOut } from "./support/redd.mjs";

let invented;
let browser;

before(async () => {
  invented = await startInvented();
  browser = await startBrowser();
});

after(async () => {
  await browser?.close();
  await invented?.stop();
});

const ripening = (filters) => ({ filter: filters.ripening, own: true });

test("targets are large enough, and no drawing is without words", async () => {
  invented.play(ripening);
  const { page, close } = await openPage(browser, invented.address, { size: sizes.phone });
  await go(page, "water");
  const small = await page.locator("main button, main a.button, main input, header nav a").evaluateAll((all) =>
    all
      .filter((one) => one.getClientRects().length > 0)
      .map((one) => [one.textContent?.trim(), one.getBoundingClientRect()])
      .filter(([, box]) => box.height < 24 || box.width < 24)
      .map(([text]) => text),
  );
  assert.deepEqual(small, []);
  const mute = await page
    .locator("main svg:not([aria-hidden='true'])")
    .evaluateAll((all) => all.filter((one) => !one.getAttribute("aria-labelledby") && !one.getAttribute("aria-label")));
  assert.equal(mute.length, 0);
  await close();
});

test("the work is followed, stopped and started with the keyboard alone, and the day is asked for once more", async () => {
  const api = invented.play(() => ({ asks: 6 }));
  const { page, complaints, close } = await openPage(browser, invented.address);
  await page.getByRole("link", { name: /is being worked out/ }).waitFor();
  await shot(page, "water-walk-1-today");
  await page.getByRole("link", { name: /is being worked out/ }).focus();
  await page.keyboard.press("Enter");
  await page.getByRole("progressbar").waitFor();
  assert.equal(await page.evaluate(() => document.activeElement?.tagName), "H1");
  // Past the two screens about the water.
  for (let press = 0; press < 3; press += 1) await page.keyboard.press("Tab");
  assert.equal(await page.evaluate(() => document.activeElement?.textContent?.trim()), "Stop");
  await page.keyboard.press("Enter");
  await page.getByRole("heading", { name: "Stopped" }).waitFor();
  assert.equal(await page.evaluate(() => document.activeElement?.textContent?.trim()), "Start again");
  await shot(page, "water-walk-2-stopped");
  const before = api.asked.length;
  await page.waitForTimeout(900);
  assert.equal(api.asked.length, before, "nothing is asked of a server that does nothing");
  await page.keyboard.press("Enter");
  await page.locator("#filter-sentence").waitFor();
  await settled(page);
  await page.waitForTimeout(900);
  const since = api.asked.slice(before);
  assert.equal(since.filter((one) => one.startsWith("GET /api/day")).length, 1, since.join("\n"));
  assert.equal(since.filter((one) => one.startsWith("GET /api/filter")).length, 6, since.join("\n"));
  assert.deepEqual(complaints, []);
  await close();
});

test("an older outlook stays readable while a newer one is in the making", async () => {
  invented.play(() => ({ asksAnew: 8 }));
  const { page, complaints, close } = await openPage(browser, invented.address, { size: sizes.phone });
  await go(page, "water");
  const sentence = await page.locator("#filter-sentence").innerText();
  await page.getByRole("button", { name: "Day before" }).click();
  await page.getByText("Older: what follows was worked out for Thursday 30 January 2031.").waitFor();
  assert.equal(await page.locator("#filter-sentence").innerText(), sentence);
  assert.deepEqual(await axeFindings(page), []);
  await shot(page, "water-walk-3-older");
  await page.getByRole("progressbar").waitFor({ state: "detached" });
  assert.equal(await page.getByText(/^Older:/).count(), 0);
  assert.deepEqual(complaints, []);
  await close();
});

test("a season of one's own looks back to a day, and is back at today on every other screen", async () => {
  invented.play(ripening);
  const { page, complaints, close } = await openPage(browser, invented.address);
  await go(page, "water");
  await page.getByLabel("Look back to a day").fill("2030-11-12");
  await page.locator("#look-back-hint", { hasText: "You see what was known on The invented day" }).waitFor();
  await shot(page, "water-walk-4-look-back");
  await page.getByRole("link", { name: "History" }).click();
  await page.getByRole("heading", { name: "History" }).waitFor();
  await go(page, "water");
  assert.equal(await page.locator("#look-back-hint").innerText(), "Shows what was known on that day.");
  assert.deepEqual(complaints, []);
  await close();
});

test("the Water view prints, unfolded and without buttons", async () => {
  invented.play(ripening);
  const { page, close } = await openPage(browser, invented.address);
  await go(page, "water");
  await page.emulateMedia({ media: "print" });
  assert.equal(await page.getByRole("button", { name: "Whole season" }).isVisible(), false);
  assert.ok(await page.getByText(/simulated tanks that fit/).isVisible());
  assert.ok(await page.getByText("Warm the tank to 26 °C until it is chilled.").isVisible());
  const folder = process.env.REDD_SHOTS;
  const pdf = await page.pdf({ format: "A4", ...(folder ? { path: join(folder, "print-water.pdf") } : {}) });
  assert.ok(pdf.length > 10_000);
  await close();
});

test("text at twice its size, and a window of 320 pixels, need no sideways scrolling", async () => {
  invented.play(ripening);
  for (const [width, fontSize] of [
    [640, "200%"],
    [320, ""],
  ]) {
    const { page, close } = await openPage(browser, invented.address, { size: { width, height: 800 } });
    await go(page, "water");
    await page.evaluate((size) => (document.documentElement.style.fontSize = size), fontSize);
    await settled(page);
    assert.equal(await sticksOut(page), 0, `at ${width} pixels`);
    await close();
  }
});
