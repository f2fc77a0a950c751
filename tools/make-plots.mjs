// Draws the two pictures of docs/science/inference.md from what the benchmarks print.
//
//   REDD_CALIBRATION_SEASONS=300 REDD_CALIBRATION_CSV=calibration.csv build/bench/bin/bench_calibration
//   build/bench/bin/bench_posterior --benchmark_format=json > posterior.json
//   node tools/make-plots.mjs calibration.csv posterior.json
import { readFileSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";

const images = join(dirname(fileURLToPath(import.meta.url)), "../docs/images");
const [calibrationFile, posteriorFile] = process.argv.slice(2);
if (!calibrationFile || !posteriorFile) {
  console.error("usage: node tools/make-plots.mjs calibration.csv posterior.json");
  process.exit(2);
}

const picture = (width, height, title, desc, body) =>
  `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${width} ${height}" role="img" font-family="sans-serif" font-size="11">
<title>${title}</title>
<desc>${desc}</desc>
<rect width="100%" height="100%" fill="white"/>
${body.join("\n")}
</svg>
`;
const text = (x, y, words, anchor = "start", more = "") => `<text x="${x}" y="${y}" text-anchor="${anchor}"${more}>${words}</text>`;

/** Histograms of ranks; the grey band holds 99 of 100 counts of an even distribution (normal approximation). */
function drawCalibration() {
  const ranks = new Map();
  for (const line of readFileSync(calibrationFile, "utf8").trim().split("\n").slice(1)) {
    const [, what, fraction] = line.split(",");
    if (!ranks.has(what)) ranks.set(what, []);
    ranks.get(what).push(Number(fraction));
  }
  const seasons = Math.max(...[...ranks.values()].map((r) => r.length));
  const body = [];
  let i = 0;
  for (const [what, fractions] of ranks) {
    const x = 15 + 210 * (i % 5), base = 90 + 100 * Math.floor(i / 5), counts = new Array(10).fill(0);
    for (const f of fractions) counts[Math.min(9, Math.floor(f * 10))] += 1;
    const mean = fractions.length / 10, band = 2.576 * Math.sqrt(fractions.length * 0.1 * 0.9), inside = fractions.filter((f) => f >= 0.05 && f <= 0.95).length / fractions.length;
    body.push(text(x, base - 64, `${what.replaceAll("_", " ")} (${inside.toFixed(2)})`));
    body.push(`<rect x="${x}" y="${(base - mean - band).toFixed(1)}" width="180" height="${(2 * band).toFixed(1)}" fill="#ddd"/>`);
    counts.forEach((c, k) => body.push(`<rect x="${x + 2 + 18 * k}" y="${base - c}" width="14" height="${c}" fill="#26566b"/>`));
    body.push(`<path d="M${x} ${base}h180" stroke="#333"/>`);
    i += 1;
  }
  const rows = Math.ceil(i / 5);
  writeFileSync(join(images, "calibration.svg"), picture(1070, 24 + 100 * rows, `Ranks of the truth among posterior draws, ${seasons} simulated seasons`,
    `${i} histograms of ten classes. Grey bands hold 99 of 100 counts of an even distribution; in brackets the share of truths inside the central 90 %.`, body));
}

/** Seconds of a whole season against particles, weeks and tests a sitting, the other two held. */
function drawCost() {
  const found = JSON.parse(readFileSync(posteriorFile, "utf8")).benchmarks.filter((b) => b.name.startsWith("WholeSeason/"))
    .map((b) => ({ ...Object.fromEntries([...b.name.matchAll(/(weeks|particles|tests):(\d+)/g)].map((m) => [m[1], Number(m[2])])), seconds: b.real_time / 1000 }));
  const usual = { weeks: 40, particles: 2048, tests: 6 };
  const body = [];
  Object.keys(usual).forEach((by, panel) => {
    const points = found.filter((f) => Object.keys(usual).every((k) => k === by || f[k] === usual[k])).sort((a, b) => a[by] - b[by]);
    const x0 = 50 + 340 * panel, y0 = 220, width = 270, height = 170, most = Math.max(...points.map((p) => p[by])), top = Math.ceil(Math.max(...points.map((p) => p.seconds)));
    const at = (p) => [(x0 + (width * p[by]) / most).toFixed(1), (y0 - (height * p.seconds) / top).toFixed(1)];
    const held = Object.keys(usual).filter((k) => k !== by).map((k) => `${usual[k]} ${k}`).join(", ");
    body.push(text(x0, 22, `Seconds by ${by === "tests" ? "tests a sitting" : by}`, "start", ' font-weight="bold"'), text(x0, 38, held));
    for (let tick = 0; tick <= top; tick += top > 4 ? 2 : top > 1 ? 0.5 : 0.25) {
      const y = y0 - (height * tick) / top;
      body.push(`<path d="M${x0} ${y.toFixed(1)}h${width}" stroke="#ddd"/>`, text(x0 - 6, (y + 4).toFixed(1), tick, "end"));
    }
    body.push(`<polyline points="${points.map((p) => at(p).join(",")).join(" ")}" fill="none" stroke="#26566b" stroke-width="2"/>`);
    for (const p of points) {
      const [x, y] = at(p);
      body.push(`<circle cx="${x}" cy="${y}" r="4" fill="#26566b"/>`, text(x, y0 + 16, p[by], "middle"), text(x, (Number(y) - 8).toFixed(1), p.seconds.toFixed(2), "middle"));
    }
    body.push(`<path d="M${x0} ${y0}h${width}" stroke="#333"/>`);
  });
  writeFileSync(join(images, "posterior_cost.svg"), picture(1040, 250, "Cost of the posterior of a season on two cores",
    "Three lines of seconds, all rising: against weeks, against particles, against tests a sitting.", body));
}

drawCalibration();
drawCost();
