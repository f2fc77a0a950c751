// How long a crowd waits, on loopback: 8 clients that read and write for a minute, alone and beside 500 connections that
// never finish; one client alone is the baseline.
//   REDD_PROGRAM=build/bench/bin/redd node bench/load_bench.mjs [seconds]
import { startRedd } from "../tests/browser/support/redd.mjs";
import { begin, crowd, quantile, residentMib, unfinished } from "../tests/load/crowd.mjs";

const seconds = Number(process.argv[2] ?? 60);
for (const { clients, rude } of [
  { clients: 1, rude: 0 },
  { clients: 8, rude: 0 },
  { clients: 8, rude: 500 },
]) {
  const redd = await startRedd("empty");
  await begin(redd.address);
  const never = await unfinished(redd.address, rude);
  const seen = await crowd(redd.address, { clients, seconds });
  console.log(
    `${clients} clients, ${rude} that never finish, ${seconds} s: ${seen.requests} requests, ${seen.entries} entries, ${seen.wrong.length} wrong, ${residentMib(redd.pid()).toFixed(0)} MiB`,
  );
  for (const line of seen.wrong.slice(0, 5)) console.log(`  WRONG ${line}`);
  for (const [kind, times] of [...seen.taken].sort())
    console.log(
      `  ${kind}: median ${quantile(times, 0.5).toFixed(1)} ms, p99 ${quantile(times, 0.99).toFixed(1)} ms, longest ${times.at(-1).toFixed(1)} ms (${times.length})`,
    );
  never.end();
  await redd.stop();
}
