// The live thermometer on the page: how one is set up, what a working one shows, an alarm on every screen, and who is told.
import assert from "node:assert/strict";
import { writeFileSync } from "node:fs";
import { join } from "node:path";
import { after, before, test } from "node:test";
import { axeFindings, go, openPage, shot, sizes, startBrowser, startRedd, sticksOut } from "./support/redd.mjs";

let redd;
let bare;
let browser;

async function setUp(address) {
  const made = await fetch(`${address}api/records`, {
    method: "POST",
    headers: { "content-type": "application/json", origin: address.slice(0, -1) },
    body: JSON.stringify({
      kind: "season_setup",
      author: "Class",
      entry_key: "thermometer-season",
      body: {
        name: "Thermometer",
        place: "Invented school",
        first_day: new Date(Date.now() - 20 * 86_400_000).toISOString().slice(0, 10),
        volume_l: 200,
        species: "brook_trout",
        target_c: 8,
        elevation_m: 300,
        time_zone: "America/Denver",
      },
    }),
  });
  assert.equal(made.status, 201, await made.text());
}

before(async () => {
  const prepare = (data) => {
    writeFileSync(join(data, "temperature"), "8125\n");
    const lines = [
      `file = ${join(data, "temperature")}`,
      "every_seconds = 5",
      "webhook_url = http://127.0.0.1:9/invented",
      "",
    ];
    writeFileSync(join(data, "thermometer.conf"), lines.join("\n"), { mode: 0o600 });
  };
  [redd, bare, browser] = await Promise.all([startRedd("own", prepare), startRedd("own"), startBrowser()]);
  await Promise.all([setUp(redd.address), setUp(bare.address)]);
});

after(async () => {
  await browser?.close();
  await Promise.all([redd?.stop(), bare?.stop()]);
});

const sound = async (page, name) => {
  assert.deepEqual(await axeFindings(page), []);
  assert.equal(await sticksOut(page), 0);
  await shot(page, name);
};

test("without a sensor the page says how one is set up", async () => {
  const { page, complaints, close } = await openPage(browser, bare.address, { size: sizes.phone });
  await go(page, "heat");
  await page.getByRole("link", { name: "Live thermometer" }).click();
  await page.getByText("No thermometer is set up.").waitFor();
  assert.equal(await page.getByRole("region", { name: "Thermometer" }).count(), 0);
  await sound(page, "thermometer-1-none");
  assert.deepEqual(complaints, []);
  await close();
});

test("a working one shows what it reads, and a failed test says why", async () => {
  const { page, complaints, close } = await openPage(browser, redd.address, { size: sizes.desktop });
  await page.getByText("The sensor reads 8.1 °C").waitFor();
  await page.getByRole("link", { name: "Thermometer", exact: true }).click();
  await page.getByText("It calls below 6.0 °C and above 10.0 °C.").waitFor();
  await page.getByRole("button", { name: "Send a test alarm" }).click();
  await page
    .locator("main")
    .getByText(/^Web address: not sent\. ./)
    .first()
    .waitFor();
  await page.getByLabel("Ring on this device").check();
  await sound(page, "thermometer-2-working");
  assert.deepEqual(complaints, []);
  await close();
});

for (const [name, size, scheme] of [
  ["phone", sizes.phone, "light"],
  ["desktop", sizes.desktop, "dark"],
])
  test(`an alarm stands on every screen until somebody knows, ${name}`, async () => {
    const { page, complaints, close } = await openPage(browser, redd.address, { size, scheme });
    const alarm = {
      alarm: "too_warm",
      sentence: "The water reads 12.5 °C, above the limit of 10.0 °C. Go and look: measure it by hand.",
      since: new Date().toISOString(),
      quiet: false,
    };
    const answer = async (route) => {
      if (route.request().method() === "POST") alarm.quiet = true;
      const real = await (await fetch(`${redd.address}api/thermometer`)).json();
      await route.fulfill({ json: { thermometer: { ...real.thermometer, alarms: [alarm] } } });
    };
    await page.route("**/api/thermometer**", answer);
    await page.reload();
    const banner = page.getByRole("region", { name: "Thermometer" });
    await banner
      .getByRole("alert")
      .getByText(/above the limit/)
      .waitFor();
    await sound(page, `thermometer-3-alarm-${name}`);
    await go(page, "log");
    await banner.getByText(/above the limit/).waitFor();
    await banner.getByRole("button", { name: "I know of it" }).click();
    await banner.getByText("Somebody knows of it.").waitFor();
    assert.equal(await banner.getByRole("button").count(), 0);
    await sound(page, `thermometer-4-known-${name}`);
    assert.deepEqual(complaints, []);
    await close();
  });

test("where the server does not answer, nothing is called all right", async () => {
  const { page, close } = await openPage(browser, redd.address, { size: sizes.phone });
  await page.clock.install();
  await page.reload();
  await page.getByText("The sensor reads 8.1 °C").waitFor();
  await page.route("**/api/thermometer", (route) => route.abort());
  await page.clock.fastForward(21_000);
  await page.getByText(/the thermometer is not known here now/).waitFor();
  assert.equal(await page.getByText("The sensor reads 8.1 °C").count(), 0);
  await close();
});
