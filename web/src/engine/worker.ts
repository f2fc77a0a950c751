// The worker: loads the module when told where it is, then answers one question after the other.
// A question that breaks the module ends it; the page starts a new worker.
import { startCore, type AskCore } from "./core";
import type { CoreFile, FromWorker, ToWorker } from "./protocol";

const say = (message: FromWorker) => (self as unknown as Worker).postMessage(message);

async function moduleOf(file: CoreFile): Promise<WebAssembly.Module> {
  if (typeof file !== "string") return WebAssembly.compile(file);
  const response = await fetch(file);
  if (!response.ok) throw new Error(`${file}: status ${response.status}`);
  return WebAssembly.compile(await response.arrayBuffer());
}

let core: AskCore | null = null;
/** Questions that come while the module loads wait for it. */
let loaded: Promise<void> | null = null;

async function load(file: CoreFile): Promise<void> {
  try {
    core = await startCore(await moduleOf(file));
    say({ ready: true });
  } catch (problem) {
    say({ unusable: String(problem) });
  }
}

async function answer(id: number, question: string): Promise<void> {
  await loaded;
  try {
    if (!core) throw new Error("there is no module");
    say({ id, answer: core(question) });
  } catch (problem) {
    core = null;
    say({ id, failed: String(problem) });
  }
}

self.onmessage = (event: MessageEvent<ToWorker>) => {
  const message = event.data;
  if ("load" in message) loaded = load(message.load);
  else void answer(message.id, message.question);
};
