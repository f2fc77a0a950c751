// How a question of the page reaches whoever answers it: over the network to the server that sent the page, or to the
// core inside the page where there is no server (local/local_season.ts). api.ts asks through `transport` alone.
import { earlyAnswer, forgetEarlyAnswers } from "./early_answers";
import { readerHeaders } from "./state/reader.svelte";

export interface Reply {
  status: number;
  text: string;
}

export interface Transport {
  /** POST with a body, else GET. Rejects when nobody answers. */
  send(path: string, body: string | null): Promise<Reply>;
}

/** The second header is one that no other page can make a browser send to a server on the network. */
export const written = { "content-type": "application/json", "redd-page": "1" };
const patienceMs = 15_000;

export const network: Transport = {
  async send(path, body) {
    if (body !== null) forgetEarlyAnswers();
    const early = body === null ? await earlyAnswer(path, readerHeaders()) : null;
    if (early) return early;
    const response = await fetch(path, {
      method: body === null ? "GET" : "POST",
      headers: { ...readerHeaders(), ...(body === null ? {} : written) },
      body,
      signal: AbortSignal.timeout(patienceMs),
      cache: "no-store",
    });
    return { status: response.status, text: await response.text() };
  },
};

let current: Transport = network;

export const transport: Transport = { send: (path, body) => current.send(path, body) };

export function answerThrough(other: Transport): void {
  current = other;
}
