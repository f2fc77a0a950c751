// The Season view of the program itself: its plan read, days and temperatures moved by mouse, finger and keys, what that
// leads to at once, put back, a setting logged; on paper one page; a season without a day for eggs.
import assert from "node:assert/strict";
import { join } from "node:path";
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

async function openSeason(options) {
  const opened = await openPage(browser, redd.address, options);
  await go(opened.page, "season");
  await opened.page.locator("#plan-sentence").waitFor();
  await settled(opened.page);
  return opened;
}

const tried = (page) => page.getByRole("heading", { name: "Where your change leads" });
const handle = (page, name) => page.getByRole("slider", { name });

async function middleOf(locator) {
  const box = await locator.boundingBox();
  return [box.x + box.width / 2, box.y + box.height / 2];
}

test("the plan is read: sentence, next step, wishes, closures, plans side by side", async () => {
  const { page, complaints, close } = await openSeason();
  assert.match(await page.locator("#plan-sentence").innerText(), /first feeding/);
  assert.ok(await page.getByText("Next step:").isVisible());
  for (const words of ["What you wish for", "What stands in the way", "Since last week", "Plans side by side"])
    assert.ok(await page.getByRole("heading", { name: words }).isVisible(), words);
  // Where the best plan has the fewest changes too, it stands once.
  const best = page.getByRole("heading", { name: "Best plan, also the fewest changes" });
  assert.equal(await page.locator("main article").count(), (await best.isVisible()) ? 2 : 3);
  const chart = page.locator("main figure svg[role='img']").first();
  for (const words of ["School closed", "Winter break", "Release, by permit", "Eggs arrive"])
    assert.match(await chart.innerHTML(), new RegExp(words), words);
  assert.doesNotMatch(await chart.innerHTML(), /NaN|Infinity|undefined/);
  assert.deepEqual(complaints, []);
  await close();
});

test("a temperature is dragged: the consequence is there at once, Escape takes the drag and then all of it back", async () => {
  const { page, complaints, close } = await openSeason();
  const took = [];
  page.on("response", async (response) => {
    if (response.url().includes("/api/plan/try")) took.push(response.request().timing().responseEnd);
  });
  const step = handle(page, "A step of the plan");
  await step.scrollIntoViewIfNeeded();
  const first = await step.getAttribute("aria-valuetext");
  const [x, y] = await middleOf(step);
  await page.mouse.move(x, y);
  await page.mouse.down();
  for (let pixel = 1; pixel <= 26; pixel += 1) await page.mouse.move(x, y + pixel);
  await tried(page).waitFor();
  await settled(page);
  assert.notEqual(await step.getAttribute("aria-valuetext"), first);
  await page.keyboard.press("Escape");
  await page.mouse.up();
  assert.equal(await step.getAttribute("aria-valuetext").then((text) => text.slice(-20)), first.slice(-20));
  await step.focus();
  await page.keyboard.press("Escape");
  await tried(page).waitFor({ state: "detached" });
  assert.equal(await step.getAttribute("aria-valuetext"), first);
  // Asked at most once a frame, one question at a time. The quickest of the answers tells the program's own time from that
  // of a busy machine.
  await page.waitForTimeout(100);
  assert.ok(took.length > 0 && took.length <= 30, `${took.length} questions`);
  assert.ok(Math.min(...took) < 50, `${Math.min(...took)} ms`);
  assert.deepEqual(complaints, []);
  await close();
});

test("days are moved by keys, and the plan is searched for anew", async () => {
  const { page, complaints, close } = await openSeason();
  const hatch = handle(page, "Wished day of hatch");
  const before = await hatch.getAttribute("aria-valuenow");
  await hatch.focus();
  for (let press = 0; press < 4; press += 1) await page.keyboard.press("ArrowRight");
  await tried(page).waitFor();
  assert.equal(Number(await hatch.getAttribute("aria-valuenow")), Number(before) + 4);
  await page.getByText(/Half hatched within two days of/).waitFor();
  assert.deepEqual(await axeFindings(page), []);
  await shot(page, "season-walk-1-tried");
  await page.getByRole("button", { name: "Keep this …" }).click();
  await page.getByText("Redd writes nothing down by itself.").waitFor();
  await page.getByRole("button", { name: "Put it back" }).click();
  await tried(page).waitFor({ state: "detached" });
  const until = handle(page, "Last day for the release");
  await until.focus();
  await page.keyboard.press("PageDown");
  await tried(page).waitFor();
  await page.keyboard.press("Escape");
  await tried(page).waitFor({ state: "detached" });
  assert.deepEqual(complaints, []);
  await close();
});

test("what would harm is refused with a reason, and the buttons do what the handles do", async () => {
  const { page, complaints, close } = await openSeason({ size: sizes.small, hasTouch: true });
  await page.getByRole("button", { name: "Move something by buttons" }).tap();
  const colder = page.getByRole("button", { name: /0\.5\s°C colder$/ }).first();
  for (let press = 0; press < 9; press += 1) await colder.tap();
  await page.getByRole("alert").waitFor();
  assert.match(await page.getByRole("alert").innerText(), /This can't be done:/);
  assert.deepEqual(await axeFindings(page), []);
  assert.equal(await sticksOut(page), 0);
  await shot(page, "season-walk-2-refused-small");
  await page.getByRole("button", { name: "Put it back" }).tap();
  await page.getByRole("button", { name: "Add a step" }).tap();
  await tried(page).waitFor();
  assert.deepEqual(complaints, []);
  await close();
});

test("a setting is logged only when it is saved", async () => {
  const { page, complaints, close } = await openSeason();
  const count = async () => (await (await fetch(`${redd.address}api/history?limit=1`)).json()).records[0].id;
  const before = await count();
  const handles = handle(page, "A step of the plan");
  await handles.focus();
  await page.keyboard.press("ArrowDown");
  await tried(page).waitFor();
  assert.equal(await count(), before);
  await go(page, "log/set_point");
  await page.getByLabel("New setting of the chiller", { exact: true }).fill("8");
  await page.getByRole("button", { name: "Save", exact: true }).click();
  await page.locator("#saved-title").waitFor();
  assert.notEqual(await count(), before);
  assert.deepEqual(complaints, []);
  await close();
});

test("the season prints on one page, lying", async () => {
  const { page, close } = await openSeason();
  const folder = process.env.REDD_SHOTS;
  const pdf = await page.pdf({
    preferCSSPageSize: true,
    ...(folder ? { path: join(folder, "print-season.pdf") } : {}),
  });
  const text = pdf.toString("latin1");
  assert.equal(text.match(/\/Type ?\/Page\b/g)?.length, 1);
  const [, , width, height] =
    text
      .match(/MediaBox ?\[(\S+) (\S+) (\S+) ([^\]]+)/)
      ?.slice(1)
      .map(Number) ?? [];
  assert.ok(width > height, `${width} by ${height}`);
  await close();
});

test("the emergency card is one page upright, and a season's calendar a page a month", async () => {
  const { page, complaints, close } = await openPage(browser, redd.address, { size: sizes.phone });
  await page.getByRole("link", { name: "Emergency" }).click();
  await page.getByRole("link", { name: /^Power cut/ }).waitFor();
  const folder = process.env.REDD_SHOTS;
  const printed = async (name) => {
    const pdf = await page.pdf({
      preferCSSPageSize: true,
      ...(folder ? { path: join(folder, `print-${name}.pdf`) } : {}),
    });
    const text = pdf.toString("latin1");
    const [width, height] = text
      .match(/MediaBox ?\[\S+ \S+ (\S+) ([^\]]+)/)
      .slice(1)
      .map(Number);
    return { pages: text.match(/\/Type ?\/Page\b/g).length, upright: height > width };
  };
  assert.deepEqual(await printed("emergency"), { pages: 1, upright: true });
  await page.getByRole("link", { name: /^Power cut/ }).click();
  await page.getByRole("heading", { name: "First", exact: true }).waitFor();
  assert.equal(await page.locator("main ol").first().locator("li").count(), 3);
  await go(page, "season/wall");
  const months = page.locator("main h2");
  await months.first().waitFor();
  assert.deepEqual(await printed("wall"), { pages: await months.count(), upright: false });
  assert.deepEqual(complaints, []);
  await close();
});

test("the plan is handed out as a calendar file", async () => {
  const { page, close } = await openSeason();
  const href = await page.getByRole("link", { name: "Put it in my calendar" }).getAttribute("href");
  const answer = await fetch(new URL(href, redd.address));
  assert.equal(answer.status, 200);
  assert.match(answer.headers.get("content-type"), /^text\/calendar/);
  assert.match(await answer.text(), /^BEGIN:VCALENDAR\r\n/);
  await close();
});

test("text at twice its size, and a window of 320 pixels, need no sideways scrolling", async () => {
  for (const [width, fontSize] of [
    [640, "200%"],
    [320, ""],
  ]) {
    const { page, close } = await openSeason({ size: { width, height: 800 } });
    await page.evaluate((size) => (document.documentElement.style.fontSize = size), fontSize);
    await settled(page);
    assert.equal(await sticksOut(page), 0, `at ${width} pixels`);
    await close();
  }
});

test("closures, duty and the tank can be written down", async () => {
  const { page, complaints, close } = await openPage(browser, redd.address, { size: sizes.phone });
  for (const [kind, fill] of [
    ["closure", { "What it is": "Invented fair", "First closed day": "2031-03-03" }],
    ["duty", { "Who looks after the tank": "Team Heron", "First day": "2031-03-03" }],
    ["tank_build", { "Length inside": "100", "Width inside": "50" }],
  ]) {
    await go(page, `log/${kind}`);
    for (const [label, text] of Object.entries(fill))
      await page
        .getByLabel(new RegExp(`^${label}`))
        .first()
        .fill(text);
    assert.deepEqual(await axeFindings(page), [], kind);
    assert.equal(await sticksOut(page), 0, kind);
    await page.getByRole("button", { name: "Save", exact: true }).click();
    await page.locator("#saved-title").waitFor();
  }
  await go(page, "season");
  await page.getByText("Invented fair").first().waitFor();
  assert.deepEqual(complaints, []);
  await close();
});

test("the school's calendar is taken from a file, shown first, then kept", async () => {
  const { page, complaints, close } = await openPage(browser, redd.address, { size: sizes.phone });
  await go(page, "season/calendar");
  const file = ["BEGIN:VCALENDAR", "VERSION:2.0", "PRODID:-//invented//walk//EN", "BEGIN:VEVENT", "UID:walk-1@invented"]
    .concat(["DTSTAMP:20300801T000000Z", "DTSTART;VALUE=DATE:20310324", "SUMMARY:Invented holiday", "END:VEVENT"])
    .concat(["END:VCALENDAR", ""])
    .join("\r\n");
  await page
    .getByLabel("Calendar file or list")
    .setInputFiles({ name: "school.ics", mimeType: "text/calendar", buffer: Buffer.from(file) });
  await page.getByRole("rowheader", { name: "Invented holiday" }).waitFor();
  assert.deepEqual(await axeFindings(page), []);
  assert.equal(await sticksOut(page), 0);
  await shot(page, "season-walk-4-calendar");
  await page.getByRole("button", { name: "Keep 1 closure" }).click();
  await page.getByText("Kept: 1 closure.").first().waitFor();
  await page.getByRole("link", { name: "See the season" }).click();
  await page.getByText("Invented holiday").first().waitFor();
  assert.deepEqual(complaints, []);
  await close();
});

test("without a day for the eggs it says what to do", async () => {
  const own = await startRedd("own");
  try {
    const post = (kind, body) =>
      fetch(`${own.address}api/records`, {
        method: "POST",
        headers: { "content-type": "application/json", origin: own.address.slice(0, -1) },
        body: JSON.stringify({ kind, author: "Class", entry_key: `walk-${kind}`, body }),
      });
    const made = await post("season_setup", {
      name: "Walk",
      place: "Invented school",
      first_day: new Date(Date.now() - 5 * 86_400_000).toISOString().slice(0, 10),
      volume_l: 200,
      species: "brook_trout",
      target_c: 8,
      elevation_m: 300,
      time_zone: "America/Denver",
    });
    assert.equal(made.status, 201, await made.text());
    const { page, complaints, close } = await openPage(browser, own.address, { size: sizes.phone });
    await go(page, "season");
    await page.getByText(/There are no eggs yet and no day for them/).waitFor();
    assert.deepEqual(await axeFindings(page), []);
    await shot(page, "season-walk-3-no-eggs");
    await page.getByRole("link", { name: "Correct the set-up" }).click();
    await page.getByRole("heading", { name: "Season set-up" }).waitFor();
    assert.deepEqual(
      complaints.filter((one) => !one.includes("422")),
      [],
    );
    await close();
  } finally {
    await own.stop();
  }
});
