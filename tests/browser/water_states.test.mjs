// The Water view in every state, at every size, light and dark.
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

const states = {
  ready: () => ({}),
  ripening: (filters) => ({ filter: filters.ripening, own: true }),
  unmeasured: (filters) => ({ filter: filters.unmeasured }),
  "lost-track": (filters) => ({ filter: filters.lostTrack }),
  working: (filters) => ({ filter: filters.working(0.42) }),
  cancelled: (filters) => ({ filter: filters.cancelled }),
  failed: (filters) => ({ filter: filters.failed }),
  absent: (filters) => ({ filter: filters.absent }),
  "not-offered": () => ({ filter: null }),
};

const all = Object.keys(states);
for (const [sizeName, scheme, names] of [
  ["small", "light", all],
  ["desktop", "dark", all],
  ["phone", "dark", ["ready", "working"]],
  ["projector", "light", ["ripening", "unmeasured", "working"]],
]) {
  test(`the Water view, ${names.length === all.length ? "every state" : names.join(", ")}, ${sizeName}, ${scheme}`, async () => {
    for (const name of names) {
      invented.play(states[name]);
      const { page, complaints, close } = await openPage(browser, invented.address, {
        size: sizes[sizeName],
        scheme,
        reducedMotion: "reduce",
      });
      await go(page, "water");
      const where = `${name}, ${sizeName}, ${scheme}`;
      assert.deepEqual(await axeFindings(page), [], where);
      assert.equal(await sticksOut(page), 0, where);
      await shot(page, `water-${name}-${sizeName}-${scheme}`);
      if (name === "ready" || name === "unmeasured") {
        for (;;) {
          const folded = page.locator("main button[aria-expanded='false']").first();
          if ((await folded.count()) === 0) break;
          await folded.click();
        }
        await page.getByRole("button", { name: "Last eight weeks and forecast" }).click();
        await settled(page);
        assert.deepEqual(await axeFindings(page), [], `${where}, unfolded`);
        assert.equal(await sticksOut(page), 0, `${where}, unfolded`);
        await shot(page, `water-${name}-unfolded-${sizeName}-${scheme}`);
      }
      assert.deepEqual(complaints, [], where);
      await close();
    }
  });
}
