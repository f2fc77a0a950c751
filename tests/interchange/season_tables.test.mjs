// The season's CSV tables before a validator that knows nothing of Redd: "datapackage", the JavaScript library of the Data Package standard's own
// makers (its version 1, which version 2 stays compatible with), and the .zip before JSZip.
// Run with: REDD_PROGRAM=… node --test tests/interchange
import assert from "node:assert/strict";
import { execFileSync } from "node:child_process";
import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { createRequire } from "node:module";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { after, before, test } from "node:test";

const fromPage = createRequire(new URL("../../web/package.json", import.meta.url));
const { Package } = fromPage("datapackage");
const JSZip = createRequire(fromPage.resolve("datapackage"))("jszip");

const program = process.env.REDD_PROGRAM;
const root = mkdtempSync(join(tmpdir(), "redd-tables-"));
const tables = join(root, "tables");
const redd = (...words) => execFileSync(program, words, { encoding: "utf8" });

before(() => {
  if (!program) throw new Error("Set REDD_PROGRAM to the program redd.");
  redd("export", "--demo", "--data", root, "--csv", tables);
  redd("export", "--demo", "--data", root, "--csv", join(root, "tables.zip"));
});
after(() => rmSync(root, { recursive: true, force: true }));

test("the description is valid, and so is every row: types, ranges, words, keys", async () => {
  const found = await Package.load(join(tables, "datapackage.json"), { strict: true });
  assert.ok(found.valid, found.errors.join("\n"));
  assert.ok(found.resources.length > 15, "the invented season has most kinds of record");
  for (const resource of found.resources) {
    const rows = await resource.read({ keyed: true, relations: true });
    assert.ok(rows.length > 0, resource.name);
    for (const field of resource.schema.fields) assert.ok(field.descriptor.description, `${resource.name}.${field.name}`);
  }
});

test("the validator sees what is wrong", async () => {
  const path = join(tables, "data/temperature.csv");
  const right = readFileSync(path, "utf8");
  try {
    for (const [from, to] of [
      [/,tank\r\n/, ",kettle\r\n"],
      [/\r\n\d+,/, "\r\n999999,"],
      [/\r\n(\d+),[^,]+/, "\r\n$1,warm"],
    ]) {
      assert.match(right, from);
      writeFileSync(path, right.replace(from, to));
      const found = await Package.load(join(tables, "datapackage.json"), { strict: true });
      await assert.rejects(found.getResource("temperature").read({ keyed: true, relations: true }), String(from));
    }
  } finally {
    writeFileSync(path, right);
  }
});

test("the .zip opens elsewhere and holds the same files", async () => {
  const zip = await JSZip.loadAsync(readFileSync(join(root, "tables.zip")), { checkCRC32: true });
  const names = ["datapackage.json", ...readdirSync(join(tables, "data")).map((name) => `data/${name}`)];
  assert.deepEqual(Object.keys(zip.files).sort(), names.sort());
  for (const name of names) assert.deepEqual(await zip.file(name).async("nodebuffer"), readFileSync(join(tables, name)));
});
