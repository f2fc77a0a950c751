// A crowd at one server: clients that read and write at once and hold what they were told against what is kept; and
// clients that never finish what they send. Used by the test beside this file and by bench/load_bench.mjs.
import { readFileSync } from "node:fs";
import { request, Agent } from "node:http";
import { connect } from "node:net";

const dayMs = 24 * 3600 * 1000;
const daysAgo = (days) => new Date(Date.now() - days * dayMs).toISOString().replace(/\.\d+/, "");
const setup = {
  at: daysAgo(10),
  kind: "season_setup",
  author: "Office",
  body: { name: "Load", time_zone: "UTC", first_day: daysAgo(10).slice(0, 10), volume_l: 210, species: "brook_trout", target_c: 8 },
};
const reads = ["/api/season", "/api/day", "/api/history", "/api/kits", "/api/counts", "/api/export", "/"];
const bodies = [
  (n) => ({ kind: "note", body: { text: `Note ${n}` } }),
  (n) => ({ kind: "temperature", body: { temperature_c: 8 + (n % 20) / 10 } }),
];

/** One request by this agent. Out: status, text, milliseconds. */
export function ask(address, path, { agent, body, headers = {} } = {}) {
  const begun = performance.now();
  return new Promise((resolve, reject) => {
    const asked = request(
      new URL(path, address),
      {
        agent,
        method: body === undefined ? "GET" : "POST",
        headers: body === undefined ? headers : { "content-type": "application/json", ...headers },
      },
      (answer) => {
        const parts = [];
        answer.on("data", (part) => parts.push(part));
        answer.on("error", reject);
        answer.on("end", () =>
          resolve({ status: answer.statusCode, text: Buffer.concat(parts).toString(), ms: performance.now() - begun }),
        );
      },
    );
    asked.on("error", reject);
    asked.end(body === undefined ? undefined : JSON.stringify(body));
  });
}

export async function begin(address) {
  const answer = await ask(address, "/api/records", { body: setup });
  if (answer.status >= 300) throw new Error(`The season did not begin: ${answer.status} ${answer.text}`);
}

/** Repeats reads and writes until the time is over. Every fifth entry is sent twice, as after a lost answer.
 * Out: what each key was told, and how long each kind of request took. */
async function client(address, name, number, until) {
  const agent = new Agent({ keepAlive: true, maxSockets: 1 });
  const told = new Map();
  const taken = new Map();
  const wrong = [];
  const note = (kind, answer) => {
    taken.set(kind, [...(taken.get(kind) ?? []), answer.ms]);
    if (answer.status < 200 || answer.status >= 300) wrong.push(`${kind}: ${answer.status} ${answer.text.slice(0, 200)}`);
    return answer;
  };
  for (let n = 0; Date.now() < until; n += 1) {
    const key = `${name}-${number}-${n}`;
    const entry = { at: daysAgo(1), author: `Team ${number}`, entry_key: key, ...bodies[n % bodies.length](n) };
    for (let times = n % 5 === 0 ? 2 : 1; times > 0; times -= 1) {
      const kept = note("POST /api/records", await ask(address, "/api/records", { agent, body: entry }));
      if (kept.status >= 300) continue;
      const { id } = JSON.parse(kept.text);
      if (told.has(key) && told.get(key) !== id) wrong.push(`${key} was told two numbers: ${told.get(key)} and ${id}`);
      told.set(key, id);
    }
    const path = reads[(n + number) % reads.length];
    note(`GET ${path}`, await ask(address, path, { agent }));
  }
  agent.destroy();
  return { told, taken, wrong };
}

/** What the season holds by its own export, against what the clients were told. Out: what does not fit. */
async function againstExport(address, name, told) {
  const saved = JSON.parse((await ask(address, "/api/export")).text);
  const records = saved.resources.find((table) => table.name === "records").data;
  const kept = new Map();
  const wrong = [];
  for (const record of records) {
    if (!record.entry_key?.startsWith(`${name}-`)) continue;
    if (kept.has(record.entry_key)) wrong.push(`${record.entry_key} is kept twice`);
    kept.set(record.entry_key, record.id);
  }
  for (const [key, id] of told) if (kept.get(key) !== id) wrong.push(`${key} was told ${id}, kept is ${kept.get(key)}`);
  for (const key of kept.keys()) if (!told.has(key)) wrong.push(`${key} is kept and nobody was told`);
  return wrong;
}

/** Out: { entries, requests, wrong: [...], taken: Map of kind → milliseconds, sorted }. */
export async function crowd(address, { clients = 8, seconds = 5 } = {}) {
  const name = `crowd-${Date.now()}`;
  const until = Date.now() + seconds * 1000;
  const all = await Promise.all(Array.from({ length: clients }, (_, number) => client(address, name, number, until)));
  const told = new Map(all.flatMap((one) => [...one.told]));
  const taken = new Map();
  for (const one of all) for (const [kind, times] of one.taken) taken.set(kind, [...(taken.get(kind) ?? []), ...times]);
  for (const times of taken.values()) times.sort((a, b) => a - b);
  return {
    entries: told.size,
    requests: [...taken.values()].reduce((sum, times) => sum + times.length, 0),
    wrong: [...all.flatMap((one) => one.wrong), ...(await againstExport(address, name, told))],
    taken,
  };
}

export const quantile = (sorted, q) => sorted[Math.min(sorted.length - 1, Math.floor(sorted.length * q))];

const halves = [
  "",
  "GET /api/season HTTP/1.1\r\nHost: 127.0.0.1\r\nX-Wait: ",
  "POST /api/records HTTP/1.1\r\nHost: 127.0.0.1\r\nContent-Type: application/json\r\nContent-Length: 5000\r\n\r\n{",
];

/** Connections that send the beginning of a request and then a byte now and then. Out: end() closes them. */
export async function unfinished(address, count) {
  const { hostname, port } = new URL(address);
  const sockets = await Promise.all(
    Array.from(
      { length: count },
      (_, n) =>
        new Promise((resolve, reject) => {
          const socket = connect(Number(port), hostname, () => {
            socket.write(halves[n % halves.length]);
            resolve(socket);
          });
          socket.once("error", reject);
        }),
    ),
  );
  for (const socket of sockets) {
    socket.removeAllListeners("error");
    socket.on("error", () => {}); // the server may close it, that is its right
  }
  const drip = setInterval(() => sockets.forEach((socket) => socket.writable && socket.write("a")), 1000);
  return {
    end() {
      clearInterval(drip);
      for (const socket of sockets) socket.destroy();
    },
  };
}

/** Memory of a process that stays in RAM, MiB (Linux). */
export function residentMib(pid) {
  return Number(/VmRSS:\s+(\d+) kB/.exec(readFileSync(`/proc/${pid}/status`, "utf8"))[1]) / 1024;
}
