// States of the screens about water changes and the brood that the program's demo does not come to, before the invented
// server: on the narrowest phone and at the desk, light and dark.
import assert from "node:assert/strict";
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

const states = [
  ["more dead than expected", "brood/counts", (f) => ({ counts: f.outbreak }), /since Tuesday 28 January/],
  ["nothing to count yet", "brood/counts", (f) => ({ counts: f.noBrood }), /Log the eggs/],
  ["do not feed", "brood", (f) => ({ feed: f.held }), /Too much food/],
  ["first feeding in a break", "brood", (f) => ({ feed: f.waiting }), /may fall into spring break/],
  ["nothing to feed", "brood", (f) => ({ feed: f.nothingToFeed }), /Nothing to feed/],
  ["they fit", "brood/room", (f) => ({ loading: f.fits }), /They fit/],
  ["sizes alone", "brood/room", (f) => ({ loading: f.noLoad }), /Nothing planned/],
  ["no change needed", "water/changes", (f) => ({ waterPlan: f.noChange }), /No change needed/],
  ["nothing to plan", "water/changes", (f) => ({ waterPlan: f.nothingPlanned }), /Nothing to plan/],
];

for (const [size, scheme] of [
  ["small", "light"],
  ["desktop", "dark"],
])
  test(`every state of the screens, ${size}, ${scheme}`, async () => {
    const { page, complaints, close } = await openPage(browser, invented.address, {
      size: sizes[size],
      scheme,
      reducedMotion: "reduce",
    });
    for (const [name, screen, options, words] of states) {
      invented.play(options);
      await go(page, "today");
      await go(page, screen);
      await page
        .locator("section.verdict", { hasText: words })
        .or(page.locator("main section", { hasText: words }))
        .first()
        .waitFor();
      await settled(page);
      assert.deepEqual(await axeFindings(page), [], `${name}, ${size}`);
      assert.equal(await sticksOut(page), 0, `${name} sticks out, ${size}`);
      await shot(page, `husbandry-state-${name.replaceAll(" ", "-")}-${size}`);
    }
    assert.deepEqual(complaints, []);
    await close();
  });

test("a step that was answered is listed below, and the rest stands one click away", async () => {
  invented.play(() => ({}));
  const { page, complaints, close } = await openPage(browser, invented.address, { size: sizes.phone });
  const rest = page.getByRole("button", { name: "Show the rest (1)" });
  await rest.click();
  await page.getByRole("heading", { name: "3. Look for the first hatched alevins" }).waitFor();
  assert.deepEqual(await axeFindings(page), []);
  const change = page.getByRole("group", { name: "What became of “Change water”?" });
  await change.getByRole("button", { name: "Skip" }).click();
  await page.locator("#answer-given", { hasText: "Skipped: Change water." }).waitFor();
  assert.equal(await page.locator("section[aria-labelledby='answered'] li").count(), 3);
  await page.locator("#answer-given").getByRole("button", { name: "Undo" }).click();
  await page.getByRole("heading", { name: "1. Change water" }).waitFor();
  assert.equal(await page.locator("section[aria-labelledby='answered'] li").count(), 2);
  assert.deepEqual(complaints, []);
  await close();
});
