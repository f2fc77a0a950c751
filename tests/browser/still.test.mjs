// Nothing moves under the reader's eyes or finger: what a screen shifts while it loads, and when it is come to from another
// one, as the browser itself counts it (0 none; 0.01 about a line of text by its own height).
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { settled, sizes, startBrowser, startRedd } from "./support/redd.mjs";

const most = 0.01;
const loaded = [
  "today",
  "bench",
  "log/water_change",
  "season",
  "season/wall",
  "water",
  "whatif",
  "lessons",
  "print/bench",
  "emergency",
];
const visited = [
  ...loaded,
  "log",
  "log/temperature",
  "season/calendar",
  "water/changes",
  "brood",
  "brood/room",
  "brood/counts",
  "heat",
  "lessons/teams",
  "lessons/graphs",
  "lessons/sheets",
  "history",
  "copies",
  "copies/table",
  "print",
  "print/report",
  "setup",
  "emergency/power_cut",
];
const steps = ["setup", "setup/school", "setup/tank", "setup/eggs", "setup/kit", "setup/calendar", "setup/check"];

let demo;
let empty;
let browser;

before(async () => {
  [demo, empty, browser] = await Promise.all([startRedd("demo"), startRedd("empty"), startBrowser()]);
});

after(async () => {
  await browser?.close();
  await Promise.all([demo?.stop(), empty?.stop()]);
});

/** In the page, before anything else. */
function watch() {
  globalThis.moved = [];
  const take = (entries) => globalThis.moved.push(...entries.map((entry) => entry.value));
  const observer = new PerformanceObserver((list) => take(list.getEntries()));
  observer.observe({ type: "layout-shift", buffered: true });
  globalThis.takeMoved = () => {
    take(observer.takeRecords());
    return globalThis.moved.splice(0).reduce((sum, value) => sum + value, 0);
  };
}

/** What moved since this was asked last, once the screen has all it fetches. */
async function moved(page) {
  await page.locator("main h1").waitFor({ state: "attached" });
  await settled(page);
  await page.waitForTimeout(150);
  return page.evaluate(() => globalThis.takeMoved());
}

async function open(address, size) {
  const context = await browser.newContext({ viewport: size, locale: "en-GB", reducedMotion: "reduce" });
  const page = await context.newPage();
  await page.addInitScript(watch);
  await page.goto(address);
  return { page, close: () => context.close() };
}

for (const name of ["phone", "desktop"]) {
  test(`screens stand still while they load, ${name}`, async () => {
    for (const screen of loaded) {
      const { page, close } = await open(`${demo.address}#/${screen}`, sizes[name]);
      await page.waitForLoadState("networkidle");
      const shift = await moved(page);
      assert.ok(shift <= most, `${screen} moves by ${shift.toFixed(3)} while it loads`);
      await close();
    }
  });

  test(`screens stand still when they are come to, ${name}`, async () => {
    const { page, close } = await open(demo.address, sizes[name]);
    await moved(page);
    for (const screen of visited) {
      await page.evaluate((hash) => (location.hash = hash), `#/${screen}`);
      const shift = await moved(page);
      assert.ok(shift <= most, `${screen} moves by ${shift.toFixed(3)} when it is come to`);
    }
    // What would move is seen.
    await page.evaluate(() => {
      const pushed = document.createElement("div");
      pushed.className = "sheet";
      pushed.textContent = "Pushed in";
      document.querySelector("main").before(pushed);
    });
    assert.ok((await moved(page)) > most, "a screen that is pushed down is counted");
    await close();
  });

  test(`the set-up stands still, ${name}`, async () => {
    const { page, close } = await open(empty.address, sizes[name]);
    const first = await moved(page);
    assert.ok(first <= most, `the set-up moves by ${first.toFixed(3)} while it loads`);
    for (const step of steps) {
      await page.evaluate((hash) => (location.hash = hash), `#/${step}`);
      const shift = await moved(page);
      assert.ok(shift <= most, `${step} moves by ${shift.toFixed(3)}`);
    }
    await close();
  });
}
