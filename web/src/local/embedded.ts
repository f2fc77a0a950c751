// What the edition in one file carries besides the page: the core, its worker, kits and the invented season. The server
// composes that file (src/server/single_file.h); on a page that a server sends there is none of it.
import { startCore } from "../engine/core";
import type { EngineHome } from "../engine/engine";
import type { FromWorker, ToWorker } from "../engine/protocol";
import type { Kit } from "../contract";

/** Kits to start from and the day the invented season opens on. */
export interface Shelf {
  kits: Kit[];
  opening_day: string | null;
}

export interface Embedded {
  home: EngineHome;
  shelf: Shelf;
  /** Records of the invented season, one a line. */
  demo(): Promise<string>;
}

async function unpacked(id: string): Promise<ArrayBuffer> {
  const packed = Uint8Array.from(atob(document.getElementById(id)?.textContent?.trim() ?? ""), (c) => c.charCodeAt(0));
  const stream = new Blob([packed]).stream().pipeThrough(new DecompressionStream("gzip"));
  return new Response(stream).arrayBuffer();
}

/** Where a browser allows no worker, the core runs in the page itself: slower to touch, with the same answers. */
function workerInPage(): Worker {
  let core: Promise<(question: string) => string> | null = null;
  const own = {
    onmessage: null as ((event: { data: FromWorker }) => void) | null,
    onerror: null,
    terminate() {
      own.onmessage = null;
    },
    async postMessage(message: ToWorker) {
      const say = (data: FromWorker) => own.onmessage?.({ data });
      if ("load" in message) {
        core = WebAssembly.compile(message.load as ArrayBuffer).then(startCore);
        await core.then(
          () => say({ ready: true }),
          (problem: unknown) => say({ unusable: String(problem) }),
        );
        return;
      }
      // Between two questions the page may draw.
      await new Promise((resolve) => setTimeout(resolve));
      try {
        say({ id: message.id, answer: (await core)!(message.question) });
      } catch (problem) {
        say({ id: message.id, failed: String(problem) });
      }
    },
  };
  return own as unknown as Worker;
}

/** Null on a page that a server sends. */
export async function embedded(): Promise<Embedded | null> {
  if (!document.getElementById("redd-core")) return null;
  const [core, worker] = await Promise.all([unpacked("redd-core"), unpacked("redd-worker")]);
  const script = URL.createObjectURL(new Blob([worker], { type: "text/javascript" }));
  return {
    home: {
      makeWorker() {
        try {
          // A classic worker: modules from a blob are refused on pages from the disk.
          return new Worker(script, { name: "redd-engine" });
        } catch {
          return workerInPage();
        }
      },
      core: () => core,
    },
    shelf: JSON.parse(document.getElementById("redd-shelf")?.textContent ?? "null") as Shelf,
    demo: async () => new TextDecoder().decode(await unpacked("redd-demo")),
  };
}
