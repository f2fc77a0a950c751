// The browser module gives the native program's answers: same questions to both, same keys and words back, and
// numbers equal to one part in a billion. Use: node parity.mjs engine_lines redd_core.wasm...
// Given are the module as just built and the one that the program serves; the same bytes are asked once.
//
// Questions: every formula the engine lists, asked across its ranges; the lines of the files in questions/ (whole
// seasons, bad input); the demo season on days over the year; the page's interface on it, in this order.
import { spawnSync } from 'node:child_process';
import { readFile, readdir } from 'node:fs/promises';
import { fileURLToPath } from 'node:url';

import { loadCore } from './core.mjs';
import { questionsForFormula } from './formula_questions.mjs';

const relativeTolerance = 1e-9;

const [nativePath, ...modulePaths] = process.argv.slice(2);
if (!nativePath || modulePaths.length === 0) {
  console.error('Use: node parity.mjs engine_lines redd_core.wasm...');
  process.exit(2);
}

// Modules with different bytes, by their bytes.
async function differentModules() {
  const byContent = new Map();
  for (const path of modulePaths) byContent.set((await readFile(path)).toString('latin1'), path);
  return [...byContent.values()];
}

// Where two answers differ, as a list of sentences; empty when they agree.
function differences(native, browser, path = '') {
  if (typeof native === 'number' && typeof browser === 'number') {
    const size = Math.max(Math.abs(native), Math.abs(browser));
    return Math.abs(native - browser) <= relativeTolerance * size
      ? []
      : [`${path || '/'}: native ${native}, browser ${browser}`];
  }
  // Answers of the interface are JSON as text.
  if (typeof native === 'string' && typeof browser === 'string' && native !== browser && native.startsWith('{'))
    return differences(JSON.parse(native), JSON.parse(browser), path);
  if (native === null || browser === null || typeof native !== 'object' || typeof browser !== 'object') {
    return native === browser
      ? []
      : [`${path || '/'}: native ${JSON.stringify(native)}, browser ${JSON.stringify(browser)}`];
  }
  const keys = new Set([...Object.keys(native), ...Object.keys(browser)]);
  return [...keys].flatMap((key) => differences(native[key], browser[key], `${path}/${key}`));
}

function nativeAnswers(questions) {
  const run = spawnSync(nativePath, {
    input: questions.join('\n') + '\n',
    encoding: 'utf8',
    maxBuffer: 1 << 30,
  });
  if (run.status !== 0) {
    console.error(run.stderr);
    console.error(`The native program ended with ${run.status ?? run.signal ?? run.error}.`);
    process.exit(1);
  }
  return run.stdout.trimEnd().split('\n');
}

async function writtenQuestions() {
  const folder = fileURLToPath(new URL('./questions/', import.meta.url));
  const names = (await readdir(folder)).filter((name) => name.endsWith('.jsonl')).sort();
  const texts = await Promise.all(names.map((name) => readFile(folder + name, 'utf8')));
  return texts.flatMap((text) => text.split('\n').filter((line) => line !== ''));
}

// The demo season as it stood on days spread over the year: the whole path from records to advice.
async function demoMoments(days) {
  const file = fileURLToPath(new URL('../../data/demo/season.jsonl', import.meta.url));
  const records = (await readFile(file, 'utf8'))
    .split('\n')
    .filter(Boolean)
    .map((line) => JSON.parse(line));
  const zone = { name: 'test', changes: [{ from: '1970-01-01T00:00:00Z', offset_seconds: -18000 }] };
  return days.map((day) => {
    const now = new Date(Date.parse(records[0].logged_at) + day * 86400e3).toISOString().replace(/\.\d+Z/, 'Z');
    return { now, zone, records: records.filter((r) => r.logged_at <= now) };
  });
}
const demoDays = async () =>
  (await demoMoments([20, 60, 120, 160, 178, 190, 220, 250, 285])).map((day) => JSON.stringify({ day }));

// What-ifs from bases of the native program, as the page asks the server's: both sides reckon from the same numbers.
async function demoWhatIfs() {
  const moments = await demoMoments([60, 178, 220]);
  const places = [
    {},
    { room_warmer_c: 6 },
    { set_point_warmer_c: -2, weekly_change_fraction: 0 },
    { animals_factor: 2, food_factor: 1.3 },
    { room_warmer_c: 15, animals_factor: 3, food_factor: 2, weekly_change_fraction: 0.5 },
    { room_warmer_c: 16 },
  ];
  return nativeAnswers(moments.map((day) => JSON.stringify({ what_if_base: day }))).flatMap((answer) => {
    const base = JSON.parse(answer).what_if_base;
    if (!base) throw new Error(answer);
    return places.map((sliders) => JSON.stringify({ what_if: { base: base.asked, sliders } }));
  });
}

// The interface of the page without a server on the demo season: opened once, then asked, written to, saved.
async function pageQuestions() {
  const file = fileURLToPath(new URL('../../data/demo/season.jsonl', import.meta.url));
  const records = (await readFile(file, 'utf8'))
    .split('\n')
    .filter(Boolean)
    .map((line) => JSON.parse(line));
  const kit = records.find(({ kind }) => kind === 'kit').body;
  const zones = [
    { name: records[0].body.time_zone, changes: [{ from: '2029-08-01T00:00:00Z', offset_seconds: -18000 }] },
  ];
  const api = (target, body) => ({
    api: { method: body ? 'POST' : 'GET', target, body: body ? JSON.stringify(body) : '', now: '2031-06-20T12:00:00Z' },
  });
  const note = { kind: 'note', author: 'Team Otter', body: { text: 'Invented.' } };
  return [
    { open: { kits: [kit], opening_day: '2031-01-30', records, zones } },
    ...['season', 'kits', 'species', 'history?limit=40', 'day?as_of=2031-01-30', 'counts?as_of=2031-02-04', 'export'].map(
      (path) => api(`/api/${path}`),
    ),
    ...['heat', 'feed', 'loading', 'water-plan', 'emergency/card'].map((path) => api(`/api/${path}?as_of=2031-03-10`)),
    api('/api/wall?as_of=2031-01-30'),
    api('/api/water/try?as_of=2031-01-30', { fraction: 0.3 }),
    api('/api/records?as_of=2031-03-10', note),
    api('/api/records?as_of=2031-03-10', { ...note, kind: 'no_such_kind' }),
    api('/api/records/1/undo?as_of=2031-03-10', { author: 'Team Otter' }),
    api('/api/import', { redd_season: 1, resources: [] }),
    api('/api/no-such-address'),
  ].map((question) => JSON.stringify(question));
}

const listed = JSON.parse(nativeAnswers(['{"formulas": true}'])[0]).formulas ?? [];
const questions = [
  ...(await writtenQuestions()),
  ...(await demoDays()),
  ...(await demoWhatIfs()),
  ...(await pageQuestions()),
  ...listed.flatMap(questionsForFormula),
];
const native = nativeAnswers(questions);
const refused = native.filter((answer) => JSON.parse(answer).problems).length;

async function failuresOf(modulePath) {
  const ask = await loadCore(modulePath);
  let failed = 0;
  questions.forEach((question, index) => {
    const found = differences(JSON.parse(native[index]), JSON.parse(ask(question)));
    if (found.length === 0) return;
    failed += 1;
    if (failed <= 10) console.error([`question ${question.slice(0, 300)}`, ...found.slice(0, 10)].join('\n  '));
  });
  console.log(
    `${modulePath}: ${questions.length} questions (${listed.length} formulas, ${refused} answered with a problem): ` +
      `${questions.length - failed} answers agree, ${failed} differ.`,
  );
  return failed;
}

let failed = 0;
for (const path of await differentModules()) failed += await failuresOf(path);
process.exit(failed === 0 && native.length === questions.length ? 0 : 1);
