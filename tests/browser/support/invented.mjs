// The page, packed afresh, before the invented server of web/src/fixtures: for states that the program's demo does not
// come to, and for the order of what the page asks.
import { execFileSync } from "node:child_process";
import { copyFileSync, existsSync, mkdtempSync, readFileSync, rmSync } from "node:fs";
import { createServer } from "node:http";
import { tmpdir } from "node:os";
import { extname, join, normalize } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";

const web = fileURLToPath(new URL("../../../web", import.meta.url));
const types = {
  ".html": "text/html",
  ".js": "text/javascript",
  ".css": "text/css",
  ".svg": "image/svg+xml",
  ".wasm": "application/wasm",
};

/** `play(make)` puts another invented server in place: `make` gets the fixtures of filter, counts, feed, loading,
 * water_plan, bench and classroom and gives its options. */
export async function startInvented() {
  const folder = mkdtempSync(join(tmpdir(), "redd-invented-"));
  execFileSync(
    process.execPath,
    [join(web, "node_modules/vite/bin/vite.js"), "build", "--outDir", folder, "--emptyOutDir"],
    { cwd: web, stdio: "pipe" },
  );
  // The core that the page runs lies beside it in the tree.
  const core = join(web, "dist/assets/redd_core.wasm");
  if (existsSync(core)) copyFileSync(core, join(folder, "assets/redd_core.wasm"));
  const vite = await import(pathToFileURL(join(web, "node_modules/vite/dist/node/index.js")).href);
  const reader = await vite.createServer({
    root: web,
    configFile: false,
    appType: "custom",
    logLevel: "error",
    cacheDir: join(folder, ".cache"),
    server: { middlewareMode: true, hmr: false, ws: false, watch: null },
    optimizeDeps: { noDiscovery: true },
  });
  const { inventedServer } = await reader.ssrLoadModule("/src/fixtures/invented_server.ts");
  const fixtures = {};
  for (const name of ["filter", "counts", "feed", "loading", "water_plan", "bench", "classroom"])
    Object.assign(fixtures, await reader.ssrLoadModule(`/src/fixtures/${name}.ts`));
  let api = inventedServer();
  const server = createServer(async (request, response) => {
    let text = "";
    for await (const part of request) text += part;
    const path = normalize(new URL(request.url, "http://page").pathname);
    if (path.startsWith("/api/")) {
      const answer = api.answer(request.method, request.url, text);
      response.statusCode = answer.status;
      response.setHeader("content-type", "application/json");
      response.end(JSON.stringify(answer.body));
      return;
    }
    try {
      const file = path === "/" ? "/index.html" : path;
      response.setHeader("content-type", types[extname(file)] ?? "text/plain");
      response.end(readFileSync(join(folder, file)));
    } catch {
      response.statusCode = 404;
      response.end();
    }
  });
  await new Promise((resolve) => server.listen(0, "127.0.0.1", resolve));
  return {
    address: `http://127.0.0.1:${server.address().port}/`,
    play(make) {
      api = inventedServer(make(fixtures));
      return api;
    },
    async stop() {
      server.closeAllConnections();
      await new Promise((resolve) => server.close(resolve));
      await reader.close();
      rmSync(folder, { recursive: true, force: true });
    },
  };
}
