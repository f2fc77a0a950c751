// Guided testing at the bench, before the invented server, with the core in the page: the whole path, drops through a
// reload, teams that do not see each other's value, the other card, a colour read too late, keys alone, no connection.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { asked, breathe, chooseTests, goThrough, planned } from "./support/bench.mjs";
import { startInvented } from "./support/invented.mjs";
import { axeFindings, go, openPage, shot, sizes, startBrowser, sticksOut } from "./support/redd.mjs";

let server;
let browser;
let api;

before(async () => {
  server = await startInvented();
  browser = await startBrowser();
});
after(async () => {
  await browser?.close();
  await server?.stop();
});

async function atTheBench(options = {}) {
  api = server.play(({ benchKits }) => ({ kits: benchKits, own: true }));
  const opened = await openPage(browser, server.address, { size: sizes.phone, reducedMotion: "reduce", ...options });
  await opened.page.clock.install({ time: new Date("2031-01-30T15:00:00Z") });
  await go(opened.page, "bench");
  await opened.page.getByText(/pairs? of hands:/).waitFor();
  return opened;
}
const begin = async (page) => {
  await page.getByRole("button", { name: /^We are ready/ }).click();
  await breathe(page);
};
const sent = () => api.sent.filter((record) => record.kind === "reading").map((record) => record.body);

for (const [name, options] of [
  ["phone", { size: sizes.small }],
  ["desktop, dark", { size: sizes.desktop, scheme: "dark" }],
]) {
  test(`choose, go step by step, check, save: ${name}`, async () => {
    const { page, complaints, close } = await atTheBench(options);
    assert.match(await page.locator("main .headline").innerText(), /one pair of hands: about \d+ minutes/);
    assert.deepEqual(await axeFindings(page), []);
    assert.equal(await sticksOut(page), 0);
    await shot(page, `bench-1-choose-${name}`);
    await chooseTests(page, [/Nitrite/, /card from 6/, /Alkalinity/]);
    await begin(page);
    await shot(page, `bench-2-step-${name}`);
    const seen = await goThrough(page);
    for (const kind of ["done", "drops", "mix", "count", "card", "wait"])
      assert.ok(seen.includes(kind), `${kind} came up`);
    await shot(page, `bench-3-check-${name}`);
    assert.equal(sent().length, 0, "nothing is written down before it is saved");
    await page.getByRole("button", { name: "Save 3 readings" }).click();
    await page.getByText("3 readings are saved.").first().waitFor();
    assert.deepEqual(
      sent()
        .map((body) => body.test)
        .sort(),
      ["kh", "nitrite", "ph_low"],
    );
    assert.equal(new Set(sent().map((body) => body.session)).size, 1);
    assert.ok(await page.getByText("Wash hands with soap, everyone.").isVisible());
    assert.deepEqual(await axeFindings(page), []);
    await page.getByRole("button", { name: "Put this sitting away" }).click();
    await page.getByRole("button", { name: /^We are ready/ }).waitFor();
    assert.deepEqual(complaints, []);
    await close();
  });
}

test("drops live through a reload in the middle, by tap, space bar and switch, and one can be undone", async () => {
  const { page, close } = await atTheBench();
  await page.getByRole("button", { name: "A foot switch or a key for the drops" }).click();
  await page.getByRole("button", { name: "Set a key" }).click();
  await page.keyboard.press("F9");
  await page.getByText("This key counts too: F9").waitFor();
  await chooseTests(page, [/Alkalinity/]);
  await begin(page);
  await page.getByRole("button", { name: /^Done/ }).click();
  const count = page.locator(".drops .count");
  await page.locator(".drops .more").click();
  await page.keyboard.press("Space");
  await page.keyboard.press("F9");
  assert.equal(await count.innerText(), "3");
  await page.evaluate(() => document.activeElement?.blur());
  await page.clock.runFor(200);
  await page.keyboard.press("Space");
  assert.equal(await count.innerText(), "4", "the space bar counts wherever the focus is");
  await page.reload();
  await count.waitFor();
  assert.equal(await count.innerText(), "4", "no drop is lost");
  for (let drop = 0; drop < 3; drop += 1) await page.locator(".drops .more").click();
  await page.getByRole("button", { name: "Undo one drop" }).click();
  assert.equal(await count.innerText(), "6");
  await page.getByRole("button", { name: /^The colour has turned: 6 drops/ }).click();
  await page.getByRole("heading", { name: "Check, then save" }).waitFor();
  await page.getByRole("button", { name: "Save 1 reading" }).click();
  await page.getByText("1 reading is saved.").first().waitFor();
  assert.equal(sent()[0].value, 6);
  await close();
});

test("a timer goes by the clock on the wall: a reload and a sleep change nothing", async () => {
  const { page, close } = await atTheBench();
  await chooseTests(page, [/Nitrite/]);
  await begin(page);
  await goThrough(page, { stop: (now) => now.what === "wait" });
  const digits = page.locator(".timer .digits").first();
  assert.match(await digits.innerText(), /^(4:00|3:5\d)$/);
  await page.clock.fastForward(60_000);
  await page.reload();
  await digits.waitFor();
  assert.match(await digits.innerText(), /^(3:00|2:5\d)$/);
  await page.clock.fastForward(200_000);
  await page.locator(".stone").first().waitFor();
  assert.match(await page.locator(".within").innerText(), /^1:\d\d\s+read within/);
  assert.ok(await page.locator(".lane.rings").count(), "the end of a wait is seen");
  await shot(page, "bench-4-read");
  await close();
});

test("a colour too late is not entered: begun again, or left out", async () => {
  const { page, close } = await atTheBench();
  await chooseTests(page, [/Nitrite/]);
  await begin(page);
  await goThrough(page, { stop: (now) => now.what === "card" });
  await page.clock.fastForward(180_000);
  await page.getByRole("heading", { name: "Too late to read" }).waitFor();
  assert.equal(await page.locator(".stone").count(), 0);
  assert.deepEqual(await axeFindings(page), []);
  await shot(page, "bench-5-late");
  await page.getByRole("button", { name: "Begin this test again" }).click();
  await breathe(page);
  assert.equal((await asked(page)).what, "done", "back at the first step");
  await goThrough(page);
  await page.getByRole("button", { name: "Save 1 reading" }).waitFor();
  await close();
});

test("two teams read unseen by each other; then the pooled answer and the spread", async () => {
  const { page, complaints, close } = await atTheBench({ size: sizes.small });
  await chooseTests(page, [/Nitrite/]);
  await page.getByRole("radio", { name: /Several teams/ }).check();
  await page.getByLabel("Label of team 1").fill("Team Otter");
  await page.getByLabel("Label of team 2").fill("Team Heron");
  await planned(page);
  await begin(page);
  await goThrough(page, { stop: (now) => now.what === "hand over" });
  await page.getByRole("button", { name: "We are Team Otter" }).click();
  await page.locator(".stone").nth(4).click();
  await page.getByRole("button", { name: "Keep: 0.09 mg/L as N" }).click();
  await page.getByRole("button", { name: "We are Team Heron" }).waitFor();
  assert.equal(await page.locator(".stone").count(), 0);
  assert.doesNotMatch(await page.locator("main").innerText(), /0\.09/, "the first team's value is hidden");
  await page.reload();
  await page.getByRole("button", { name: "We are Team Heron" }).click();
  assert.equal(await page.locator(".stone[aria-pressed='true']").count(), 0);
  await page.locator(".stone").nth(6).click();
  await page.getByRole("button", { name: "Keep: 0.18 mg/L as N" }).click();
  await page.getByRole("heading", { name: "Check, then save" }).waitFor();
  await page.getByText(/^Together they say/).waitFor();
  assert.match(await page.locator("main").innerText(), /2 teams: the lowest read 0\.09 .* the highest 0\.18/);
  assert.deepEqual(await axeFindings(page), []);
  await shot(page, "bench-6-teams");
  await page.getByRole("button", { name: "Save 2 readings" }).click();
  await page.getByText("2 readings are saved.").first().waitFor();
  assert.deepEqual(
    sent().map((body) => [body.team, body.value]),
    [
      ["Team Otter", 0.09],
      ["Team Heron", 0.18],
    ],
  );
  assert.deepEqual(complaints, []);
  await close();
});

test("the high card comes in when the low one ends, and not else", async () => {
  const { page, close } = await atTheBench();
  await chooseTests(page, [/card from 6/, /card from 7/]);
  assert.match(
    await page.locator("main").innerText(),
    /pH \(card from 7 to 8\.5\): only if pH \(card from 6 to 7\.2\) reads/,
  );
  await begin(page);
  const cards = [];
  await goThrough(page, {
    read: async () => {
      cards.push(await page.locator("#main h2").first().innerText());
      return (await page.locator(".stone").count()) - 1;
    },
  });
  assert.deepEqual(cards, ["pH (card from 6 to 7.2)", "pH (card from 7 to 8.5)"]);
  await page.getByRole("button", { name: "Save 2 readings" }).waitFor();
  await close();
});

test("not sure is a range over several steps", async () => {
  const { page, close } = await atTheBench();
  await chooseTests(page, [/Nitrite/]);
  await begin(page);
  await goThrough(page, { stop: (now) => now.what === "card" });
  await page.getByRole("button", { name: "Not sure" }).click();
  await page.locator(".stone").nth(1).click();
  await page.locator(".stone").nth(3).click();
  await page.getByRole("button", { name: "Keep: between 0.03 and 0.18 mg/L as N" }).click();
  await page.getByRole("button", { name: "Save 1 reading" }).click();
  await page.getByText("1 reading is saved.").first().waitFor();
  assert.deepEqual([sent()[0].form, sent()[0].value, sent()[0].upper_value], ["between", 0.03, 0.18]);
  await close();
});

test("without a connection the readings stay, and go when it is back", async () => {
  const { page, close } = await atTheBench();
  await chooseTests(page, [/Alkalinity/]);
  await begin(page);
  await goThrough(page);
  await page.context().setOffline(true);
  await page.getByRole("button", { name: "Save 1 reading" }).click();
  await page
    .getByText(/kept on this device/)
    .first()
    .waitFor();
  assert.deepEqual(await axeFindings(page), []);
  await page.context().setOffline(false);
  await page.getByText("1 reading is saved.").first().waitFor();
  assert.equal(sent().length, 1);
  await close();
});

test("two pairs of hands have two steps on the screen", async () => {
  const { page, close } = await atTheBench({ size: sizes.projector });
  await page.getByRole("radio", { name: /Two pairs/ }).check();
  await page.getByText("with two pairs of hands:").waitFor();
  await begin(page);
  await page.locator(".lane").nth(1).waitFor();
  const [first, second] = await page.locator(".lane h2").allInnerTexts();
  assert.notEqual(first, second);
  assert.deepEqual(await axeFindings(page), []);
  assert.equal(await sticksOut(page), 0);
  await shot(page, "bench-7-two");
  await close();
});

test("a sitting left for long is asked about, and goes on where it stopped", async () => {
  const { page, close } = await atTheBench();
  await chooseTests(page, [/Alkalinity/]);
  await begin(page);
  await page.getByRole("button", { name: /^Done/ }).click();
  await page.locator(".drops .more").click();
  await page.clock.fastForward(3_600_000);
  await page.reload();
  await page.getByRole("heading", { name: "You stopped in the middle" }).waitFor();
  assert.deepEqual(await axeFindings(page), []);
  await page.getByRole("button", { name: "Throw this sitting away" }).click();
  await page.getByRole("button", { name: "No, keep it" }).click();
  await page.getByRole("button", { name: "Go on where you stopped" }).click();
  assert.equal(await page.locator(".drops .count").innerText(), "1");
  await go(page, "today");
  await page.getByRole("link", { name: "Go on where you stopped" }).waitFor();
  await close();
});

test("with the keyboard alone", async () => {
  const { page, close } = await atTheBench({ size: sizes.desktop });
  const press = async (name) => {
    const found = page.getByRole("button", { name }).first();
    await found.waitFor();
    for (let tab = 0; tab < 60; tab += 1) {
      if (await found.evaluate((one) => one === document.activeElement)) break;
      await page.keyboard.press("Tab");
    }
    assert.ok(await found.evaluate((one) => one === document.activeElement), `Tab reaches ${name}`);
    await page.keyboard.press("Enter");
    await breathe(page);
  };
  for (const box of await page.getByRole("checkbox").all()) {
    const keep = /Alkalinity/.test(await box.locator("xpath=ancestor::label").innerText());
    await box.focus();
    if ((await box.isChecked()) !== keep) await page.keyboard.press("Space");
  }
  await page.getByText(/1 test with one pair of hands:/).waitFor();
  await press(/^We are ready/);
  await press(/^Done/);
  for (let drop = 0; drop < 5; drop += 1) {
    await page.keyboard.press("Space");
    await page.clock.runFor(200);
  }
  await press(/^The colour has turned: 5 drops/);
  await press(/^Save 1 reading/);
  await page.getByText("1 reading is saved.").first().waitFor();
  assert.equal(sent()[0].value, 5);
  await close();
});
