// Loads build/wasm/redd_core.wasm in Node and asks it questions, as the page would.
import { readFile } from 'node:fs/promises';

// The module writes only when it is about to stop (a broken promise); that text goes to the error stream.
function hostFunctions(memoryOf) {
  return {
    wasi_snapshot_preview1: {
      fd_write(file, vectors, count, writtenAt) {
        const view = new DataView(memoryOf().buffer);
        let written = 0;
        for (let index = 0; index < count; index += 1) {
          const at = view.getUint32(vectors + 8 * index, true);
          const length = view.getUint32(vectors + 8 * index + 4, true);
          process.stderr.write(Buffer.from(memoryOf().buffer, at, length));
          written += length;
        }
        view.setUint32(writtenAt, written, true);
        return 0;
      },
      fd_seek: () => 0,
      fd_close: () => 0,
      fd_fdstat_get: () => 0,
      proc_exit(code) {
        throw new Error(`the module stopped with code ${code}`);
      },
    },
  };
}

export async function loadCore(path) {
  let memory;
  const { instance } = await WebAssembly.instantiate(await readFile(path), hostFunctions(() => memory));
  const core = instance.exports;
  memory = core.memory;
  core._initialize();

  // One question (text) to one answer (text).
  return function ask(question) {
    const bytes = new TextEncoder().encode(question);
    const at = core.redd_alloc(bytes.length);
    new Uint8Array(memory.buffer, at, bytes.length).set(bytes);
    const reply = core.redd_call(at, bytes.length);
    const length = new DataView(memory.buffer).getUint32(reply, true);
    const text = new TextDecoder().decode(new Uint8Array(memory.buffer, reply + 4, length));
    core.redd_free(at);
    core.redd_free(reply);
    return text;
  };
}
