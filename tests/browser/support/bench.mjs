// Goes through a sitting at the bench as hands would: looks what the screen asks for, and does it. Time is the test's own
// (page.clock): waits pass at once.
import assert from "node:assert/strict";
import { axeFindings, sticksOut } from "./redd.mjs";

const seconds = (text) => text.split(":").reduce((sum, part) => 60 * sum + Number(part), 0);

/** Lets the page take in what was done: an answer of the core, and the next tick. */
export async function breathe(page) {
  await page.clock.runFor(250);
  await page.waitForTimeout(60);
  await page.clock.runFor(250);
}

export async function chooseTests(page, wanted) {
  for (const box of await page.getByRole("checkbox").all()) {
    const label = await box.locator("xpath=ancestor::label").innerText();
    await box.setChecked(wanted.some((name) => name.test(label)));
  }
  await planned(page);
}

/** Waits until the order of what is ticked now stands. */
export async function planned(page) {
  await page.waitForTimeout(100);
  await page.waitForFunction(() => !document.querySelector("main [aria-busy='true']"));
  await page.getByText(/pairs? of hands:/).waitFor();
}

/** What the screen asks for now: a word and what goes with it. */
export async function asked(page) {
  for (;;) {
    if (await page.getByRole("heading", { name: "Check, then save" }).count()) return { what: "check" };
    if (await page.getByRole("heading", { name: "Too late to read" }).count()) return { what: "late" };
    if (await page.getByRole("heading", { name: "Nothing to do until" }).count())
      return { what: "wait", seconds: seconds(await page.locator(".timer .digits").first().innerText()) };
    if (await page.getByRole("button", { name: /^We are / }).count()) return { what: "hand over" };
    if (await page.getByRole("button", { name: /^The colour has turned/ }).count()) return { what: "count" };
    if (await page.locator(".stone").count()) return { what: "card" };
    const of = page.locator(".drops .of");
    if (await of.count()) {
      const all = Number((await of.innerText()).replace(/\D/g, ""));
      const done = Number(await page.locator(".drops .count").innerText());
      if (done < all) return { what: "drops", left: all - done };
      return { what: "done" };
    }
    const start = page.getByRole("button", { name: /^Start \d/ });
    if (await start.count()) return { what: "mix", seconds: seconds((await start.innerText()).replace(/[^\d:]/g, "")) };
    if (await page.getByRole("button", { name: /^Done/ }).count()) return { what: "done" };
    await page.waitForTimeout(50);
  }
}

/** Does what is asked, until `stop(asked)` says so or the sitting is over. `read` gives what is pressed on a card, by its
 * place; `drops` how many fall until the colour turns. Every kind of screen is checked once. */
export async function goThrough(
  page,
  { read = async () => 2, drops = 4, stop = () => false, checked = new Set() } = {},
) {
  const seen = [];
  for (let step = 0; step < 120; step += 1) {
    const now = await asked(page);
    if (!checked.has(now.what)) {
      checked.add(now.what);
      assert.deepEqual(await axeFindings(page), [], `asked to ${now.what}`);
      assert.equal(await sticksOut(page), 0, `sticks out: ${now.what}`);
    }
    seen.push(now.what);
    if (now.what === "check" || (await stop(now))) return seen;
    if (now.what === "wait") await page.clock.fastForward(1000 * now.seconds + 500);
    if (now.what === "hand over") await page.getByRole("button", { name: /^We are / }).click();
    if (now.what === "drops") for (let drop = 0; drop < now.left; drop += 1) await page.locator(".drops .more").click();
    if (now.what === "count") {
      for (let drop = 0; drop < drops; drop += 1) await page.locator(".drops .more").click();
      await page.getByRole("button", { name: /^The colour has turned/ }).click();
    }
    if (now.what === "card") {
      await page
        .locator(".stone")
        .nth(await read(page))
        .click();
      await page.getByRole("button", { name: /^Keep: / }).click();
    }
    if (now.what === "mix") {
      await page.getByRole("button", { name: /^Start \d/ }).click();
      await page.clock.fastForward(1000 * now.seconds + 500);
    }
    if (now.what === "done" || now.what === "mix") await page.getByRole("button", { name: /^Done/ }).click();
    await breathe(page);
  }
  assert.fail(`the sitting does not end: ${seen.join(", ")}`);
}
