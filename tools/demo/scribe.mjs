// What the people of the story do with their hands: read, dose, change water, write down. Each act changes the true tank
// and leaves what they noticed in the log. Start at Scribe.

import { instant, monday_of } from './calendar.mjs';
import { read_test, step_of, taken_as } from './kit.mjs';
import { Log } from './log.mjs';
import { stream } from './random.mjs';
import { oxygen_at_saturation, Tank } from './tank.mjs';

export const teams = ['Team Otter', 'Team Heron', 'Team Newt'];
export const keeper = 'Tank keeper';
export const rota = 'Weekend rota';

export const tap = {
  key: 'tap',
  name: 'Town tap (chloramine)',
  ph: 7.2,
  alkalinity_meq_per_l: 1.07,
  hardness_meq_per_l: 1.427,
  total_ammonia_mg_n_per_l: 0.05,
  nitrite_mg_n_per_l: 0,
  nitrate_mg_n_per_l: 0.7,
  chloride_mg_per_l: 7,
  chlorine_mg_per_l: 1.6,
  chloramine: true,
  temperature_c: 12.5,
};
const meq_per_german_degree = 0.35665;

export const round_to = (step) => (x) => Number((Math.round(x / step) * step).toFixed(4));
export const tenth = round_to(0.1);
const half = round_to(0.5);

/// One season being told: the true tank, the log of it, and the list of what is to be done today.
export class Scribe {
  constructor(seed) {
    this.log = new Log();
    this.seed = seed;
    this.eye = stream(seed, 'readings');
    this.thermometer = stream(seed, 'thermometers');
    this.life = stream(seed, 'days');
    this.hunch = stream(seed, 'guesses');
    this.tank = new Tank(tap, stream(seed, 'tank'));
    this.tank.lot_threshold = 1.03; // this lot is a little slower than the book
    this.seen = {};
    this.latest = {};
    this.plan = [];
  }

  /// Puts something on the day's list; the day is worked through in order of time.
  at(time, act) {
    this.plan.push({ time, act });
  }

  work_through(date) {
    this.plan.sort((a, b) => (a.time < b.time ? -1 : a.time > b.time ? 1 : 0));
    for (const { time, act } of this.plan) {
      const moment = instant(date, time);
      this.tank.advance_to(moment);
      act(moment);
    }
    this.plan = [];
  }

  note(time, author, text) {
    this.at(time, (at) => this.log.add(at, 'note', author, { text }));
  }

  temperature(time, author, place = 'tank') {
    this.at(time, (at) => {
      const truth = { tank: this.tank.temperature_c, room: this.tank.room_c, source: 12.5 }[place];
      const body = { temperature_c: tenth(truth + this.thermometer.normal(0.12)), place };
      this.log.add(at, 'temperature', author, body);
    });
  }

  set_point(time, temperature_c) {
    this.at(time, (at) => {
      this.tank.set_point_c = temperature_c;
      this.log.add(at, 'set_point', keeper, { temperature_c });
    });
  }

  dose(time, substance, mass_g, author = keeper, name = undefined) {
    this.at(time, (at) => {
      const grams = round_to(0.1)(mass_g);
      if (substance === 'ammonium_chloride') this.tank.dose_ammonium_chloride(grams);
      if (substance === 'sodium_bicarbonate') this.tank.dose_bicarbonate(grams);
      this.log.add(at, 'dose', author, { substance, mass_g: grams, name });
    });
  }

  change(time, volume_l, { author = keeper, vacuumed = false, warmer_c = 0.5 } = {}) {
    this.at(time, (at) => {
      // Common practice: 7 mg of the crystals for each mg of chlorine, the largest dose any reaction needs.
      const grams = round_to(0.1)(volume_l * tap.chlorine_mg_per_l * 0.007);
      const new_water_c = half(this.tank.temperature_c + warmer_c);
      this.tank.change_water(volume_l, new_water_c);
      this.log.add(at - 1800000, 'dose', author, { substance: 'sodium_thiosulfate_pentahydrate', mass_g: grams });
      this.log.add(at, 'water_change', author, { volume_l, source_water: tap.key, new_water_c, vacuumed, dechlorinated: true });
    });
  }

  truth_on_card(test) {
    const tank = this.tank;
    return {
      ammonia: tank.total_ammonia * 1.2879,
      nitrite: tank.nitrite * 3.2845,
      nitrate: tank.nitrate * 4.4266,
      ph_low: tank.ph(),
      ph_high: tank.ph(),
      kh: tank.alkalinity / meq_per_german_degree,
      gh: tank.hardness / meq_per_german_degree,
      oxygen: oxygen_at_saturation(tank.temperature_c) * 0.96,
    }[test];
  }

  /// One sitting with the kit: each team reads each test.
  sitting(date, time, tests, readers, name) {
    this.at(time, (start) => {
      let at = start;
      const session = `${date} ${name}`;
      const write = (test, reader) => {
        const reading = read_test(test, this.truth_on_card(test), this.eye);
        const replicate = readers.length > 1 ? { team: reader } : {};
        const label = `${session} ${test} ${reader}`;
        this.log.add(at, 'reading', reader, { ...reading, ...replicate, session }, { label });
        this.latest[test] = taken_as(reading);
        at += 120000;
        return reading;
      };
      for (const test of tests) {
        for (const reader of readers) {
          const reading = write(test, reader);
          const off_the_card = test === 'ph_high' && (reading.form === 'below_first' || reading.value === 7.2);
          if (off_the_card) write('ph_low', reader);
        }
      }
    });
  }
  /// What each team expects of the next sitting: Otter spreads out, Heron is bold, Newt thinks things go on as they went.
  /// Written down in the afternoon; thought out at the sitting, so that the true tank is told in the same steps with or without guesses.
  guesses(date, time) {
    this.at(time, (sitting) => {
      const at = sitting + 16800000;
      const styles = { 'Team Otter': [1.6, 0], 'Team Heron': [0.5, 0], 'Team Newt': [1, 0.4] };
      teams.forEach((team, i) => {
        const [width, drift] = styles[team];
        const write = (question, body) => this.log.add(at + i * 240000, 'guess', team, { question, team, ...body });
        write(`hill/nitrate/${date}`, { chips: chips_around(step_of('nitrate', this.latest.nitrate) + drift + this.hunch.normal(0.3), 0.7 * width) });
        const drops = Math.round(step_of('kh', this.latest.kh) - drift + this.hunch.normal(0.6));
        write(`hill/kh/${date}`, { low: Math.max(0, drops - Math.ceil(width)), high: drops + Math.floor(width) });
        const warm = this.tank.temperature_c + this.hunch.normal(0.2);
        write(`temperature/${monday_of(date)}`, { low: tenth(warm - 0.4 * width), high: tenth(warm + 0.4 * width) });
      });
    });
  }
}

/// Ten chips laid around a place on the six steps of a card.
function chips_around(place, width) {
  const weights = [0, 1, 2, 3, 4, 5].map((step) => Math.exp(-0.5 * ((step - place) / width) ** 2));
  const sum = weights.reduce((a, b) => a + b);
  const chips = weights.map((weight) => Math.floor((10 * weight) / sum));
  const most = weights.indexOf(Math.max(...weights));
  chips[most] += 10 - chips.reduce((a, b) => a + b);
  return chips;
}
