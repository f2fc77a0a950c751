// Redd in one file, from the disk, without a server: begin, log, look, save, lose the storage, open again; to a server and
// back with nothing lost.
import assert from "node:assert/strict";
import { join } from "node:path";
import { writeFileSync } from "node:fs";
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
import {
  beginSeason,
  unsavedEntries,
  freshProfile,
  logTemperature,
  openEdition,
  savedBy,
  takeEdition,
} from "./support/edition.mjs";

let redd;
let browser;
let edition;

before(async () => {
  redd = await startRedd("empty");
  browser = await startBrowser();
  edition = await takeEdition(redd);
});

after(async () => {
  await browser?.close();
  edition?.remove();
  await redd?.stop();
});

const saveLine = (page) => page.getByRole("region", { name: "What is saved" });
const saveButton = (page) => saveLine(page).getByRole("button", { name: "Save the season as a file" });
const records = (text) => JSON.parse(text).resources[0].data;

async function open(page, file) {
  await page.locator("input[type=file]").setInputFiles({
    name: file.name,
    mimeType: "application/json",
    buffer: Buffer.from(file.text),
  });
}

test("begin, log, look at today and the season, save; a fresh profile goes on from the file", async () => {
  const mine = await freshProfile(browser);
  const { page, complaints } = await openEdition(mine, edition);
  await page.getByRole("heading", { name: "Redd, without installing anything" }).waitFor();
  assert.deepEqual(await axeFindings(page), []);
  assert.equal(await sticksOut(page), 0);
  await shot(page, "edition-1-start");

  await beginSeason(page);
  const begun = await unsavedEntries(saveLine(page));
  assert.ok(begun >= 3, `${begun} entries`);
  await logTemperature(page, 9);
  assert.equal(await unsavedEntries(saveLine(page)), begun + 1);
  await go(page, "log");
  await page.locator("a[href^='#/log/test/']", { hasText: "Nitrite" }).first().click();
  await page.getByRole("radio").first().check();
  await page.getByRole("button", { name: "Save this reading" }).click();
  await page.locator("#saved-words", { hasText: /Saved\. Nitrite/ }).waitFor();

  await go(page, "today");
  await page.locator("#headline-sentence").waitFor();
  assert.deepEqual(await axeFindings(page), []);
  assert.equal(await sticksOut(page), 0);
  await shot(page, "edition-2-today");
  await go(page, "season");
  await page.locator("main svg").first().waitFor();
  assert.deepEqual(await axeFindings(page), []);
  await shot(page, "edition-3-season");

  // Closing now would lose nothing from the browser, but the only copy is there: it asks.
  const asked = page.waitForEvent("dialog");
  void page.close({ runBeforeUnload: true });
  await (await asked).dismiss();

  const file = await savedBy(page, saveButton(page));
  assert.match(file.name, /^redd-.+-\d{4}-\d\d-\d\d\.json$/);
  assert.equal(records(file.text).length, begun + 2);
  await page.getByText(`Every entry is in “${file.name}”.`).waitFor();
  await go(page, "copies");
  assert.match(await page.locator("main").innerText(), /may clear them/);
  assert.deepEqual(await axeFindings(page), []);
  assert.equal(await sticksOut(page), 0);
  await shot(page, "edition-4-copies");

  // Another window of the same browser has it too, and what one logs the other shows.
  const second = await openEdition(mine, edition);
  await second.page.locator("#headline-sentence").waitFor();
  await logTemperature(second.page, 8.5);
  await go(page, "history");
  await page
    .getByText(/8\.5\s°C/)
    .first()
    .waitFor();
  assert.deepEqual(complaints, []);
  assert.deepEqual(second.complaints, []);
  await mine.close();

  // The storage is gone: the start page says what to do, and the file brings the season back.
  const fresh = await freshProfile(browser, { size: sizes.desktop, scheme: "dark" });
  const again = await openEdition(fresh, edition);
  assert.match(await again.page.locator("main").innerText(), /Open the file you saved last/);
  await shot(again.page, "edition-5-start-dark");
  await open(again.page, file);
  await again.page.locator("#headline-sentence").waitFor();
  await settled(again.page);
  await again.page.getByText(`Every entry is in “${file.name}”.`).waitFor();
  assert.equal((await savedBy(again.page, saveButton(again.page))).text, file.text, "the same to the byte");
  assert.deepEqual(again.complaints, []);
  await fresh.close();
});

test("to a server and back with nothing lost; another season is refused and changes nothing", async () => {
  const mine = await freshProfile(browser, { size: sizes.desktop });
  const { page, complaints } = await openEdition(mine, edition);
  await beginSeason(page, "There and back");
  await logTemperature(page, 9);
  const out = await savedBy(page, saveButton(page));

  // On the server it is opened from the first screen.
  const server = await openPage(browser, redd.address, { size: sizes.phone, timezoneId: "America/Denver" });
  await server.page.getByRole("heading", { level: 1, name: "Language and units" }).waitFor();
  await open(server.page, out);
  await server.page.locator("#headline-sentence").waitFor();
  assert.equal(await (await fetch(`${redd.address}api/export`)).text(), out.text, "the server holds the same bytes");
  await logTemperature(server.page, 7.5);
  await go(server.page, "copies");
  await server.page.getByText("The newest whole copy is of").waitFor();
  await server.page.getByRole("button", { name: "Make a copy now" }).click();
  await server.page.getByText("One more copy is made, read back and whole.").waitFor();
  await server.page.getByRole("button", { name: "The one copy" }).click();
  await server.page.getByRole("cell", { name: "asked for" }).waitFor();
  assert.deepEqual(await axeFindings(server.page), []);
  assert.equal(await sticksOut(server.page), 0);
  await shot(server.page, "edition-6-server-copies");
  assert.ok(await server.page.getByRole("link", { name: "Download redd.html" }).isVisible());
  const tables = await (
    await fetch(new URL(await server.page.getByRole("link", { name: /CSV tables/ }).getAttribute("href"), redd.address))
  ).text();
  assert.ok(tables.startsWith("PK") && tables.includes("data/temperature.csv"), "the tables come as a .zip");
  const long = await savedBy(server.page, server.page.getByRole("link", { name: /one long table/ }));
  assert.match(long.text, /^OrganizationIdentifier,[^]*Temperature, water[^]*deg C/);
  const back = await savedBy(server.page, server.page.getByRole("button", { name: "Save the season as a file" }));
  assert.equal(records(back.text).length, records(out.text).length + 1);

  await go(page, "copies");
  assert.equal(await page.getByRole("link", { name: /CSV tables/ }).count(), 0, "a .zip needs the server");
  assert.match((await savedBy(page, page.getByRole("link", { name: /one long table/ }))).text, /deg C/);
  await open(page, back);
  await page.getByText("1 entry taken in.").waitFor();
  await go(page, "history");
  await page
    .getByText(/7\.5\s°C/)
    .first()
    .waitFor();
  await go(page, "copies");
  await open(page, back);
  await page.getByText("All of it was here already").waitFor();
  assert.equal((await savedBy(page, saveButton(page))).text, back.text);

  // Another season, a file that is none, and a season that went on in two places.
  const another = { name: "another.json", text: back.text.replaceAll("There and back", "Another one") };
  await open(page, another);
  await page.getByText(/The file holds another season/).waitFor();
  await open(page, { name: "letter.json", text: "{}" });
  await page.getByText(/not a season saved by Redd/).waitFor();
  await logTemperature(page, 6);
  await logTemperature(server.page, 5);
  await go(server.page, "copies");
  const elsewhere = await savedBy(server.page, server.page.getByRole("button", { name: "Save the season as a file" }));
  await go(page, "copies");
  await open(page, elsewhere);
  await page.getByText(/each has entries that the other lacks/).waitFor();
  await shot(page, "edition-7-gone-apart");
  assert.equal(records((await savedBy(page, saveButton(page))).text).length, records(back.text).length + 1);

  // Removed from the browser only after it was asked for twice.
  await page.getByRole("button", { name: "Remove this season from the browser" }).click();
  await page.getByRole("button", { name: "Remove it" }).click();
  await page.getByRole("heading", { name: "Redd, without installing anything" }).waitFor();
  assert.deepEqual(complaints, []);
  assert.deepEqual(server.complaints, []);
  await server.close();
  await mine.close();
});

test("the invented season: every screen answers, nothing of it is kept", async () => {
  const mine = await freshProfile(browser, { size: sizes.small });
  const { page, complaints } = await openEdition(mine, edition);
  await page.getByRole("button", { name: "Look around" }).click();
  await page.locator("#headline-sentence").waitFor();
  await settled(page);
  assert.match(await saveLine(page).innerText(), /nothing of it is kept/);
  for (const screen of [
    "today",
    "season",
    "water/changes",
    "heat",
    "emergency",
    "brood",
    "brood/counts",
    "brood/room",
    "log",
    "history",
  ]) {
    await go(page, screen);
    assert.equal(await page.getByRole("alert").count(), 0, screen);
    assert.equal(await sticksOut(page), 0, screen);
    await shot(page, `edition-demo-${screen.replaceAll("/", "-")}`);
  }
  await go(page, "log/note");
  await page.getByLabel(/Your note/).fill("Seen in the story.");
  await page.getByRole("button", { name: "Save", exact: true }).click();
  await page.locator("#saved-words", { hasText: /Saved\./ }).waitFor();
  const calendar = await (async () => {
    await go(page, "season");
    return savedBy(page, page.getByRole("link", { name: /calendar/i }).first());
  })();
  assert.match(calendar.text, /^BEGIN:VCALENDAR/);
  await saveLine(page).getByRole("button", { name: "Leave the invented season" }).click();
  await page.getByRole("heading", { name: "Redd, without installing anything" }).waitFor();
  assert.deepEqual(complaints, []);
  await mine.close();
});

test("with the keyboard alone: begin at the start page and come to the first question", async () => {
  const mine = await freshProfile(browser);
  const { page } = await openEdition(mine, edition);
  await page.getByRole("button", { name: "Begin a new season" }).focus();
  await page.keyboard.press("Enter");
  await page.getByRole("heading", { level: 1, name: "Language and units" }).waitFor();
  await page.keyboard.press("Tab");
  assert.equal(await page.evaluate(() => document.activeElement?.tagName === "BODY"), false);
  await mine.close();
});

test("a browser that forbids storage says so and still works until it is closed", async () => {
  const mine = await freshProfile(browser);
  await mine.addInitScript(() => {
    Object.defineProperty(globalThis, "indexedDB", {
      value: {
        open() {
          throw new DOMException("forbidden", "SecurityError");
        },
      },
    });
  });
  const { page, complaints } = await openEdition(mine, edition);
  assert.match(await page.locator("main").innerText(), /forbids storage/);
  await beginSeason(page);
  assert.match(await saveLine(page).innerText(), /This browser keeps nothing/);
  await shot(page, "edition-8-no-storage");
  const file = await savedBy(page, saveButton(page));
  assert.ok(records(file.text).length >= 3);
  writeFileSync(join(edition.folder, file.name), file.text);
  assert.deepEqual(complaints, []);
  await mine.close();
});
