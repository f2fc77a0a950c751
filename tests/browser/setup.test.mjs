// A season of one's own: an empty data folder leads to the set-up, which ends on a page that answers.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { axeFindings, openPage, settled, shot, sizes, startBrowser, startRedd, sticksOut } from "./support/redd.mjs";

let redd;
let browser;

before(async () => {
  redd = await startRedd("empty");
  browser = await startBrowser();
});

after(async () => {
  await browser?.close();
  await redd?.stop();
});

test("set up a season, describe a kit, log a first temperature", async () => {
  const { page, complaints, close } = await openPage(browser, redd.address, {
    size: sizes.phone,
    timezoneId: "America/Denver",
  });
  await page.getByRole("heading", { name: "Begin your season" }).waitFor();
  assert.deepEqual(await axeFindings(page), []);
  assert.equal(await sticksOut(page), 0);
  await shot(page, "setup-1-questions");

  await page.getByLabel(/Name of this season/).fill("Our first trout");
  await page.getByRole("button", { name: "Begin the season" }).click();
  await page.getByRole("alert").waitFor();
  assert.equal(await page.getByLabel(/Name of this season/).inputValue(), "Our first trout");
  await shot(page, "setup-2-problems");
  for (const name of ["Water in the tank", "Temperature for the eggs"])
    assert.equal(await page.getByRole("textbox", { name }).inputValue(), "", `${name} is not supposed`);
  await page.getByLabel(/School or place/).fill("A school on a hill");
  await page.getByLabel(/Species/).selectOption("brook_trout");
  await page.getByRole("textbox", { name: "Water in the tank" }).fill("180");
  await page.getByRole("textbox", { name: "Temperature for the eggs" }).fill("8");
  await page.getByRole("button", { name: "Begin the season" }).click();

  await page.getByRole("heading", { name: "Now your test kit" }).waitFor();
  assert.deepEqual(await axeFindings(page), []);
  await shot(page, "setup-3-kit");
  await page
    .getByRole("button", { name: /^Start from / })
    .first()
    .click();
  await page.getByLabel("Name of the kit").fill("Drop kit in the lab");
  assert.deepEqual(await axeFindings(page), []);
  assert.equal(await sticksOut(page), 0);
  await shot(page, "setup-4-kit-editor");
  await page.getByRole("button", { name: "Save the kit" }).click();

  await page.locator("#headline-sentence").waitFor();
  await settled(page);
  assert.match(page.url(), /#\/today$/);
  assert.equal(await page.getByText("Invented demo season").count(), 0);
  assert.ok((await page.locator("article.tone-unknown").count()) >= 6, "what is not measured is not called good");
  assert.deepEqual(await axeFindings(page), []);
  await shot(page, "setup-5-first-today");

  await page.getByRole("link", { name: "Log", exact: true }).click();
  await page.getByRole("link", { name: "Temperature" }).click();
  await page.getByLabel("Temperature", { exact: true }).fill("68");
  await page.getByLabel("Unit of “Temperature”").selectOption({ label: "°F" });
  await page.getByRole("button", { name: "Save", exact: true }).click();
  await page.locator("#saved-words", { hasText: /Saved\./ }).waitFor();
  await page.getByRole("link", { name: "History" }).click();
  await page
    .getByText(/20(\.0)? °C/)
    .first()
    .waitFor();
  assert.deepEqual(complaints, []);
  await close();
});
