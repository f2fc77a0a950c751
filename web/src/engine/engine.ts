// The core inside the page: askEngine({"calc": …}) asks it what src/engine/engine.h says can be asked. It runs in a worker, so
// that the page never waits; nothing is loaded before the first question. Every question ends in an answer or in
// problems in plain words, like a question to the server (api.ts), worded for the reader of the page.
import type { Problem } from "../contract";
import type { Outcome } from "../api";
import { t } from "../messages";
import { readerParameters } from "../state/reader.svelte";
import type { CoreFile, FromWorker, ToWorker } from "./protocol";

/** How an edition of the page brings worker and module. */
export interface EngineHome {
  makeWorker(): Worker;
  core(): CoreFile;
}

export type Engine = <T>(question: object) => Promise<Outcome<T>>;

/** Longer than any honest answer takes, first loading included; whoever waits longer is told, and the worker made anew. */
const patienceMs = 60_000;

interface Waiting {
  settle(outcome: Outcome<never> | { ok: true; value: unknown }): void;
  timer: ReturnType<typeof setTimeout>;
}

const problem = (code: string, sentence: string): Outcome<never> => ({
  ok: false,
  problems: [{ code, field: "", sentence }],
});

function outcomeOf(text: string): Outcome<unknown> {
  const answer = JSON.parse(text) as { problems?: Problem[] };
  return answer.problems ? { ok: false, problems: answer.problems } : { ok: true, value: answer };
}

/** One worker at a time. After a trap or too long a wait the next question starts a new one. */
export function engineAt(home: EngineHome): Engine {
  let worker: Worker | null = null;
  let lastId = 0;
  const waiting = new Map<number, Waiting>();

  function settle(id: number, outcome: Outcome<unknown>): void {
    const one = waiting.get(id);
    if (!one) return;
    waiting.delete(id);
    clearTimeout(one.timer);
    one.settle(outcome);
  }

  /** Lets the worker go and tells all who wait for it. */
  function give(up: Outcome<never>): void {
    worker?.terminate();
    worker = null;
    for (const id of [...waiting.keys()]) settle(id, up);
  }

  function take(message: FromWorker): void {
    if ("ready" in message) return;
    if ("unusable" in message) {
      console.error(message.unusable);
      give(problem("no_engine", t.engine.unusable));
    } else if ("failed" in message) {
      console.error(message.failed);
      give(problem("engine_stopped", t.engine.stopped));
    } else {
      settle(message.id, outcomeOf(message.answer));
    }
  }

  function begun(): Worker {
    if (worker) return worker;
    const own = home.makeWorker();
    own.onmessage = (event: MessageEvent<FromWorker>) => {
      if (own === worker) take(event.data);
    };
    own.onerror = () => {
      if (own === worker) give(problem("no_engine", t.engine.unusable));
    };
    worker = own;
    own.postMessage({ load: home.core() } satisfies ToWorker);
    return own;
  }

  return <T>(question: object) =>
    new Promise<Outcome<T>>((resolve) => {
      if (typeof WebAssembly === "undefined" || typeof Worker === "undefined")
        return resolve(problem("no_engine", t.engine.unusable));
      try {
        const own = begun();
        const id = ++lastId;
        const timer = setTimeout(() => give(problem("engine_slow", t.engine.slow)), patienceMs);
        waiting.set(id, { settle: (outcome) => resolve(outcome as Outcome<T>), timer });
        own.postMessage({
          id,
          question: JSON.stringify({ ...question, reader: readerParameters() }),
        } satisfies ToWorker);
      } catch {
        // Browsers that forbid workers throw here.
        worker = null;
        resolve(problem("no_engine", t.engine.unusable));
      }
    });
}

let pageEngine: Engine = engineAt({
  makeWorker: () => new Worker(new URL("./worker.ts", import.meta.url), { type: "module", name: "redd-engine" }),
  core: () => new URL("assets/redd_core.wasm", document.baseURI).href,
});

/** The engine of the page. As the server sends it worker and module are files beside the script. */
export const askEngine: Engine = (question) => pageEngine(question);

/** For the edition that carries both inside. */
export function useEngine(other: Engine): void {
  pageEngine = other;
}
