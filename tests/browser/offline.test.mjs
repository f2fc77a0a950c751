// The program goes away while the page is open: what is written down meanwhile stays on the device, over a reload too, and
// reaches the season once.
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

for (const sizeName of ["phone", "desktop"]) {
  test(`write down without a connection, reload, come back: ${sizeName}`, async () => {
    const { page, complaints, close } = await openPage(browser, redd.address, { size: sizes[sizeName] });
    await settled(page);
    await page.evaluate(() => navigator.serviceWorker.ready.then(() => undefined));
    await page.reload();
    await settled(page);
    await redd.leave();

    const words = `Power cut, seen from the ${sizeName}.`;
    await go(page, "log/note");
    await page.getByLabel(/Your note/).fill(words);
    await page.getByRole("button", { name: "Save", exact: true }).click();
    await page.getByText("Kept on this device.", { exact: true }).waitFor();
    const note = page.getByRole("region", { name: "Connection" });
    assert.match(await note.innerText(), /does not answer[\s\S]*1 entry is kept on this device/);
    assert.deepEqual(await axeFindings(page), []);
    assert.equal(await sticksOut(page), 0);
    await shot(page, `offline-kept-${sizeName}`);

    await page.reload();
    await note.waitFor();
    assert.match(await note.innerText(), /What you see was true on .*, \d\d:\d\d/);
    await go(page, "copies");
    await page.getByRole("button", { name: "Save the season as a file" }).waitFor();
    await go(page, "today");
    await shot(page, `offline-reloaded-${sizeName}`);

    await redd.back();
    await page.getByRole("button", { name: "Try now" }).click();
    await note.waitFor({ state: "detached" });
    await go(page, "history");
    const entries = page.locator("main li", { hasText: words });
    await entries.first().waitFor();
    assert.equal(await entries.count(), 1);
    // Chromium reports each question that found nobody.
    assert.deepEqual(
      complaints.filter(
        (line) => !/ERR_CONNECTION_REFUSED|ERR_FAILED|ERR_CONNECTION_RESET|ERR_EMPTY_RESPONSE/.test(line),
      ),
      [],
    );
    await close();
  });
}
