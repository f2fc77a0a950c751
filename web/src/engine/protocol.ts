// What page and worker say to each other. One message a question, one a reply, in any order.

/** Where the module is: its address, or its bytes (an edition that carries it inside). */
export type CoreFile = string | ArrayBuffer;

export type ToWorker = { load: CoreFile } | { id: number; question: string };
/** `answer` is the core's own JSON; `failed` says what broke, for a report and not for the keeper. */
export type FromWorker =
  { ready: true } | { unusable: string } | { id: number; answer: string } | { id: number; failed: string };
