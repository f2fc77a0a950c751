// Every component in every example state, worst cases included, at the smallest width and at the desk, light and dark.
import assert from "node:assert/strict";
import { createServer } from "node:http";
import { execFileSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { extname, join, normalize } from "node:path";
import { fileURLToPath } from "node:url";
import { after, before, test } from "node:test";
import { axeFindings, shot, sizes, startBrowser, sticksOut } from "./support/redd.mjs";

const types = { ".html": "text/html", ".js": "text/javascript", ".css": "text/css", ".svg": "image/svg+xml" };
let folder;
let server;
let browser;

before(async () => {
  folder = mkdtempSync(join(tmpdir(), "redd-gallery-"));
  const web = fileURLToPath(new URL("../../web", import.meta.url));
  execFileSync(
    process.execPath,
    [join(web, "node_modules/vite/bin/vite.js"), "build", "--mode", "gallery", "--outDir", folder, "--emptyOutDir"],
    {
      cwd: web,
      stdio: "pipe",
    },
  );
  server = createServer((request, response) => {
    try {
      const path = normalize(new URL(request.url, "http://gallery").pathname);
      response.setHeader("content-type", types[extname(path)] ?? "text/plain");
      response.end(readFileSync(join(folder, path)));
    } catch {
      response.statusCode = 404;
      response.end();
    }
  });
  await new Promise((resolve) => server.listen(0, "127.0.0.1", resolve));
  browser = await startBrowser();
});

after(async () => {
  await browser?.close();
  server?.close();
  if (folder) rmSync(folder, { recursive: true, force: true });
});

for (const sizeName of ["small", "desktop"]) {
  for (const scheme of ["light", "dark"]) {
    test(`gallery, ${sizeName}, ${scheme}`, async () => {
      const context = await browser.newContext({ viewport: sizes[sizeName], colorScheme: scheme, locale: "en-GB" });
      const page = await context.newPage();
      const complaints = [];
      page.on("pageerror", (error) => complaints.push(error.message));
      await page.goto(`http://127.0.0.1:${server.address().port}/gallery.html`);
      await page.locator("[data-example]").last().waitFor({ state: "attached" });
      await page.waitForTimeout(200);
      // Many copies of a screen's parts stand on one sheet: rules about the page as a whole do not apply to it.
      const whole = /^(landmark|region|heading-order|page-has|duplicate-id|empty-heading)/;
      assert.deepEqual(
        (await axeFindings(page)).filter((line) => !whole.test(line)),
        [],
      );
      assert.equal(await sticksOut(page), 0);
      assert.deepEqual(complaints, []);
      await shot(page, `gallery-${sizeName}-${scheme}`);
      await context.close();
    });
  }
}
