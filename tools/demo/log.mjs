// The log of the story: collects entries in any order, then numbers them by when they were written down and prints them
// as the program prints a record: one JSON object a line, measured numbers with a decimal point, counts without.

import { rfc3339 } from './calendar.mjs';

const whole_number_keys = new Set(['id', 'supersedes', 'target', 'count', 'egg_count', 'seed', 'seconds', 'read_by_seconds', 'bare_long_sides', 'room_used_from_hour', 'room_used_until_hour']);
// The program always writes these, in this order, whether or not the story mentions them.
const key_order = {
  season_setup: ['name', 'place', 'time_zone', 'first_day', 'volume_l', 'elevation_m', 'species', 'egg_day', 'egg_count', 'target_c', 'warm_c', 'release_from', 'release_until', 'permit', 'usual_change_fraction', 'seed', 'invented'],
  water_change: ['volume_l', 'source_water', 'new_water_c', 'vacuumed', 'dechlorinated'],
  guess: ['question', 'team', 'low', 'high', 'chips'],
  reading: ['kit', 'test', 'form', 'value', 'upper_value', 'team', 'session'],
};

function printed(value, key) {
  if (typeof value === 'number') {
    return Number.isInteger(value) && !whole_number_keys.has(key) ? value.toFixed(1) : String(value);
  }
  if (Array.isArray(value)) return `[${value.map((item) => printed(item, key)).join(',')}]`;
  if (value !== null && typeof value === 'object') {
    const pairs = Object.entries(value).filter(([, v]) => v !== undefined);
    return `{${pairs.map(([k, v]) => `${JSON.stringify(k)}:${printed(v, k)}`).join(',')}}`;
  }
  return JSON.stringify(value);
}

function in_order(kind, body) {
  const order = key_order[kind];
  if (!order) return body;
  return Object.fromEntries(order.filter((key) => body[key] !== undefined).map((key) => [key, body[key]]));
}

export class Log {
  #entries = [];

  /// Adds an entry. `label` names it for a later correction; `corrects` and `takes_back` hold such a label.
  add(at, kind, author, body, { logged_at = at + 60000, label, corrects, takes_back } = {}) {
    this.#entries.push({ at, kind, author, body, logged_at, label, corrects, takes_back, order: this.#entries.length });
  }

  lines() {
    this.#entries.sort((a, b) => a.logged_at - b.logged_at || a.order - b.order);
    const id_of = new Map();
    return this.#entries.map((entry, i) => {
      const id = i + 1;
      if (entry.label) id_of.set(entry.label, id);
      const body = entry.takes_back ? { target: id_of.get(entry.takes_back) } : in_order(entry.kind, entry.body);
      return printed({
        id,
        logged_at: rfc3339(entry.logged_at),
        at: rfc3339(entry.at),
        kind: entry.kind,
        author: entry.author,
        supersedes: entry.corrects && id_of.get(entry.corrects),
        body,
      });
    });
  }
}
