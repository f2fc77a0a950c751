// A season of one's own: an empty data folder leads to the set-up, a few short screens that end on a plan. Once by
// keyboard alone with US units, once on a phone with a lost connection and everything left open.
import assert from "node:assert/strict";
import { test } from "node:test";
import { axeFindings, openPage, settled, shot, sizes, startBrowser, startRedd, sticksOut } from "./support/redd.mjs";

/** A program and a browser for one set-up: a folder holds one season. */
async function fresh(context, options) {
  const redd = await startRedd("empty");
  const browser = await startBrowser();
  const opened = await openPage(browser, redd.address, { reducedMotion: "reduce", ...options });
  context.after(async () => {
    await browser.close();
    await redd.stop();
  });
  return { ...opened, redd };
}

const titled = (page, name) => page.getByRole("heading", { level: 1, name, exact: true }).waitFor();

async function sound(page, name) {
  await settled(page);
  assert.deepEqual(await axeFindings(page), [], name);
  assert.equal(await sticksOut(page), 0, `${name} sticks out`);
  await shot(page, name);
}

const get = async (redd, path) => (await fetch(`${redd.address}api/${path}`)).json();
const kept = async (redd) => (await get(redd, "history?limit=200")).records;
const shiftedDay = (days) => new Date(Date.now() + days * 86_400_000).toISOString().slice(0, 10);

/** Goes from field to field as somebody without a mouse does, until the wanted one has the focus. */
async function tabTo(page, label) {
  for (let step = 0; step < 60; step += 1) {
    const here = await page.evaluate(() => {
      const at = document.activeElement;
      return at?.getAttribute("aria-label") ?? at?.labels?.[0]?.innerText ?? at?.textContent ?? "";
    });
    if (here.trim().startsWith(label)) return;
    await page.keyboard.press("Tab");
  }
  assert.fail(`no way by Tab to ${label}`);
}

test("by keyboard alone, in gallons and degrees Fahrenheit, ending on a plan", async (context) => {
  const { page, complaints, redd } = await fresh(context, { size: sizes.desktop, timezoneId: "America/Denver" });
  const keys = page.keyboard;
  const write = async (label, text) => {
    await tabTo(page, label);
    await keys.type(text);
  };
  const pick = async (label) => {
    await tabTo(page, label);
    await keys.press("Space");
  };
  /** Tab leads to a group of choices, arrows lead through it. */
  const choose = async (first, wanted) => {
    await tabTo(page, first);
    const chosen = page.getByRole("radio", { name: wanted, exact: true });
    if (first === wanted) await keys.press("Space");
    for (let step = 0; step < 8 && !(await chosen.isChecked()); step += 1) await keys.press("ArrowDown");
    assert.ok(await chosen.isChecked(), wanted);
  };
  const next = () => keys.press("Enter");

  await titled(page, "Language and units");
  await sound(page, "setup-language");
  await choose("°C and litres", "°F and US gallons");
  await next();

  await titled(page, "Your school");
  assert.equal(await page.evaluate(() => document.activeElement?.tagName), "H1", "the new screen is read out");
  await sound(page, "setup-school");
  await write("School or place", "A school on a hill (invented)");
  await choose("Below 300 m", "1,000 to 2,000 m (3,300 to 6,600 ft)");
  await next();

  await titled(page, "The tank");
  await sound(page, "setup-tank");
  await write("Water in the tank", "fifty");
  await next();
  await page.getByRole("alert").waitFor();
  await sound(page, "setup-tank-problem");
  await page.getByRole("textbox", { name: "Water in the tank", exact: true }).focus();
  await keys.press("Control+A");
  await keys.type("55");
  await next();

  await titled(page, "Around the water");
  await sound(page, "setup-around");
  await choose("Glass", "Acrylic");
  await next();
  await titled(page, "Cold");
  await sound(page, "setup-cold");
  await write("Temperature for the eggs", "46");
  await write("Room in the coldest months", "68");
  await next();
  await titled(page, "Tap water");
  await sound(page, "setup-water");
  await choose("Chlorine", "Chloramine");
  await write("How much, as total chlorine", "2");
  await write("Alkalinity", "60");
  await next();
  await titled(page, "The eggs");
  await tabTo(page, "Species");
  await keys.type("Brook");
  await choose("Yes", "No, they are to come");
  await page.getByText("Ask the supplier now").waitFor();
  await page.getByLabel("Day the eggs arrive, or arrived", { exact: true }).fill(shiftedDay(50));
  await write("How many eggs", "150");
  await sound(page, "setup-eggs");
  await page.getByLabel("How many eggs", { exact: true }).focus();
  await next();
  await titled(page, "Your test kit");
  await sound(page, "setup-kit");
  await tabTo(page, "Like this");
  await keys.press("Space");
  await next();
  await titled(page, "The school’s calendar");
  await pick("Add a break");
  await keys.type("Winter break");
  await page.getByLabel("First closed day of break 1").fill(shiftedDay(60));
  await page.getByLabel("Last closed day of break 1").fill(shiftedDay(70));
  await sound(page, "setup-calendar");
  await next();
  await titled(page, "The permit");
  await sound(page, "setup-permit");
  await pick("Not sure: Permit: first day");
  await tabTo(page, "Next");
  await next();

  await titled(page, "Is this right?");
  await page.getByText("55 US gal").waitFor();
  await sound(page, "setup-check");
  await tabTo(page, "Begin the season");
  await next();
  await titled(page, "Match your card");
  await sound(page, "setup-card");
  await tabTo(page, "Do it later");
  await next();

  await titled(page, "Your plan");
  await page.locator("#first-plan").waitFor();
  await page.getByText("Half hatched").first().waitFor();
  await sound(page, "setup-plan");
  assert.ok(await page.getByRole("heading", { name: "The one next step" }).isVisible());
  const open = await page.locator("section[aria-labelledby='first-open'] li").allInnerTexts();
  assert.ok(
    open.length > 0 && !open.some((line) => line.startsWith("Water in the tank")),
    "what was answered is not open",
  );

  const setUp = (await kept(redd)).find((entry) => entry.kind === "season_setup").body;
  assert.ok(Math.abs(setUp.volume_l - 208.2) < 0.1, "55 gallons are kept as litres");
  assert.ok(Math.abs(setUp.target_c - 7.78) < 0.01, "46 °F is kept as °C");
  assert.equal(setUp.elevation_m, 2000);
  const water = (await kept(redd)).find((entry) => entry.kind === "source_water").body;
  assert.ok(Math.abs(water.alkalinity_meq_per_l - 1.2) < 0.01 && water.chloramine === true);
  const plan = (await get(redd, "plan")).plan;
  assert.equal(plan.egg_day, shiftedDay(50));
  assert.deepEqual(complaints, []);
  await page.getByRole("link", { name: "To today’s page" }).click();
  await page.locator("#headline-sentence").waitFor();
});

test("on a phone: everything left open, a reload, a way back without loss, a connection lost half-way", async (context) => {
  const { page, complaints, redd } = await fresh(context, {
    size: sizes.small,
    timezoneId: "Europe/Oslo",
    locale: "en-GB",
  });
  const next = () => page.getByRole("button", { name: "Next", exact: true }).click();
  await titled(page, "Language and units");
  await next();
  await titled(page, "Your school");
  await page.getByLabel("School or place", { exact: true }).fill("A fjord school (invented)");
  await next();
  await titled(page, "The tank");
  await page.getByLabel("Not sure: Water in the tank").check();
  await page.getByText("Until you know: 200 L (53 gal)").waitFor();
  await page.getByLabel("Length inside", { exact: true }).fill("100");
  await page.reload();
  await titled(page, "The tank");
  assert.equal(await page.getByLabel("Length inside", { exact: true }).inputValue(), "100", "a reload goes on");
  await page.getByRole("link", { name: "Back" }).click();
  await titled(page, "Your school");
  assert.equal(await page.getByLabel("School or place", { exact: true }).inputValue(), "A fjord school (invented)");
  await page.goBack();
  await titled(page, "The tank");
  await page.getByLabel("Width inside", { exact: true }).fill("50");
  await page.getByLabel("Height of the water", { exact: true }).fill("40");
  for (const name of ["Around the water", "Cold", "Tap water", "The eggs"]) {
    await next();
    await titled(page, name);
    await sound(page, `setup-phone-${name.toLowerCase().replaceAll(" ", "-")}`);
  }
  await page.getByRole("radio", { name: "Yes", exact: true }).check();
  await page.getByRole("radio", { name: "Thermal units" }).check();
  await page.getByLabel("Thermal units so far", { exact: true }).fill("250");
  await page.getByLabel("How many eggs", { exact: true }).fill("90");
  await sound(page, "setup-phone-eggs-here");
  for (const name of ["Your test kit", "The school’s calendar", "The permit", "Is this right?"]) {
    await next();
    await titled(page, name);
    await sound(page, `setup-phone-${name.toLowerCase().replaceAll(/[^a-z]+/g, "-")}`);
  }

  // The second record is kept, but its answer gets lost; then nothing comes through at all.
  let posts = 0;
  await page.route("**/api/records**", async (route) => {
    posts += 1;
    if (posts === 1) return route.continue();
    if (posts === 2) await route.fetch();
    return route.abort();
  });
  const begin = page.getByRole("button", { name: "Begin the season" });
  await begin.click();
  await page.getByRole("alert").waitFor();
  await sound(page, "setup-phone-lost");
  await page.unroute("**/api/records**");
  const before = (await kept(redd)).length;
  assert.equal(before, 2);
  await page.reload();
  await titled(page, "Is this right?");
  await page.getByText("Some of it is kept already").waitFor();
  // Half of it is kept, and one answer is changed now.
  await page.getByRole("link", { name: "Change: The eggs" }).click();
  await page.getByLabel("How many eggs", { exact: true }).fill("95");
  for (let step = 0; step < 4; step += 1) await next();
  await titled(page, "Is this right?");
  await begin.click();
  await titled(page, "Your plan");
  await page.getByText("Half swum up").first().waitFor();
  await sound(page, "setup-phone-plan");

  const entries = (await kept(redd)).filter((entry) => entry.status === "current");
  const kinds = entries.map((entry) => entry.kind).sort();
  assert.deepEqual(kinds, ["egg_receipt", "note", "season_setup", "tank_build"], "nothing is kept twice");
  const setUp = entries.find((entry) => entry.kind === "season_setup").body;
  assert.equal(setUp.volume_l, 180, "100 × 50 × 40 cm, less a tenth");
  assert.equal(setUp.target_c, 8);
  assert.equal(entries.find((entry) => entry.kind === "egg_receipt").body.count, 95);
  const open = await page.locator("section[aria-labelledby='first-open'] li").allInnerTexts();
  assert.match(open[0], /tap water clean/, "what can harm animals stands first");
  assert.ok(
    complaints.every((one) => /Failed to load resource|ERR_FAILED/.test(one)),
    complaints.join("\n"),
  );
  await page.getByRole("link", { name: "To today’s page" }).click();
  await page.locator("#headline-sentence").waitFor();
  await page.reload();
  await page.locator("#headline-sentence").waitFor();
});
