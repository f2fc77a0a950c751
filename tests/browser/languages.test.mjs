// Who reads Spanish, and who measures in °F: chosen at the foot of the page or in the set-up, kept, and taken back. In
// Spanish nothing of the main path is left in English, whoever worded it: page, server, or the core in the page.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { startInvented } from "./support/invented.mjs";
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
import { englishLeft, wordsOfTheSeason } from "./support/spanish.mjs";

let invented;
let redd;
let browser;

before(async () => {
  [invented, redd, browser] = await Promise.all([startInvented(), startRedd("demo"), startBrowser()]);
});

after(async () => {
  await browser?.close();
  await redd?.stop();
  await invented?.stop();
});

/** Presses a choice at the foot and waits for the page that is loaded anew. */
async function choose(page, name) {
  await Promise.all([page.waitForEvent("load"), page.getByRole("button", { name, exact: true }).click()]);
  await page.locator("main h1").waitFor({ state: "attached" });
  await settled(page);
}

const scripts = (page) =>
  page.evaluate(() => performance.getEntriesByType("resource").map((one) => new URL(one.name).pathname.slice(1)));
const language = (page) => page.locator("html").getAttribute("lang");

/** What is looked at on every screen. */
async function inSpanish(page, name, own) {
  assert.equal(await language(page), "es", name);
  assert.deepEqual(await englishLeft(page, own), [], `English on ${name}`);
  assert.deepEqual(await axeFindings(page), [], name);
  assert.equal(await sticksOut(page), 0, `${name} sticks out`);
}

// Folded parts are opened: what is not seen at first is read by somebody, too.
const mainPath = {
  today: "Hoy",
  bench: "En la mesa de pruebas",
  water: "El filtro y su agua",
  "water/changes": "Cambios de agua",
  brood: "Alimento y crecimiento",
  "brood/room": "Cuántos caben",
  "brood/counts": "Quién vive, quién murió",
  season: "La temporada",
  "season/wall": "Calendario para la pared",
  "season/calendar": "El calendario escolar",
  heat: "Enfriador, sala y cortes",
  whatif: "¿Y si …?",
  lessons: "Prediga la próxima lectura",
  "lessons/teams": "¿Qué leen otros equipos?",
  "lessons/graphs": "Gráficos con preguntas",
  "lessons/sheets": "Hojas de trabajo",
  log: "Registrar",
  "log/water_change": "Cambio de agua",
  "log/egg_receipt": "Huevos recibidos",
  "log/kits": "Sus kits",
  history: "Historial",
  emergency: "Emergencia",
  "emergency/power_cut": "Corte de luz",
  copies: "La temporada en un archivo",
  classroom: "Compartir en el aula",
  "copies/table": "Importar una tabla",
  setup: "Configuración de la temporada",
  print: "Imprimir",
  "print/bench": "Hoja de pruebas",
  "print/report": "Informe de la temporada",
};

for (const sizeName of ["phone", "desktop"])
  test(`the main path in Spanish, ${sizeName}`, async () => {
    const own = await wordsOfTheSeason(redd.address);
    const { page, complaints, close } = await openPage(browser, redd.address, {
      size: sizes[sizeName],
      locale: "es-MX",
      reducedMotion: "reduce",
    });
    for (const [screen, heading] of Object.entries(mainPath)) {
      await go(page, screen);
      assert.ok((await page.locator("main h1").first().innerText()).startsWith(heading), screen);
      await unfoldAll(page, "section[aria-labelledby='open-questions'] button");
      await inSpanish(page, screen, own);
      await shot(page, `spanish-${screen.replaceAll("/", "-")}-${sizeName}`);
    }
    assert.deepEqual(complaints, []);
    await close();
  });

test("a sitting at the bench and what is answered there, in Spanish", async () => {
  const own = await wordsOfTheSeason(redd.address);
  const { page, complaints, close } = await openPage(browser, redd.address, {
    size: sizes.phone,
    locale: "es",
    reducedMotion: "reduce",
  });
  await go(page, "bench");
  await page.getByRole("button", { name: "Todo listo: empezar" }).click();
  await page.getByRole("heading", { level: 2 }).first().waitFor();
  await inSpanish(page, "a step at the bench", own);
  await shot(page, "spanish-bench-step");
  await page.getByRole("button", { name: "Parar aquí y revisar" }).click();
  await page.getByRole("heading", { name: "Revisar y después guardar" }).waitFor();
  await inSpanish(page, "the end of a sitting", own);

  await go(page, "log/water_change");
  await page.getByLabel("Agua reemplazada", { exact: true }).fill("mucha");
  await page.getByRole("button", { name: "Guardar", exact: true }).click();
  await page.getByRole("alert").waitFor();
  await inSpanish(page, "a form that asks again", own);
  assert.deepEqual(complaints, []);
  await close();
});

for (const sizeName of ["phone", "desktop"])
  test(`a season begun in Spanish, everything left open, ${sizeName}`, async (context) => {
    const empty = await startRedd("empty");
    context.after(() => empty.stop());
    const { page, complaints, close } = await openPage(browser, empty.address, {
      size: sizes[sizeName],
      timezoneId: "America/Bogota",
      reducedMotion: "reduce",
    });
    const titled = (name) => page.getByRole("heading", { level: 1, name, exact: true }).waitFor();
    await titled("Language and units");
    await Promise.all([page.waitForEvent("load"), page.getByRole("radio", { name: "Español" }).check()]);
    await titled("Idioma y unidades");
    assert.ok(await page.getByRole("radio", { name: "Español" }).isChecked());
    for (const name of [
      "Su escuela",
      "El acuario",
      "Alrededor del agua",
      "Frío",
      "Agua de la red",
      "Los huevos",
      "Su kit de pruebas",
      "El calendario escolar",
      "El permiso",
      "¿Es correcto?",
    ]) {
      await settled(page);
      await inSpanish(page, `the set-up before “${name}”`, []);
      await page.getByRole("button", { name: "Siguiente", exact: true }).click();
      await titled(name);
    }
    await inSpanish(page, "the set-up's last screen", []);
    await shot(page, `spanish-setup-check-${sizeName}`);
    await page.getByRole("button", { name: "Empezar la temporada" }).click();
    await titled("Su plan");
    await settled(page);
    await inSpanish(page, "the plan", []);
    await shot(page, `spanish-setup-plan-${sizeName}`);
    await page.getByRole("link", { name: "A la página de hoy" }).click();
    await page.locator("#headline-sentence").waitFor();
    await settled(page);
    await inSpanish(page, "the first day", []);
    assert.deepEqual(complaints, []);
    await close();
  });

test("English is asked for and fetched until Spanish is chosen; the choice is kept, and taken back", async () => {
  invented.play(() => ({}));
  const { page, complaints, close } = await openPage(browser, invented.address, { size: sizes.phone });
  const asked = [];
  page.on("request", (request) => {
    const headers = request.headers();
    if (request.url().includes("/api/")) asked.push(`${headers["accept-language"]} ${headers["redd-units"]}`);
  });
  await settled(page);
  assert.equal(await language(page), "en");
  assert.ok(!(await scripts(page)).some((path) => path.endsWith("spanish.js")), "English readers wait for no Spanish");

  // What follows the first screen (who is here, the thermometer) was asked in English.
  await page.waitForLoadState("networkidle");
  asked.length = 0;
  await choose(page, "Español");
  assert.equal(await language(page), "es");
  assert.ok((await scripts(page)).some((path) => path.endsWith("spanish.js")));
  await page.getByRole("navigation", { name: "Pantallas", exact: true }).waitFor();
  assert.deepEqual([...new Set(asked)], ["es metric"]);
  await page.reload();
  await page.getByRole("heading", { level: 1, name: "Hoy" }).waitFor();

  await page.waitForLoadState("networkidle");
  asked.length = 0;
  await choose(page, "English");
  assert.equal(await language(page), "en");
  await page.getByRole("navigation", { name: "Screens", exact: true }).waitFor();
  assert.deepEqual([...new Set(asked)], ["en metric"]);
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
  await page.getByRole("heading", { level: 1, name: "Hoy" }).waitFor();
  await go(page, "log/temperature");
  await page.getByLabel("Temperatura", { exact: true }).fill("8,4");
  await page.getByRole("button", { name: "Guardar", exact: true }).click();
  await page.locator("#saved-words", { hasText: "Guardado." }).waitFor();
  await go(page, "season");
  await page
    .locator("svg text", { hasText: /\d,\d\s°C/ })
    .first()
    .waitFor();
  assert.deepEqual(complaints, []);
  await close();
});

test("°F and gallons at will, in answers, forms and drawings, and °C again", async () => {
  const { page, complaints, close } = await openPage(browser, redd.address, { size: sizes.phone });
  await settled(page);
  await choose(page, "°F and US gallons");
  await page.getByText(/\d °F/).first().waitFor();
  for (const screen of ["today", "season", "heat", "water/changes"]) {
    await go(page, screen);
    await unfoldAll(page);
    const text = await page.locator("main").innerText();
    assert.match(text, /°F|US gal/, screen);
    const metric = text.split("\n").filter((line) => /\d\s°C|\d\sL\b/.test(line) && !/°F|US gal/.test(line));
    assert.deepEqual(metric, [], `metric units on ${screen}`);
    await shot(page, `fahrenheit-${screen.replaceAll("/", "-")}`);
  }
  assert.deepEqual(await axeFindings(page), []);
  await go(page, "log/water_change");
  const unit = (name) => page.getByLabel(`Unit of “${name}”`).evaluate((one) => one.selectedOptions[0].text);
  assert.equal(await unit("Water replaced"), "US gal");
  assert.equal(await unit("Temperature of the new water"), "°F");
  await choose(page, "°C and litres");
  await go(page, "log/water_change");
  assert.equal(await unit("Water replaced"), "L");
  assert.deepEqual(complaints, []);
  await close();
});
