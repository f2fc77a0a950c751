// The demo season in the tree is what its script writes, and it holds what the views of the program need.
// Run with: node --test tests/demo

import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { test } from 'node:test';
import { fileURLToPath } from 'node:url';
import { tell_story } from '../../tools/demo/story.mjs';
import { seed } from '../../tools/make-demo.mjs';

const file = (path) => readFileSync(fileURLToPath(new URL(`../../${path}`, import.meta.url)), 'utf8');
const committed = file('data/demo/season.jsonl');
const records = committed.trimEnd().split('\n').map((line) => JSON.parse(line));
const of_kind = (kind) => records.filter((record) => record.kind === kind);

test('telling the story again gives the same bytes', () => {
  assert.equal(`${tell_story(seed).join('\n')}\n`, committed);
});

test('another seed tells another season', () => {
  assert.notEqual(`${tell_story(seed + 1).join('\n')}\n`, committed);
});

test('the season is marked as invented', () => {
  assert.equal(of_kind('season_setup').length, 1);
  assert.equal(of_kind('season_setup')[0].body.invented, true);
});

test('records are numbered in the order they were written down, none before it happened', () => {
  records.forEach((record, i) => {
    assert.equal(record.id, i + 1);
    assert.ok(record.logged_at >= record.at, `record ${record.id} was logged before it happened`);
    if (i > 0) assert.ok(record.logged_at >= records[i - 1].logged_at, `record ${record.id} goes back in time`);
  });
});

test('every kind of record occurs', () => {
  const kinds = ['season_setup', 'kit', 'source_water', 'reading', 'temperature', 'water_change', 'dose', 'set_point', 'egg_receipt',
    'count', 'feeding', 'filter_work', 'equipment', 'milestone', 'note', 'release', 'guess', 'undo'];
  assert.deepEqual(kinds.filter((kind) => of_kind(kind).length === 0), []);
});

test('every form of reading a pupil can write down occurs, and a correction', () => {
  const forms = new Set(of_kind('reading').map((record) => record.body.form));
  for (const form of ['step', 'between', 'below_first', 'above_last', 'drops']) assert.ok(forms.has(form), form);
  assert.equal(records.filter((record) => record.supersedes).length, 1);
});

test('no animal appears or is lost without a record', () => {
  const dead = of_kind('count').filter((record) => record.body.what.startsWith('dead_')).reduce((sum, record) => sum + record.body.count, 0);
  assert.equal(of_kind('egg_receipt')[0].body.count - dead, of_kind('release')[0].body.count);
});

test('the days the story points at lie within it', () => {
  const story = JSON.parse(file('data/demo/story.json'));
  const days = [story.default_day, ...story.days_worth_a_look.map((look) => look.day)];
  for (const day of days) assert.ok(day >= records[0].at.slice(0, 10) && day <= records.at(-1).at.slice(0, 10), day);
});
