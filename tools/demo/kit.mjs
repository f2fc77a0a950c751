// The invented test kit, and how a pupil reads it: a noisy eye on a coarse card.

const step = (what, text, more = {}) => ({ do: what, text, ...more });
const seconds = (n) => ({ seconds: n });

function colour_test(key, quantity, unit, steps, colours, timed_steps) {
  return {
    key, quantity, method: 'colour_steps', unit, steps,
    colour_names: colours.map(([name]) => name),
    swatches: colours.map(([, swatch]) => swatch),
    timed_steps,
  };
}
function drop_test(key, quantity, unit, per_drop, change) {
  return {
    key, quantity, method: 'drop_count', unit, per_drop,
    timed_steps: [
      step('fill', 'Rinse the tall vial with tank water and fill it to the ring.'),
      step('drops', `Add one drop at a time and swirl. Count until ${change}.`),
      step('read', 'Write down the number of drops, the one that turned it included.'),
    ],
  };
}

export const kit = {
  key: 'hill',
  name: 'Hill kit (invented for the demo)',
  tests: [
    colour_test('ammonia', 'total_ammonia', 'mg_nh4_per_l', [0.15, 0.3, 0.6, 1.2, 2.4, 4.8],
      [['oat', '#e9dfc7'], ['peach', '#eebf98'], ['clay', '#cf8a63'], ['rust', '#a9573a'], ['mulberry', '#7a3550'], ['ink', '#3a2a4f']],
      [step('fill', 'Fill the small vial to the ring.'),
       step('drops', 'Bottle A: an adult opens it, eye protection on.', { count: 6 }),
       step('mix', 'Cap and tilt slowly.', seconds(15)),
       step('powder', 'One level spoon from jar B.', { count: 1 }),
       step('wait', 'Leave it standing.', { seconds: 420, read_by_seconds: 180 }),
       step('read', 'Hold it a finger above the card, in daylight.')]),
    colour_test('nitrite', 'nitrite', 'mg_no2_per_l', [0.08, 0.16, 0.32, 0.65, 1.3, 2.6],
      [['glass', '#e6eef0'], ['mist', '#c9dbe6'], ['bluebell', '#9fb6dc'], ['iris', '#7a86c8'], ['plum', '#63509a'], ['sloe', '#3c2f66']],
      [step('fill', 'Fill the small vial to the ring.'),
       step('drops', 'Bottle C is an acid: an adult opens it, eye protection on.', { count: 4 }),
       step('mix', 'Cap and tilt slowly.', seconds(10)),
       step('wait', 'Leave it standing.', { seconds: 240, read_by_seconds: 120 }),
       step('read', 'Hold it a finger above the card, in daylight.')]),
    colour_test('nitrate', 'nitrate', 'mg_no3_per_l', [3, 6, 12, 24, 48, 96],
      [['frost', '#eef1e4'], ['fern', '#cddfae'], ['moss', '#a3bd72'], ['ivy', '#6f9a58'], ['pine', '#3f7350'], ['peat', '#2c4a3c']],
      [step('fill', 'Fill the large vial to the ring.'),
       step('drops', 'Bottle D is an acid: an adult opens it, eye protection on.', { count: 8 }),
       step('powder', 'One level spoon from jar E.', { count: 1 }),
       step('mix', 'Shake hard the whole minute: a lazy shake reads low.', seconds(60)),
       step('wait', 'Leave it standing.', { seconds: 300, read_by_seconds: 180 }),
       step('read', 'Hold it a finger above the card, in daylight.')]),
    colour_test('ph_low', 'ph', 'ph', [6.2, 6.5, 6.8, 7.1, 7.4],
      [['straw', '#ead98c'], ['honey', '#dcb75b'], ['ginger', '#c58b45'], ['chestnut', '#98593c'], ['cocoa', '#66403a']],
      [step('fill', 'Fill the small vial to the ring.'), step('drops', 'Bottle F.', { count: 3 }),
       step('mix', 'Cap and tilt slowly.', seconds(10)), step('read', 'Read at once.', { read_by_seconds: 60 })]),
    colour_test('ph_high', 'ph', 'ph', [7.2, 7.5, 7.8, 8.1, 8.4, 8.7],
      [['shell', '#f1d9d3'], ['rose', '#dfa7ad'], ['heather', '#b983a6'], ['thistle', '#8f6fa8'], ['dusk', '#5f5f9b'], ['slate', '#3d4f77']],
      [step('fill', 'Fill the small vial to the ring.'), step('drops', 'Bottle G.', { count: 3 }),
       step('mix', 'Cap and tilt slowly.', seconds(10)), step('read', 'Read at once.', { read_by_seconds: 60 })]),
    drop_test('kh', 'alkalinity', 'german_degrees', 0.5, 'lilac turns to lemon'),
    drop_test('gh', 'hardness', 'german_degrees', 0.5, 'rose turns to teal'),
    drop_test('oxygen', 'oxygen', 'mg_per_l', 0.5, 'brown turns clear'),
    colour_test('chlorine', 'chlorine', 'mg_per_l', [0.05, 0.15, 0.4, 1, 2.5],
      [['clear', '#f4f2ee'], ['blush', '#f0cfcb'], ['salmon', '#e39d96'], ['coral', '#d0645f'], ['ruby', '#9d2f3f']],
      [step('fill', 'Fill the small vial to the ring.'), step('powder', 'One level spoon from jar H.', { count: 1 }),
       step('mix', 'Cap and tilt slowly.', seconds(15)), step('wait', 'Leave it standing.', { seconds: 120, read_by_seconds: 60 }),
       step('read', 'Hold it a finger above the card, in daylight.')]),
  ],
};

const test_of = (key) => kit.tests.find((test) => test.key === key);

/// Where a value stands on the card, in steps from the first one. Steps of a concentration are even on a log scale.
function place_on_card(test, value) {
  const scale = test.quantity === 'ph' ? (v) => v : (v) => Math.log(Math.max(v, 1e-6));
  const marks = test.steps.map(scale);
  const last = marks.length - 1;
  const v = scale(value);
  let i = 0;
  while (i < last - 1 && v > marks[i + 1]) ++i;
  return i + (v - marks[i]) / (marks[i + 1] - marks[i]);
}

/// The same for a test by its key; of a drop test the drops that a value takes.
export function step_of(key, value) {
  const test = test_of(key);
  return test.method === 'drop_count' ? value / test.per_drop + 0.5 : place_on_card(test, value);
}

/// What a pupil writes down for a true value (in the unit of the card). Assumed: the eye errs by 0.4 of a step, and one
/// reading in fifty is plainly wrong by two steps.
export function read_test(key, value, random) {
  const test = test_of(key);
  const of_test = { kit: kit.key, test: key };
  if (test.method === 'drop_count') {
    const drops = Math.max(1, Math.ceil(value / test.per_drop + random.normal(0.35)));
    return { ...of_test, form: 'drops', value: drops };
  }
  let place = place_on_card(test, value) + random.normal(0.4);
  if (random.chance(0.02)) place += random.chance(0.5) ? 2 : -2;
  const last = test.steps.length - 1;
  if (place < -0.6) return { ...of_test, form: 'below_first' };
  if (place > last + 0.6) return { ...of_test, form: 'above_last' };
  const nearest = Math.min(last, Math.max(0, Math.round(place)));
  if (Math.abs(place - nearest) <= 0.3 || place < 0 || place > last) return { ...of_test, form: 'step', value: test.steps[nearest] };
  const lower = Math.floor(place);
  return { ...of_test, form: 'between', value: test.steps[lower], upper_value: test.steps[lower + 1] };
}

/// The middle of a written reading in the unit of the card, as the people in the story take it when they decide.
export function taken_as(reading) {
  const test = test_of(reading.test);
  if (reading.form === 'drops') return (reading.value - 0.5) * test.per_drop;
  if (reading.form === 'below_first') return test.steps[0] / 2;
  if (reading.form === 'above_last') return test.steps.at(-1) * 1.5;
  return reading.form === 'between' ? (reading.value + reading.upper_value) / 2 : reading.value;
}
