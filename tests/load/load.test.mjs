// Many clients at once, and many that never finish: no refusal, no entry lost or doubled, no memory without end.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";

import { startRedd } from "../browser/support/redd.mjs";
import { ask, begin, crowd, residentMib, unfinished } from "./crowd.mjs";

let redd;
before(async () => {
  redd = await startRedd("empty");
  await begin(redd.address);
});
after(() => redd.stop());

test("eight clients read and write at once: all answered, nothing lost, nothing doubled", async () => {
  const seen = await crowd(redd.address, { clients: 8, seconds: Number(process.env.REDD_LOAD_SECONDS ?? 5) });
  assert.deepEqual(seen.wrong, []);
  assert.ok(seen.entries > 8, `only ${seen.entries} entries were written`);
});

test("five hundred connections that never finish leave the others their answers", async () => {
  const rude = await unfinished(redd.address, 500);
  try {
    const seen = await crowd(redd.address, { clients: 2, seconds: 2 });
    assert.deepEqual(seen.wrong, []);
    assert.ok(seen.entries > 2);
  } finally {
    rude.end();
  }
  assert.equal((await ask(redd.address, "/api/season")).status, 200);
});

test("memory stays bounded: as many reads again ask for hardly more", async () => {
  const read = async () => {
    for (let n = 0; n < 40; n += 1) await ask(redd.address, ["/api/day", "/api/export", "/api/history"][n % 3]);
  };
  await read();
  const first = residentMib(redd.pid());
  await read();
  await read();
  // Arenas of the allocator grow a little in any order; a leak of these answers would be tens of MiB.
  assert.ok(residentMib(redd.pid()) < first + 24, `${first.toFixed(0)} MiB, then ${residentMib(redd.pid()).toFixed(0)} MiB`);
});
