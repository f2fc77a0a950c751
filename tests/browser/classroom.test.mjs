// A season shared in the classroom, before the invented server: signing in, the bench alone, the keeper's page.
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

const nobody = (fixtures) => ({ classroom: fixtures.nobodyHere, own: true });
const newt = (fixtures) => ({ classroom: fixtures.newtHere, own: true });
const keeper = (fixtures) => ({ classroom: fixtures.keeperHere, own: true });
const alone = (fixtures) => ({ classroom: fixtures.thisMachineAlone, own: true });

const screens = [
  ["sign-in", nobody, "", null],
  ["bench", newt, "", null],
  ["codes", keeper, "classroom", null],
  ["new-code", keeper, "classroom", (page) => page.getByRole("button", { name: "Make a code" }).click()],
  ["who-did-what", keeper, "classroom/who", null],
  ["alone", alone, "classroom", null],
];

for (const [sizeName, scheme] of [
  ["small", "light"],
  ["desktop", "dark"],
  ["projector", "light"],
])
  test(`every screen of a shared classroom, ${sizeName}, ${scheme}`, async () => {
    for (const [name, state, hash, does] of screens) {
      invented.play(state);
      const { page, complaints, close } = await openPage(browser, invented.address, {
        size: sizes[sizeName],
        scheme,
        reducedMotion: "reduce",
      });
      if (hash) await go(page, hash);
      else await page.getByRole("heading", { level: 1 }).waitFor();
      await does?.(page);
      await settled(page);
      const where = `${name}, ${sizeName}, ${scheme}`;
      assert.deepEqual(await axeFindings(page), [], where);
      assert.equal(await sticksOut(page), 0, where);
      await shot(page, `classroom-${name}-${sizeName}-${scheme}`);
      if (name !== "sign-in") assert.deepEqual(complaints, [], where);
      await close();
    }
  });

test("a team signs in by keyboard, tests, and loses nothing when its code ends", async () => {
  const api = invented.play(nobody);
  const { page, close } = await openPage(browser, invented.address, { size: sizes.phone, reducedMotion: "reduce" });
  await page.getByLabel("Bench code").focus();
  await page.keyboard.type("cdfg-hjkm");
  await page.keyboard.press("Enter");
  await page.getByText("At the bench as Team Newt").waitFor();
  assert.equal(await page.getByRole("navigation", { name: "Screens" }).count(), 0);
  await page.getByRole("button", { name: "We are ready: begin" }).click();
  await page.locator(".lanes").waitFor();
  const kept = () =>
    page.evaluate(() => Object.entries(localStorage).find(([key]) => /^redd\.bench\.\d{4}-/.test(key))?.[1] ?? "");
  assert.match(await kept(), /Team Newt/);
  // The code ends; the page is loaded anew: the sign-in says that the sitting is still here.
  api.endSessions();
  await page.reload();
  await page.getByText("is still on this device").waitFor();
  assert.match(await kept(), /Team Newt/);
  await page.getByLabel("Bench code").fill("CDFG-HJKM");
  await page.keyboard.press("Enter");
  await page.locator(".lanes").waitFor();
  assert.equal(await page.evaluate(() => JSON.stringify({ ...localStorage }).includes("CDFG")), false);
  await close();
});

test("the keeper signs out, and the device shows nothing of the season any more", async () => {
  invented.play(keeper);
  const { page, close } = await openPage(browser, invented.address, { size: sizes.desktop, reducedMotion: "reduce" });
  await go(page, "classroom");
  await page.getByRole("button", { name: "Sign out" }).click();
  await page.getByRole("heading", { level: 1, name: "Sign in" }).waitFor();
  assert.equal(await page.evaluate(() => localStorage.getItem("redd.last")), null);
  assert.equal(await page.getByRole("navigation", { name: "Screens" }).count(), 0);
  await close();
});
