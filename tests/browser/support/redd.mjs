// Starts the program on a free port with a data folder of its own, and a browser that looks at it. Every test file owns
// both and puts them away. REDD_PROGRAM (or REDD_BINARY) names the program; REDD_SHOTS a folder for screenshots.
import { spawn } from "node:child_process";
import { mkdirSync, mkdtempSync, rmSync } from "node:fs";
import { createServer } from "node:net";
import { createRequire } from "node:module";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { readFileSync } from "node:fs";

const fromPage = createRequire(new URL("../../../web/package.json", import.meta.url));
const { chromium } = fromPage("playwright-core");
const axeSource = readFileSync(fromPage.resolve("axe-core/axe.min.js"), "utf8");

const program = process.env.REDD_PROGRAM ?? process.env.REDD_BINARY;
const patienceMs = 60_000;

export const sizes = {
  phone: { width: 390, height: 844 },
  small: { width: 360, height: 740 },
  desktop: { width: 1280, height: 800 },
  projector: { width: 1920, height: 1080 },
};

async function freePort() {
  const server = createServer();
  await new Promise((resolve) => server.listen(0, "127.0.0.1", resolve));
  const { port } = server.address();
  await new Promise((resolve) => server.close(resolve));
  return port;
}

/** The program serving a demo or an empty season. `leave()` ends it as a power cut would, `back()` starts it anew on the
 * same data and address. `prepare` gets the folder of its data before it runs. */
export async function startRedd(kind = "demo", prepare = () => undefined) {
  if (!program) throw new Error("Set REDD_PROGRAM to the program redd.");
  const data = mkdtempSync(join(tmpdir(), "redd-browser-"));
  prepare(data);
  const port = await freePort();
  const address = `http://127.0.0.1:${port}/`;
  let child = null;

  async function back() {
    const args = [kind === "demo" ? "demo" : "serve", "--port", String(port), "--data", data, "--no-browser"];
    child = spawn(program, args, { stdio: ["ignore", "pipe", "pipe"] });
    let said = "";
    for (const stream of [child.stdout, child.stderr]) stream.on("data", (part) => (said += part));
    const until = Date.now() + patienceMs;
    for (;;) {
      if (child.exitCode !== null) throw new Error(`redd stopped: ${said}`);
      try {
        if ((await fetch(`${address}api/season`)).ok) break;
      } catch {
        // Not listening yet.
      }
      if (Date.now() > until) throw new Error(`redd did not answer: ${said}`);
      await new Promise((resolve) => setTimeout(resolve, 50));
    }
  }

  async function end(signal) {
    if (child.exitCode !== null || child.signalCode !== null) return;
    const gone = new Promise((resolve) => child.once("exit", resolve));
    child.kill(signal);
    await gone;
  }

  await back();
  return {
    address,
    back,
    pid: () => child.pid,
    leave: () => end("SIGKILL"),
    async stop() {
      await end("SIGTERM");
      rmSync(data, { recursive: true, force: true });
    },
  };
}

export async function startBrowser() {
  return chromium.launch({
    executablePath: process.env.CHROMIUM ?? "/usr/bin/chromium",
    args: [
      "--no-sandbox",
      "--disable-gpu",
      "--disable-quic",
      "--no-first-run",
      "--disable-background-networking",
      "--disable-component-update",
      "--disable-sync",
    ],
  });
}

/** A fresh window. `complaints` collects console errors, page errors, and requests that leave the program. */
export async function openPage(browser, address, { size = sizes.desktop, scheme = "light", ...more } = {}) {
  const context = await browser.newContext({ viewport: size, colorScheme: scheme, locale: "en-GB", ...more });
  context.setDefaultTimeout(patienceMs);
  const page = await context.newPage();
  const complaints = [];
  page.on("console", (message) => {
    if (message.type() === "error" || message.type() === "warning") complaints.push(message.text());
  });
  page.on("pageerror", (error) => complaints.push(error.message));
  page.on("request", (request) => {
    if (!request.url().startsWith(address) && !request.url().startsWith("data:"))
      complaints.push(`asked ${request.url()}`);
  });
  await page.goto(address);
  await page.locator("main h1").waitFor({ state: "attached" });
  return { page, complaints, close: () => context.close() };
}

/** Goes to a screen by its address and waits until it stands. */
export async function go(page, screen) {
  await page.evaluate((hash) => (location.hash = hash), `#/${screen}`);
  await page.locator("main h1").waitFor({ state: "attached" });
  await settled(page);
}

/** Waits until the page has its answer and charts have taken their width. */
export async function settled(page) {
  await page.locator("main[aria-busy='false']").waitFor();
  await page.waitForFunction(() => !document.querySelector("main [aria-busy='true']"));
  await page.evaluate(() => new Promise((resolve) => requestAnimationFrame(() => requestAnimationFrame(resolve))));
}

export async function shot(page, name) {
  const folder = process.env.REDD_SHOTS;
  if (!folder) return;
  mkdirSync(folder, { recursive: true });
  await page.screenshot({ path: join(folder, `${name}.png`), fullPage: true });
}

/** What axe-core finds against WCAG 2.2 A and AA and its own good practice, as readable lines. */
export async function axeFindings(page) {
  await page.evaluate(axeSource);
  const found = await page.evaluate(() =>
    globalThis.axe.run(document, {
      runOnly: ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"],
    }),
  );
  return found.violations.flatMap((rule) =>
    rule.nodes.map((node) => `${rule.id}: ${node.target.join(" ")}: ${node.failureSummary?.replace(/\s+/g, " ")}`),
  );
}

/** How far the page sticks out to the right, in pixels. */
export async function sticksOut(page) {
  return page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
}
