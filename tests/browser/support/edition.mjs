// The edition in one file, as a keeper has it: redd.html on the disk, opened without a server.
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { settled, sizes } from "./redd.mjs";

const patienceMs = 60_000;

/** Takes redd.html from a running program and lays it in a folder of its own. */
export async function takeEdition(redd) {
  const folder = mkdtempSync(join(tmpdir(), "redd-edition-"));
  const response = await fetch(`${redd.address}redd.html`);
  const text = await response.text();
  writeFileSync(join(folder, "redd.html"), text);
  return {
    address: pathToFileURL(join(folder, "redd.html")).href,
    size: text.length,
    folder,
    remove: () => rmSync(folder, { recursive: true, force: true }),
  };
}

/** A fresh profile: nothing is stored in it. Several pages may be opened in one. */
export async function freshProfile(browser, { size = sizes.phone, scheme = "light", ...more } = {}) {
  const context = await browser.newContext({
    viewport: size,
    colorScheme: scheme,
    locale: "en-GB",
    timezoneId: "America/Denver",
    acceptDownloads: true,
    ...more,
  });
  context.setDefaultTimeout(patienceMs);
  return context;
}

/** Opens the file. `complaints` collects errors and everything that is asked of any network. */
export async function openEdition(context, edition) {
  const page = await context.newPage();
  const complaints = [];
  page.on("console", (message) => {
    if (message.type() === "error" || message.type() === "warning") complaints.push(message.text());
  });
  page.on("pageerror", (error) => complaints.push(error.message));
  page.on("request", (request) => {
    if (!/^(file|blob|data):/.test(request.url())) complaints.push(`asked ${request.url()}`);
  });
  await page.goto(edition.address);
  await page.locator("main h1").waitFor({ state: "attached" });
  return { page, complaints };
}

/** Begins a small season with everything left open but the place, up to today's page. */
export async function beginSeason(page, place = "A school on a hill") {
  const title = (name) => page.getByRole("heading", { level: 1, name, exact: true }).waitFor();
  const next = () => page.getByRole("button", { name: "Next", exact: true }).click();
  await page.getByRole("button", { name: "Begin a new season" }).click();
  await title("Language and units");
  await next();
  await title("Your school");
  await page.getByLabel("School or place", { exact: true }).fill(place);
  for (const name of ["The tank", "Around the water", "Cold", "Tap water", "The eggs"]) {
    await next();
    await title(name);
  }
  await page.getByRole("radio", { name: "No, they are to come" }).check();
  await next();
  await title("Your test kit");
  await page
    .getByRole("radio", { name: /^Like this/ })
    .first()
    .check();
  for (const name of ["The school’s calendar", "The permit", "Is this right?"]) {
    await next();
    await title(name);
  }
  await page.getByRole("button", { name: "Begin the season" }).click();
  await title("Match your card");
  await page.getByRole("button", { name: "Save the kit" }).click();
  await title("Your plan");
  await page.getByRole("link", { name: "To today’s page" }).click();
  await page.locator("#headline-sentence").waitFor();
  await settled(page);
}

/** So many entries are in no file yet, by the line that says so. */
export async function unsavedEntries(line) {
  return Number(/(\d+) entr(?:y|ies) not yet in a file/.exec(await line.innerText())?.[1] ?? "0");
}

/** Logs a note or a temperature and waits until it is kept. */
export async function logTemperature(page, value) {
  await page.evaluate(() => (location.hash = "#/log/temperature"));
  await page.getByLabel("Temperature", { exact: true }).fill(String(value));
  await page.getByRole("button", { name: "Save", exact: true }).click();
  await page.locator("#saved-words", { hasText: /Saved\./ }).waitFor();
}

/** Presses a button that saves; gives name and text of the file. */
export async function savedBy(page, button) {
  const [download] = await Promise.all([page.waitForEvent("download"), button.click()]);
  const parts = [];
  for await (const part of await download.createReadStream()) parts.push(part);
  return { name: download.suggestedFilename(), text: Buffer.concat(parts).toString("utf8") };
}
