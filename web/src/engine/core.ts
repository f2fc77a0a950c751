// Runs the module redd_core.wasm: one question in JSON, one answer in JSON (src/engine/engine.h says what can be asked).
// Start at startCore(). Nothing here is the page's or the worker's alone.

interface CoreExports {
  memory: WebAssembly.Memory;
  _initialize(): void;
  redd_alloc(length: number): number;
  redd_free(at: number): void;
  redd_call(at: number, length: number): number;
}

export type AskCore = (question: string) => string;

/** What the module expects of its host. It writes only when it is about to stop: those words are kept in `said`. */
function hostFunctions(memory: () => WebAssembly.Memory, said: string[]): WebAssembly.Imports {
  const text = new TextDecoder();
  return {
    wasi_snapshot_preview1: {
      fd_write(_file: number, parts: number, count: number, writtenAt: number): number {
        const view = new DataView(memory().buffer);
        let written = 0;
        for (let at = parts; at < parts + 8 * count; at += 8) {
          const length = view.getUint32(at + 4, true);
          said.push(text.decode(new Uint8Array(memory().buffer, view.getUint32(at, true), length)));
          written += length;
        }
        view.setUint32(writtenAt, written, true);
        return 0;
      },
      fd_seek: () => 0,
      fd_close: () => 0,
      fd_fdstat_get: () => 0,
      proc_exit(code: number): never {
        throw new Error(`stopped with code ${code}`);
      },
    },
  };
}

/** Makes the module ready.
 *
 * Errors  throws when it cannot run here. A question that traps throws too; the module is then used up: start another. */
export async function startCore(module: WebAssembly.Module): Promise<AskCore> {
  const said: string[] = [];
  let core: CoreExports | null = null;
  const running = () => {
    if (!core) throw new Error("not started");
    return core;
  };
  const instance = await WebAssembly.instantiate(
    module,
    hostFunctions(() => running().memory, said),
  );
  core = instance.exports as unknown as CoreExports;
  core._initialize();
  return (question) => {
    const { memory, redd_alloc, redd_call, redd_free } = running();
    try {
      const bytes = new TextEncoder().encode(question);
      const at = redd_alloc(bytes.length);
      new Uint8Array(memory.buffer, at, bytes.length).set(bytes);
      const reply = redd_call(at, bytes.length);
      // Addresses above 2 GiB would come as negative numbers.
      const start = reply >>> 0;
      const length = new DataView(memory.buffer).getUint32(start, true);
      const answer = new TextDecoder().decode(new Uint8Array(memory.buffer, start + 4, length));
      redd_free(at);
      redd_free(reply);
      return answer;
    } catch (trap) {
      throw new Error([String(trap), ...said].join(" "));
    }
  };
}
