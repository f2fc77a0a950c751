// Who reads Spanish, and who measures in °F: chosen at the foot of the page, kept, and taken back. What the server words
// is its own matter; here the page's own words are looked at.
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

const screens = {
  today: "Hoy",
  log: "Registrar",
  season: "La temporada",
  water: "El filtro y su agua",
  "water/changes": "Cambios de agua",
  brood: "Alimento y crecimiento",
  bench: "En la mesa de pruebas",
  lessons: "Apueste por la próxima lectura",
  print: "Imprimir",
  history: "Historial",
  copies: "La temporada en un archivo",
};
const english = ["Today", "Log", "Season", "Water", "Brood", "Bench", "Lessons", "History", "Emergency"];

/** Presses a choice at the foot and waits for the page that is loaded anew. */
async function choose(page, name) {
  await Promise.all([page.waitForEvent("load"), page.getByRole("button", { name, exact: true }).click()]);
  await page.locator("main h1").waitFor({ state: "attached" });
  await settled(page);
}

const scripts = (page) =>
  page.evaluate(() => performance.getEntriesByType("resource").map((one) => new URL(one.name).pathname.slice(1)));

test("Spanish on a phone, every screen, and back to English", async () => {
  invented.play(() => ({}));
  const { page, complaints, close } = await openPage(browser, invented.address, { size: sizes.phone });
  await settled(page);
  assert.equal(await page.locator("html").getAttribute("lang"), "en");
  assert.ok(!(await scripts(page)).some((path) => path.endsWith("spanish.js")), "English readers do not load Spanish");

  await choose(page, "Español");
  for (const [screen, heading] of Object.entries(screens)) {
    await go(page, screen);
    assert.match(await page.locator("main h1").innerText(), new RegExp(`^${heading.replace("?", "\\?")}(,|$)`), screen);
    assert.equal(await page.locator("html").getAttribute("lang"), "es", screen);
    const navigation = await page.getByRole("navigation", { name: "Pantallas", exact: true }).innerText();
    for (const word of english)
      assert.ok(
        !navigation.split("\n").some((line) => line.trim() === word),
        `${screen}: ${word} left in ${navigation}`,
      );
    assert.deepEqual(await axeFindings(page), [], screen);
    assert.equal(await sticksOut(page), 0, screen);
    await shot(page, `spanish-${screen.replace("/", "-")}`);
  }
  assert.deepEqual(complaints, []);

  // Kept over a load of the page.
  await page.reload();
  await page.getByRole("heading", { level: 1, name: "La temporada en un archivo" }).waitFor();

  await choose(page, "English");
  assert.equal(await page.locator("html").getAttribute("lang"), "en");
  await page.getByRole("navigation", { name: "Screens", exact: true }).waitFor();
  assert.deepEqual(complaints, []);
  await close();
});

test("a Spanish browser begins in Spanish, and a decimal comma is written and read", async () => {
  invented.play(() => ({}));
  const { page, complaints, close } = await openPage(browser, invented.address, {
    size: sizes.desktop,
    locale: "es-MX",
  });
  await settled(page);
  assert.equal(await page.locator("html").getAttribute("lang"), "es");
  await page.getByRole("heading", { level: 1, name: "Hoy" }).waitFor();
  await go(page, "log/temperature");
  await page.getByLabel("Temperatura", { exact: true }).fill("8,4");
  await page.getByRole("button", { name: "Guardar", exact: true }).click();
  await page.locator("#saved-words", { hasText: "Guardado." }).waitFor();
  await go(page, "season");
  await page
    .locator("svg text", { hasText: /\d,\d °C/ })
    .first()
    .waitFor();
  assert.deepEqual(complaints, []);
  await shot(page, "spanish-season-desktop");
  await close();
});

test("°F and gallons at will, in forms and drawings, and °C again", async () => {
  invented.play(() => ({}));
  const { page, complaints, close } = await openPage(browser, invented.address, { size: sizes.phone });
  await settled(page);
  await choose(page, "°F and gallons");
  await go(page, "log/water_change");
  const unit = (name) => page.getByLabel(`Unit of “${name}”`).evaluate((one) => one.selectedOptions[0].text);
  assert.equal(await unit("Water replaced"), "US gal");
  assert.equal(await unit("Temperature of the new water"), "°F");
  await go(page, "season");
  await page.locator("svg text", { hasText: "°F" }).first().waitFor();
  await shot(page, "fahrenheit-season");
  assert.deepEqual(await axeFindings(page), []);
  await choose(page, "°C and litres");
  await go(page, "log/water_change");
  assert.equal(await unit("Water replaced"), "L");
  assert.deepEqual(complaints, []);
  await close();
});
