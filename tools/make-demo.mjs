#!/usr/bin/env node
// Writes the demo season: an invented school, tank, kit and batch of eggs, from a small model plus reading noise.
// The same seed always gives the same bytes (tests/demo/demo.test.mjs). The story is told in tools/demo/story.mjs.
//
//   node tools/make-demo.mjs              writes data/demo/season.jsonl
//   node tools/make-demo.mjs --print      prints it instead
//   node tools/make-demo.mjs --watch      prints the true state of the invented tank, once a day

import { writeFileSync } from 'node:fs';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { tell_story } from './demo/story.mjs';

export const seed = 640;
const target = fileURLToPath(new URL('../data/demo/season.jsonl', import.meta.url));

function show(date, tank) {
  const numbers = [tank.temperature_c, tank.total_ammonia, tank.nitrite, tank.nitrate, tank.ph(), tank.alkalinity / 0.35665, tank.hardness / 0.35665];
  const animals = [tank.eggs, tank.alevins, tank.fry, tank.fry_g.toFixed(2), tank.hatch_progress.toFixed(3), tank.swim_progress.toFixed(3)];
  console.log(date, numbers.map((x) => x.toFixed(2).padStart(6)).join(' '), ' ', animals.join(' '));
}

function main() {
  if (process.argv.includes('--watch')) {
    tell_story(seed, show);
  } else {
    const text = `${tell_story(seed).join('\n')}\n`;
    if (process.argv.includes('--print')) process.stdout.write(text);
    else writeFileSync(target, text);
  }
}

if (import.meta.url === pathToFileURL(process.argv[1]).href) main();
