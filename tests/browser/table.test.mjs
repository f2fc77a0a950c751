// A log kept in a spreadsheet is brought in: looked at, its open questions answered, kept; brought in again, nothing is doubled.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { axeFindings, go, openPage, shot, sizes, startBrowser, startRedd, sticksOut } from "./support/redd.mjs";

let redd;
let browser;

const dayText = (back) => new Date(Date.now() - back * 86_400_000).toISOString().slice(0, 10);

before(async () => {
  [redd, browser] = await Promise.all([startRedd("own"), startBrowser()]);
  const post = (kind, body) =>
    fetch(`${redd.address}api/records`, {
      method: "POST",
      headers: { "content-type": "application/json", origin: redd.address.slice(0, -1) },
      body: JSON.stringify({ kind, author: "Class", entry_key: `table-${kind}`, body }),
    });
  const made = await post("season_setup", {
    name: "Table",
    place: "Invented school",
    first_day: dayText(60),
    volume_l: 200,
    species: "brook_trout",
    target_c: 8,
    elevation_m: 300,
    time_zone: "America/Denver",
  });
  assert.equal(made.status, 201, await made.text());
});

after(async () => {
  await browser?.close();
  await redd?.stop();
});

const log = () =>
  [
    "Log of our tank (invented)",
    "Day;Water temp (°C);pH;Nitrate;Dead eggs;Mood;Notes",
    `${dayText(21)};8,1;7,2;20;0;good;all calm`,
    `${dayText(14)};8,3;7,1;30;3;;`,
    `${dayText(7)};8,2;71;30;2;;`,
    "",
  ].join("\r\n");

for (const [name, size, scheme] of [
  ["phone", sizes.phone, "light"],
  ["desktop", sizes.desktop, "dark"],
])
  test(`a spreadsheet's log is taken in, ${name}`, async () => {
    const { page, complaints, close } = await openPage(browser, redd.address, { size, scheme });
    await go(page, "log");
    await page.getByRole("link", { name: "Bring in a table" }).click();
    await page.getByRole("heading", { level: 1, name: "Bring in a table" }).waitFor();
    await page
      .getByLabel("File (CSV or text)")
      .setInputFiles({ name: "tank.csv", mimeType: "text/csv", buffer: Buffer.from(log()) });
    await page.getByText("Answer the open questions above first.").waitFor();
    assert.deepEqual(await axeFindings(page), []);
    assert.equal(await sticksOut(page), 0);
    await shot(page, `table-1-${name}-asked`);
    assert.ok(await page.getByRole("button", { name: /^Keep \d+ entries$/ }).isDisabled());
    await page.getByLabel("Holds (Nitrate)").selectOption("nitrate_as_no3");
    await page.getByText("as you said").waitFor();
    await page.getByLabel("Leave the refused one out and keep the rest").check();
    assert.deepEqual(await axeFindings(page), []);
    await shot(page, `table-2-${name}-settled`);
    await page.getByRole("button", { name: /^Keep \d+ entries$/ }).click();
    await page
      .getByText(name === "phone" ? /^Kept: \d+ entries\./ : /^Nothing new\. \d+ were in the log already\./)
      .first()
      .waitFor();
    await page.getByRole("link", { name: "See the log" }).click();
    await page.getByText("all calm").first().waitFor();
    assert.deepEqual(complaints, []);
    await close();
  });

test("what can't be read says so, and a logger's file asks for its unit", async () => {
  const { page, complaints, close } = await openPage(browser, redd.address, { size: sizes.phone });
  await go(page, "copies/table");
  await page.getByRole("button", { name: "Look at it" }).click();
  await page.getByRole("link", { name: "Choose a file, or paste a table." }).waitFor();
  await page.getByLabel("Or paste the table").fill("no table at all");
  await page.getByRole("button", { name: "Look at it" }).click();
  await page
    .getByRole("alert")
    .getByText(/not a table/)
    .waitFor();
  const rows = Array.from(
    { length: 6 },
    (_, i) => `${dayText(9)} ${String(8 + 2 * i).padStart(2, "0")}:00,${8 + i / 10}`,
  );
  await page.getByLabel("Or paste the table").fill(["time,value", ...rows].join("\n"));
  await page.getByRole("button", { name: "Look at it" }).click();
  await page.getByLabel("Unit of the temperatures").selectOption("c");
  await page.getByRole("button", { name: "Keep 6 entries" }).click();
  await page.getByText("Kept: 6 entries.").first().waitFor();
  assert.deepEqual(
    complaints.filter((one) => !/422/.test(one)),
    [],
  );
  await close();
});
