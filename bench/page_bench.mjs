// How soon the page shows something useful, on loopback: first paint, the day's headline, and what moves afterwards; each
// beside a bare page of one heading in the same browser, so that a slow machine shows as one.
//   REDD_PROGRAM=build/bench/bin/redd node bench/page_bench.mjs [times]
import { sizes, startBrowser, startRedd } from "../tests/browser/support/redd.mjs";

const times = Number(process.argv[2] ?? 15);
const bare = "<!doctype html><meta charset=utf-8><title>Bare</title><main aria-busy=false><h1>Bare</h1></main>";

/** In the page, before anything else: when the headline stood, and how much moved. */
function watch() {
  globalThis.seen = { shift: 0, headline: 0 };
  new PerformanceObserver((list) => {
    for (const entry of list.getEntries()) globalThis.seen.shift += entry.value;
  }).observe({ type: "layout-shift", buffered: true });
  const look = () => {
    if (document.querySelector("main[aria-busy='false'] h1")?.textContent?.trim())
      globalThis.seen.headline = performance.now();
    else requestAnimationFrame(look);
  };
  requestAnimationFrame(look);
}

async function once(browser, address, size, html) {
  const context = await browser.newContext({ viewport: size, reducedMotion: "reduce" });
  const page = await context.newPage();
  await page.addInitScript(watch);
  if (html) await page.route("**/*", (route) => route.fulfill({ contentType: "text/html", body: html }));
  await page.goto(address);
  await page.waitForFunction(() => globalThis.seen.headline > 0);
  await page.waitForTimeout(1500);
  const found = await page.evaluate(() => ({
    ...globalThis.seen,
    paint: performance.getEntriesByName("first-contentful-paint")[0].startTime,
    bytes: performance.getEntriesByType("resource").reduce((sum, one) => sum + one.encodedBodySize, 0),
  }));
  await context.close();
  return found;
}

const middle = (values) => values.sort((a, b) => a - b)[Math.floor(values.length / 2)];
const browser = await startBrowser();
const redd = await startRedd();
for (const name of ["phone", "desktop"]) {
  for (const [what, html] of [
    ["bare page", bare],
    ["today", ""],
  ]) {
    const runs = [];
    for (let i = 0; i < times; i += 1) runs.push(await once(browser, redd.address, sizes[name], html));
    const of = (key) => middle(runs.map((run) => run[key]));
    console.log(
      `${name}, ${what}: first paint ${of("paint").toFixed(0)} ms, headline ${of("headline").toFixed(0)} ms, layout shift ${Math.max(...runs.map((run) => run.shift)).toFixed(3)}, ${(of("bytes") / 1000).toFixed(0)} kB`,
    );
  }
}
await browser.close();
await redd.stop();
