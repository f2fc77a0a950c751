// Sheets on paper: every one fits A4 and Letter, has the pages it should have, cuts no row and loses nothing at the edge;
// and a teacher finds them.
import assert from "node:assert/strict";
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
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
  redd = await startRedd();
  browser = await startBrowser();
});

after(async () => {
  await browser?.close();
  await redd?.stop();
});

/** Width and height of paper in points, upright. */
const papers = { A4: [595, 842], Letter: [612, 792] };
/** Each sheet with how many pages it takes, how it lies, and where the story stands. */
const sheets = [
  { screen: "print/bench", pages: [2, 2], lying: false, ready: ".order li" },
  { screen: "print/report", pages: [2, 5], lying: false, ready: ".sign" },
  { screen: "emergency", pages: [1, 1], lying: false, ready: ".emergency-card" },
  // January to June of the demo: a page a month.
  { screen: "season/wall", pages: [6, 6], lying: true, ready: ".wall-view table" },
];

/** Pages and their sizes, as the file itself says them. */
function pagesOf(pdf) {
  const text = pdf.toString("latin1");
  return [...text.matchAll(/\/MediaBox\s*\[\s*0\s+0\s+([\d.]+)\s+([\d.]+)\s*\]/g)].map((box) => [
    Math.round(Number(box[1])),
    Math.round(Number(box[2])),
  ]);
}

/** What sticks out of a sheet as wide as the paper between its margins. */
async function cutOff(page, widthPx) {
  await page.emulateMedia({ media: "print" });
  await page.setViewportSize({ width: widthPx, height: 1000 });
  const found = await page.evaluate(() => {
    const edge = document.documentElement.clientWidth + 1;
    return [...document.querySelectorAll("main *")]
      .filter((one) => {
        const box = one.getBoundingClientRect();
        const hidden = box.width <= 1 || one.closest(".hidden-words");
        return !hidden && box.right > edge;
      })
      .slice(0, 5)
      .map((one) => `${one.tagName} ${one.textContent?.trim().slice(0, 40)}`);
  });
  await page.emulateMedia({ media: null });
  return found;
}

for (const sheet of sheets)
  test(`${sheet.screen} on A4 and on Letter`, async () => {
    const { page, complaints, close } = await openPage(browser, redd.address, { size: sizes.desktop });
    await go(page, sheet.screen);
    await page.locator(sheet.ready).first().waitFor({ state: "attached" });
    await settled(page);
    for (const [name, [width, height]] of Object.entries(papers)) {
      // What the printer holds: the sheet itself only says how it lies.
      const pdf = await page.pdf({ format: name, landscape: sheet.lying, printBackground: false });
      const folder = process.env.REDD_SHOTS;
      if (folder) {
        mkdirSync(folder, { recursive: true });
        writeFileSync(join(folder, `${sheet.screen.replaceAll("/", "-")}-${name}.pdf`), pdf);
      }
      const pages = pagesOf(pdf);
      const [least, most] = sheet.pages;
      assert.ok(pages.length >= least && pages.length <= most, `${sheet.screen} on ${name}: ${pages.length} pages`);
      const wanted = sheet.lying ? [height, width] : [width, height];
      for (const size of pages)
        assert.ok(
          Math.abs(size[0] - wanted[0]) < 2 && Math.abs(size[1] - wanted[1]) < 2,
          `${sheet.screen} on ${name}: ${size}`,
        );
      const between = ((sheet.lying ? height : width) / 72) * 96 - 2 * 53;
      assert.deepEqual(await cutOff(page, Math.floor(between)), [], `${sheet.screen} on ${name}`);
      await page.setViewportSize(sizes.desktop);
    }
    assert.deepEqual(complaints, []);
    await close();
  });

test("a teacher finds the sheets from any page, at every size", async () => {
  for (const size of [sizes.small, sizes.desktop]) {
    const { page, complaints, close } = await openPage(browser, redd.address, { size, reducedMotion: "reduce" });
    await go(page, "history");
    await page.getByRole("link", { name: "Print sheets" }).click();
    await page.getByRole("heading", { level: 1, name: "Print" }).waitFor();
    for (const [link, screen] of [
      ["", "print"],
      ["Bench sheet", "print/bench"],
      ["Season report", "print/report"],
      ["Calendar for the wall", "season/wall"],
      ["Emergency card", "emergency"],
    ]) {
      if (link) {
        await go(page, "print");
        await page
          .locator("main")
          .getByRole("link", { name: new RegExp(`^${link}`) })
          .click();
        await page.waitForFunction((hash) => location.hash === hash, `#/${screen}`);
        await settled(page);
      }
      assert.deepEqual(await axeFindings(page), [], `${screen} at ${size.width}`);
      assert.equal(await sticksOut(page), 0, `${screen} sticks out at ${size.width}`);
      await shot(page, `${screen.replaceAll("/", "-")}-${size.width}`);
    }
    assert.deepEqual(complaints, []);
    await close();
  }
});

test("the bench sheet holds every test of the kit in the order of the sitting, for two teams", async () => {
  const { page, close } = await openPage(browser, redd.address);
  await go(page, "print/bench");
  await page.locator(".order li").first().waitFor();
  const kits = await (await fetch(`${redd.address}api/kits`)).json();
  const picker = page.getByLabel("Test kit");
  const shown = (await picker.count()) > 0 ? await picker.inputValue() : kits.kits[0].key;
  const kit = kits.kits.find((one) => one.key === shown);
  assert.equal(await page.locator("tbody").count(), kit.tests.length);
  assert.equal(await page.locator("tbody tr").count(), 2 * kit.tests.length);
  const begins = await page.locator("tbody tr:first-child td.time:nth-of-type(1)").allInnerTexts();
  const seconds = begins
    .filter(Boolean)
    .map((text) => text.split(":").reduce((sum, part) => 60 * sum + Number(part), 0));
  assert.deepEqual(
    seconds,
    [...seconds].sort((a, b) => a - b),
  );
  assert.ok(seconds.length > 3);
  assert.ok(await page.getByText("Eye protection for everyone").first().isVisible());
  await close();
});

test("the report says what the log says", async () => {
  const { page, close } = await openPage(browser, redd.address);
  await go(page, "print/report");
  await page.locator(".sign").waitFor();
  const { report } = await (await fetch(`${redd.address}api/report`)).json();
  assert.ok(await page.getByText(report.sentence, { exact: true }).isVisible());
  assert.ok(await page.getByText("Invented season: nothing here happened.").isVisible());
  assert.equal(
    await page.getByRole("region", { name: "Temperature: table" }).locator("tbody tr").count(),
    report.temperature.months.length,
  );
  await close();
});

test("the report is saved as a file with the agency's own questions in it, and the HTML is one for everybody", async () => {
  const { page, complaints, close } = await openPage(browser, redd.address);
  const folder = mkdtempSync(join(tmpdir(), "redd-report-"));
  await go(page, "print/report");
  await page.locator(".sign").waitFor();
  await page.getByRole("button", { name: "Add a question" }).click();
  await page.getByLabel("Question 1").fill("Stocking <permit>?");
  await page.getByLabel("Answer 1").fill("Invented 7");
  /** Presses a button; the bytes that come, kept under the name that was given. */
  const saved = async (name) => {
    const [download] = await Promise.all([
      page.waitForEvent("download"),
      page.getByRole("button", { name, exact: true }).click(),
    ]);
    const path = join(folder, download.suggestedFilename());
    await download.saveAs(path);
    return path;
  };
  assert.equal(
    readFileSync(await saved("PDF"))
      .subarray(0, 5)
      .toString(),
    "%PDF-",
  );
  assert.match(await saved("PDF for the class"), /for-the-class\.pdf$/);
  const html = await saved("HTML");
  const sheet = await page.context().newPage();
  for (const width of [360, 1280]) {
    await sheet.setViewportSize({ width, height: 900 });
    await sheet.goto(pathToFileURL(html).href);
    assert.ok(await sheet.getByRole("heading", { name: "Stocking <permit>?" }).isVisible());
    assert.ok(await sheet.getByText("Invented 7", { exact: true }).isVisible());
    assert.ok((await sheet.getByRole("img").count()) >= 4);
    assert.deepEqual(await axeFindings(sheet), [], `at ${width}`);
    assert.equal(await sticksOut(sheet), 0, `at ${width}`);
    await shot(sheet, `report-file-${width}`);
  }
  rmSync(folder, { recursive: true });
  assert.deepEqual(complaints, []);
  await close();
});

test("a chart of the page is saved as a picture", async () => {
  const { page, complaints, close } = await openPage(browser, redd.address);
  await go(page, "season");
  const [download] = await Promise.all([
    page.waitForEvent("download"),
    page
      .getByRole("link", { name: /as SVG$/ })
      .first()
      .click(),
  ]);
  assert.equal(download.suggestedFilename(), "redd-temperature.svg");
  assert.match(readFileSync(await download.path(), "utf8"), /<title id="title">Temperature of the tank/);
  assert.deepEqual(complaints, []);
  await close();
});
