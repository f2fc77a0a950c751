// What if: sliders answered by the core inside the page, on a phone and a desktop, by keyboard, and with the network gone.
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

const sentence = async (page) => (await page.locator("#whatif-sentence").innerText()).replace(/\s+/g, " ");
const slider = (page, name) => page.getByRole("slider", { name });

/** Waits until the sentence says something else. */
async function changes(page, from) {
  await page.waitForFunction(
    (before) => document.querySelector("#whatif-sentence")?.textContent?.trim() !== before,
    from.trim(),
  );
  return sentence(page);
}

for (const [sizeName, scheme] of [
  ["small", "light"],
  ["desktop", "dark"],
]) {
  test(`what if, ${sizeName}, ${scheme}`, async () => {
    const { page, complaints, close } = await openPage(browser, redd.address, {
      size: sizes[sizeName],
      scheme,
      reducedMotion: "reduce",
    });
    await go(page, "season");
    const bases = page.waitForResponse((response) => response.url().includes("/api/what-if"));
    await page.getByRole("link", { name: "What if?" }).click();
    await page.locator("#whatif-sentence").waitFor();
    assert.match(await sentence(page), /^All as planned\./);
    assert.ok(await page.getByText("nothing in your tank changes").isVisible());
    assert.deepEqual(await axeFindings(page), []);
    assert.equal(await sticksOut(page), 0);
    await shot(page, `whatif-as-it-is-${sizeName}-${scheme}`);

    // Every place of a slider is answered, and the answer is the server's own.
    const before = await sentence(page);
    await page.getByRole("button", { name: "The room gets warm" }).click();
    const warm = await changes(page, before);
    assert.equal(await slider(page, "the room").inputValue(), "6");
    const server = await page.evaluate(async () => {
      const asOf = (await (await fetch("/api/season")).json()).story.today;
      const path = `/api/what-if?as_of=${asOf}`;
      const base = async () => JSON.stringify((await (await fetch(path)).json()).what_if_base.asked);
      const before = await base();
      const told = await fetch(path, {
        method: "POST",
        headers: { "content-type": "application/json" },
        body: JSON.stringify({ sliders: { room_warmer_c: 6 } }),
      });
      return { sentence: (await told.json()).what_if.sentence, bases: [before, await base()] };
    });
    // Once the filter's outlook is worked out, the server reckons with other tanks than the page was given.
    const given = JSON.stringify((await (await bases).json()).what_if_base.asked);
    if (server.bases.every((one) => one === given)) assert.equal(warm.trim(), server.sentence);
    await unfoldAll(page);
    assert.deepEqual(await axeFindings(page), []);
    assert.equal(await sticksOut(page), 0);
    assert.doesNotMatch(await page.locator("main").innerHTML(), /NaN|Infinity|undefined/);
    await shot(page, `whatif-warm-${sizeName}-${scheme}`);

    await page.getByRole("button", { name: "All as it is", exact: true }).click();
    await changes(page, warm);
    assert.match(await sentence(page), /^All as planned\./);
    assert.deepEqual(complaints, []);
    await close();
  });
}

test("what if by keyboard alone, without the network", async () => {
  const { page, complaints, close } = await openPage(browser, redd.address, { size: sizes.phone });
  const asked = [];
  await go(page, "whatif");
  await page.locator("#whatif-sentence").waitFor();
  // While the filter's outlook is worked out the page goes on asking for it.
  await page.getByText("is still being worked out").waitFor({ state: "detached", timeout: 120_000 });
  await settled(page);
  const planned = await sentence(page);
  await page.context().setOffline(true);
  page.on("request", (request) => asked.push(request.url()));

  const room = slider(page, "the room");
  await room.focus();
  for (let step = 0; step < 24; step += 1) await page.keyboard.press("ArrowRight");
  const warm = await changes(page, planned);
  assert.equal(await room.inputValue(), "12");
  assert.match((await room.getAttribute("aria-valuetext")) ?? "", /^12(\.0)?\s°C warmer/);
  await page.keyboard.press("End");
  assert.equal(await room.inputValue(), "15");
  await page.keyboard.press("Home");
  assert.equal(await room.inputValue(), "-10");
  await changes(page, warm);
  const reset = page.getByRole("button", { name: "As it is: the room" });
  await reset.focus();
  await page.keyboard.press("Enter");
  assert.equal(await room.inputValue(), "0");
  assert.deepEqual(asked, [], "nothing was asked of anybody");
  assert.deepEqual(complaints, []);
  await close();
});

test("what if without WebAssembly asks the server", async () => {
  const context = await browser.newContext({ viewport: sizes.phone, locale: "en-GB" });
  const page = await context.newPage();
  await page.addInitScript(() => delete globalThis.WebAssembly);
  await page.goto(`${redd.address}#/whatif`);
  await page.locator("#whatif-sentence").waitFor();
  const planned = await sentence(page);
  assert.ok(await page.getByText("Reckoned by the server").isVisible());
  await page.getByRole("button", { name: "The room gets warm" }).click();
  await changes(page, planned);
  await context.close();
});
