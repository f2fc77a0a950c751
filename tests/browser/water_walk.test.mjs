// The Water view of the program itself: the demo's outlook is worked out while other screens stay usable, can be stopped
// and started, and then says what it found. Skipped where the program works out no outlook.
import assert from "node:assert/strict";
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

// The sampler shares the machine with the browser.
const patienceMs = 240_000;
let redd;
let browser;
let offered = false;

before(async () => {
  redd = await startRedd("demo");
  offered = "filter" in (await (await fetch(`${redd.address}api/day`)).json());
  browser = await startBrowser();
});

after(async () => {
  await browser?.close();
  await redd?.stop();
});

test("the demo's filter: stop, start again, wait, read", async (context) => {
  if (!offered) return context.skip("this program works out no outlook of the filter");
  const { page, complaints, close } = await openPage(browser, redd.address, { size: sizes.phone });
  await page.locator("#headline-sentence").waitFor();
  await go(page, "water");
  const ready = page.locator("#filter-sentence");
  const stop = page.getByRole("button", { name: "Stop", exact: true });
  await ready.or(stop).first().waitFor();
  if (await stop.isVisible()) {
    await page.getByRole("progressbar").waitFor();
    assert.deepEqual(await axeFindings(page), []);
    await shot(page, "water-program-1-working");
    await stop.click();
    const again = page.getByRole("button", { name: "Start again", exact: true });
    await again.or(ready).first().waitFor();
    // It may have come to its end just before it was stopped.
    if (await again.isVisible()) {
      await shot(page, "water-program-2-stopped");
      await again.click();
    }
  }
  await ready.waitFor({ timeout: patienceMs });
  await settled(page);
  assert.notEqual((await ready.innerText()).trim(), "");
  assert.equal(await page.getByRole("progressbar").count(), 0);
  for (const heading of [
    "When it will be ready",
    "What it can carry",
    "The water, as it was and as it will be",
    "What raises the odds",
  ])
    assert.ok(await page.getByRole("heading", { name: heading }).isVisible(), heading);
  const charts = page.locator("main article figure > svg[role='img']");
  assert.ok((await charts.count()) >= 5, "a chart for each quantity");
  // Every chart shows the demo's own readings, and nothing without a number.
  for (let index = 0; index < 5; index += 1) {
    assert.ok((await charts.nth(index).locator(".dot, .open").count()) > 0, `readings in chart ${index + 1}`);
    assert.doesNotMatch(await charts.nth(index).innerHTML(), /NaN|Infinity|undefined/);
  }
  assert.equal(await page.getByText(/are in another unit/).count(), 0);
  assert.deepEqual(await axeFindings(page), []);
  assert.equal(await sticksOut(page), 0);
  await shot(page, "water-program-3-ready-phone");
  await page.setViewportSize(sizes.desktop);
  await settled(page);
  assert.equal(await sticksOut(page), 0);
  await shot(page, "water-program-4-ready-desktop");
  await page.getByRole("button", { name: "Last eight weeks and forecast" }).click();
  await shot(page, "water-program-5-eight-weeks");
  const entries = page.locator("main a[href^='#/history/']");
  if ((await entries.count()) > 0) {
    await entries.first().click();
    await page.getByRole("heading", { name: "History" }).waitFor();
  }
  assert.deepEqual(complaints, []);
  await close();
});

test("what was known on an earlier day: the older outlook stays until the new one is there", async (context) => {
  if (!offered) return context.skip("this program works out no outlook of the filter");
  const { page, complaints, close } = await openPage(browser, redd.address);
  await go(page, "water");
  await page.locator("#filter-sentence").waitFor({ timeout: patienceMs });
  await page.getByRole("slider").evaluate((input) => {
    input.valueAsNumber -= 80;
    input.dispatchEvent(new Event("input", { bubbles: true }));
  });
  const older = page.getByText(/^Older: what follows was worked out for/);
  const label = page.getByText(/now, \d+ (Oct|Nov)/);
  await older.or(label).first().waitFor();
  await label.waitFor({ timeout: patienceMs });
  await settled(page);
  assert.equal(await older.count(), 0);
  assert.equal(await page.getByRole("progressbar").count(), 0);
  assert.deepEqual(await axeFindings(page), []);
  await shot(page, "water-program-6-autumn");
  assert.deepEqual(complaints, []);
  await close();
});

test("today waits for nothing", async (context) => {
  if (!offered) return context.skip("this program works out no outlook of the filter");
  const other = await startRedd("demo");
  try {
    const { page, complaints, close } = await openPage(browser, other.address);
    await page.locator("#headline-sentence").waitFor({ timeout: 20_000 });
    const line = page.getByRole("link", { name: /is being worked out/ });
    if (await line.isVisible()) {
      await line.click();
      await page.getByRole("heading", { name: "The filter and its water" }).waitFor();
    }
    assert.deepEqual(complaints, []);
    await close();
  } finally {
    await other.stop();
  }
});
