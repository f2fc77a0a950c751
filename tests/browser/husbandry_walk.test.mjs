// The handwork of the page against the program itself: a step answered, put off and taken back; a spoon weighed and food
// given in spoons; fish measured; a part counted; a water change tried; the brood's screens read on days of the season.
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

const steps = (page) => page.locator("section[aria-labelledby='next-steps'] article");
const given = (page) => page.locator("#answer-given");

/** Moves the story to a day. */
async function onDay(page, day) {
  const slider = page.getByRole("slider");
  const [min, first] = [Number(await slider.getAttribute("min")), await slider.inputValue()];
  assert.ok(Number.isFinite(min), "the story has a slider");
  const answered = page.waitForResponse((response) => response.url().includes(`/api/day?as_of=${day}`));
  await slider.fill(String(Math.round(Date.parse(`${day}T00:00:00Z`) / 86_400_000)));
  assert.notEqual(await slider.inputValue(), first);
  await answered;
  await settled(page);
}

test("a step is answered, leads to its form, and is taken back", async () => {
  const { page, complaints, close } = await openPage(browser, redd.address, { size: sizes.phone });
  await settled(page);
  assert.ok((await steps(page).count()) <= 5, "no more than five steps at once");
  const what = (await steps(page).first().getByRole("heading", { level: 3 }).innerText()).replace(/^1\. /, "");
  await steps(page).first().getByRole("button", { name: "Done" }).click();
  await given(page).waitFor();
  assert.match(await given(page).innerText(), /^Noted as done:/);
  assert.equal(await page.evaluate(() => document.activeElement?.id), "answer-given");
  assert.deepEqual(await axeFindings(page), []);
  await shot(page, "husbandry-walk-1-done");
  await given(page).getByRole("link").click();
  await page.locator("main form").waitFor();
  await page.goBack();
  await settled(page);
  await page.getByRole("button", { name: `Undo the answer to “${what}”` }).click();
  await page.getByRole("status").filter({ hasText: "The answer is undone." }).waitFor({ state: "attached" });
  assert.match(
    await steps(page).first().getByRole("heading", { level: 3 }).innerText(),
    new RegExp(`1\\. ${what.slice(0, 12)}`),
  );
  assert.deepEqual(complaints, []);
  await close();
});

test("a step is put off until a day with the keyboard alone", async () => {
  const { page, complaints, close } = await openPage(browser, redd.address);
  await settled(page);
  const last = steps(page).last();
  const what = (await last.getByRole("heading", { level: 3 }).innerText()).replace(/^\d+\. /, "");
  await last.getByRole("button", { name: "Not now" }).focus();
  await page.keyboard.press("Enter");
  assert.match(await page.evaluate(() => document.activeElement?.textContent ?? ""), /Tomorrow/);
  await shot(page, "husbandry-walk-2-until");
  await page.keyboard.press("Tab");
  await page.keyboard.press("Enter");
  await given(page).waitFor();
  assert.match(await given(page).innerText(), /^Put off:/);
  const aside = page.locator("section[aria-labelledby='answered'] li", { hasText: what.slice(0, 12) });
  await aside.waitFor();
  assert.match(await aside.innerText(), /2 Feb/);
  await shot(page, "husbandry-walk-3-put-off");
  await aside.getByRole("button").click();
  await aside.waitFor({ state: "detached" });
  assert.deepEqual(complaints, []);
  await close();
});

test("a spoon is weighed, food given in spoons, fish measured, a part counted", async () => {
  const { page, complaints, close } = await openPage(browser, redd.address, { size: sizes.phone });
  await onDay(page, "2031-04-10");
  await go(page, "log/spoon");
  await page.getByRole("textbox", { name: "What they weigh together" }).fill("4");
  await page.getByLabel(/Which food/).fill("crumble 0");
  await page.getByRole("button", { name: "Save", exact: true }).click();
  await page.locator("#saved-words", { hasText: "Saved." }).waitFor();

  await go(page, "log/feeding");
  await page.getByLabel("Measured in").selectOption({ label: "Level spoons" });
  await page.getByLabel("Level spoons", { exact: true }).fill("1,5");
  await page.getByLabel(/Which food/).fill("crumble 0");
  assert.deepEqual(await axeFindings(page), []);
  await shot(page, "husbandry-walk-4-feeding");
  await page.getByRole("button", { name: "Save", exact: true }).click();
  await page.locator("#saved-words", { hasText: "Saved." }).waitFor();
  assert.match(await page.locator("#saved-words").innerText(), /1\.5/);

  await go(page, "log/fish_sample");
  await page.getByLabel(/Lengths/).fill("28 30 27 29 31");
  await shot(page, "husbandry-walk-5-lengths");
  await page.getByRole("button", { name: "Save", exact: true }).click();
  await page.locator("#saved-words", { hasText: "Saved." }).waitFor();
  assert.match(await page.locator("#saved-words").innerText(), /\b5\b/);

  await go(page, "log/count");
  await page.getByLabel("What you counted").selectOption({ label: "Alive" });
  await page.getByLabel("How", { exact: true }).selectOption({ label: "A part counted" });
  await page.getByLabel("How many").fill("40");
  await page.getByLabel("Part of the places looked at").fill("0.25");
  await page.getByRole("button", { name: "Save", exact: true }).click();
  await page.locator("#saved-words", { hasText: "Saved." }).waitFor();

  await go(page, "brood");
  await page.locator("#food-sentence").waitFor();
  await settled(page);
  assert.match(await page.locator("#food-sentence").innerText(), /spoon/);
  assert.match(await page.locator("section[aria-labelledby='growth']").innerText(), /5 fish/);
  assert.deepEqual(await axeFindings(page), []);
  await shot(page, "husbandry-walk-6-food");
  await go(page, "brood/counts");
  await page.locator("#counts-sentence").waitFor();
  assert.match(await page.locator("section[aria-labelledby='taken']").innerText(), /alive/);
  await shot(page, "husbandry-walk-7-counts");
  assert.deepEqual(complaints, []);
  await close();
});

test("bad lengths are named and kept", async () => {
  const { page, close } = await openPage(browser, redd.address, { size: sizes.phone });
  await go(page, "log/fish_sample");
  const lengths = page.getByLabel(/Lengths/);
  await lengths.fill("31,33");
  await page.getByRole("button", { name: "Save", exact: true }).click();
  await page.getByRole("alert").waitFor();
  assert.equal(await lengths.inputValue(), "31,33");
  assert.match(await page.getByRole("alert").innerText(), /“31,33”/);
  await page.getByRole("alert").getByRole("link").last().click();
  assert.ok(await lengths.evaluate((input) => input === document.activeElement));
  await close();
});

for (const size of ["phone", "desktop"]) {
  test(`a water change is tried, ${size}: before and after, and nothing is written down`, async () => {
    const { page, complaints, close } = await openPage(browser, redd.address, { size: sizes[size] });
    const written = [];
    page.on("request", (request) => {
      if (request.method() === "POST" && request.url().includes("/api/records")) written.push(request.url());
    });
    await go(page, "water/changes");
    await page.locator("#changes-sentence").waitFor();
    await settled(page);
    assert.equal(await page.locator("section[aria-labelledby='side'] article").count(), 3);
    await page.getByRole("button", { name: "Try it" }).click();
    await page.getByRole("alert").waitFor();
    await page.getByLabel("How much", { exact: true }).fill("20");
    await page.getByLabel("Unit of volume, or per cent of the tank").selectOption("percent");
    await page.getByRole("button", { name: "Try it" }).click();
    const heading = page.getByRole("heading", { name: "Where it leads" });
    await heading.waitFor();
    const result = page.locator("section", { has: heading }).last();
    assert.match(await result.innerText(), /Just after[\s\S]*The day after[\s\S]*Nitrate[\s\S]*without it/);
    assert.ok(await heading.evaluate((one) => one === document.activeElement));
    assert.deepEqual(await axeFindings(page), []);
    assert.equal(await sticksOut(page), 0);
    await shot(page, `husbandry-walk-8-tried-${size}`);
    await page.getByLabel(/Temperature of the new water/).fill("2");
    await page.getByLabel("Dechlorinated").uncheck();
    await page.getByRole("button", { name: "Try it" }).click();
    await page.getByRole("heading", { name: "What speaks against it" }).waitFor();
    await shot(page, `husbandry-walk-9-against-${size}`);
    assert.deepEqual(written, []);
    assert.deepEqual(complaints, []);
    await close();
  });
}

test("the brood's screens stand on every kind of day, and no drawing is broken or mute", async () => {
  const { page, complaints, close } = await openPage(browser, redd.address);
  for (const day of ["2030-08-05", "2030-12-20", "2031-02-20", "2031-04-10", "2031-05-23"]) {
    await go(page, "today");
    if ((await page.getByRole("slider").inputValue()) !== day) await onDay(page, day);
    for (const screen of ["water/changes", "brood", "brood/room", "brood/counts"]) {
      await go(page, screen);
      await page.locator("section.verdict").waitFor();
      await settled(page);
      const html = await page.locator("main").innerHTML();
      assert.doesNotMatch(html, /NaN|Infinity|undefined|\[object/, `${screen} on ${day}`);
      const mute = await page
        .locator("main svg:not([aria-hidden='true'])")
        .evaluateAll((all) =>
          all.filter((one) => !one.getAttribute("aria-labelledby") && !one.getAttribute("aria-label")),
        );
      assert.equal(mute.length, 0, `${screen} on ${day}`);
      assert.deepEqual(await axeFindings(page), [], `${screen} on ${day}`);
      await shot(page, `husbandry-${screen.replaceAll("/", "-")}-${day}`);
    }
  }
  assert.deepEqual(complaints, []);
  await close();
});
