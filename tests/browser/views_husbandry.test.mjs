// The screens about water changes and the brood, and their forms, at every size: folded and unfolded.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { axeFindings, go, openPage, shot, sizes, startBrowser, startRedd, sticksOut } from "./support/redd.mjs";
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

const screens = ["water/changes", "brood", "brood/room", "brood/counts", "log/feeding", "log/fish_sample", "log/count"];

for (const [sizeName, scheme] of [
  ["small", "light"],
  ["phone", "dark"],
  ["desktop", "light"],
  ["projector", "dark"],
])
  test(`husbandry, ${sizeName}, ${scheme}`, async () => {
    const { page, complaints, close } = await openPage(browser, redd.address, {
      size: sizes[sizeName],
      scheme,
      reducedMotion: "reduce",
    });
    for (const screen of screens) {
      await go(page, screen);
      await shot(page, `${screen.replaceAll("/", "-")}-${sizeName}-${scheme}`);
      // What is folded is checked in the same go: it is all there, only open.
      await unfoldAll(page);
      assert.deepEqual(await axeFindings(page), [], `${screen} at ${sizeName}, ${scheme}`);
      assert.equal(await sticksOut(page), 0, `${screen} sticks out at ${sizeName}`);
    }
    assert.deepEqual(complaints, []);
    await close();
  });
