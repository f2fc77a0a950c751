// The demo season told day by day: who comes in, what they test, what they do about it. Start at tell_story().

import { closed, days_from, instant, is_school_day, plus_days, term_begins, weekday } from './calendar.mjs';
import { keeper, rota, round_to, Scribe, tap, teams, tenth } from './scribe.mjs';
import { kit, read_test, taken_as } from './kit.mjs';
import { stream } from './random.mjs';

const first_day = '2030-08-05';
const egg_day = '2031-01-07';
const release_day = '2031-05-21';
const last_day = '2031-05-23';
// Large changes before there are animals: day, litres.
const flushes = { '2030-11-13': 105, '2030-11-15': 105, '2030-12-18': 105, '2031-01-06': 63 };

// Tank, chiller and room: 210 litres in 100 x 50 cm, foam on three sides, a cooler of ordinary size.
const tank_build = {
  length_cm: 100, width_cm: 50, water_height_cm: 42, wall: 'glass', wall_thickness_mm: 10, foam_thickness_mm: 20, bare_long_sides: 1, lid: 'sheet', base: 'foam',
  pump_w: 14, chiller_cooling_w: 290, chiller_rated_water_c: 15, chiller_rated_room_c: 25, chiller_electric_w: 150, heater_w: 100, controller_band_c: 0.6,
  room_day_c: 20.5, room_summer_day_c: 24, room_night_c: 18, room_weekend_c: 18, room_break_c: 16, room_used_from_hour: 7, room_used_until_hour: 17,
};

// Animals found dead: date, what, how many. The clump of 27 January had lain hidden under the basket for some days.
const losses = {
  '2031-01-07': ['dead_eggs', 2], '2031-01-09': ['dead_eggs', 1], '2031-01-13': ['dead_eggs', 1],
  '2031-01-16': ['dead_eggs', 1], '2031-01-22': ['dead_eggs', 1], '2031-01-27': ['dead_eggs', 9],
  '2031-01-28': ['dead_eggs', 1], '2031-01-30': ['dead_eggs', 1], '2031-02-07': ['dead_eggs', 3],
  '2031-02-05': ['dead_alevins', 1], '2031-02-12': ['dead_alevins', 1], '2031-02-24': ['dead_alevins', 2],
  '2031-03-10': ['dead_alevins', 4], '2031-03-11': ['dead_alevins', 2], '2031-03-12': ['dead_alevins', 1],
  '2031-03-24': ['dead_fry', 1], '2031-04-01': ['dead_fry', 2], '2031-04-08': ['dead_fry', 2],
  '2031-04-22': ['dead_fry', 1], '2031-05-13': ['dead_fry', 1],
};

const six_tests = ['ammonia', 'nitrite', 'nitrate', 'ph_high', 'kh', 'gh'];

/// Team whose turn it is this week.
const team_of_week = (date) => teams[Math.floor(days_from(first_day, date) / 7) % 3];

function open_season(s) {
  const at = instant(first_day, '08:30');
  s.log.add(at, 'season_setup', keeper, {
    name: 'Tarrowfell brook trout 2030-31 (invented)', place: 'Tarrowfell Hill School (an invented school)',
    time_zone: 'America/New_York', first_day, volume_l: 210, elevation_m: 640, species: 'brook_trout', egg_day,
    egg_count: 200, target_c: 8, warm_c: 23, release_from: '2031-05-12', release_until: '2031-06-06', permit: 'Invented permit, Fallow Brook',
    usual_change_fraction: 0.2, seed: s.seed, invented: true,
  });
  s.log.add(at + 300000, 'kit', keeper, kit);
  s.log.add(at + 600000, 'source_water', keeper, tap);
  s.log.add(at + 660000, 'tank_build', keeper, tank_build);
  // What the school's calendar says in August; the snow day is not in it.
  closed.filter(([, , name]) => name !== 'Snow day').forEach(([from, to, name]) => s.log.add(at + 720000, 'closure', keeper, from === to ? { name, from } : { name, from, to }));
  s.log.add(at + 780000, 'duty', keeper, { label: rota, from: '2030-12-21', to: '2031-01-05' });
  s.note('08:50', keeper, 'Demo season. School, people, kit and water are invented; the numbers come from a small model with reading noise.');
  s.note('09:30', keeper, 'Rinsed the tank, checked the stand is level, drip loops on every cord, all plugs on the protected circuit.');
  s.at('11:00', (at_filled) => {
    s.log.add(at_filled, 'note', keeper, { text: 'Filled with 210 litres of tap water.' });
    s.log.add(at_filled + 600000, 'reading', keeper, { kit: 'hill', test: 'chlorine', form: 'between', value: 1, upper_value: 2.5, session: 'fill' });
  });
  s.dose('11:30', 'sodium_thiosulfate_pentahydrate', 2.4);
  s.at('12:15', (at_clear) => {
    s.tank.total_ammonia += 0.1975 * tap.chlorine_mg_per_l; // what the chloramine held
    s.log.add(at_clear, 'reading', keeper, { kit: 'hill', test: 'chlorine', form: 'below_first', session: 'fill' });
  });
  s.at('12:30', (at_on) => s.log.add(at_on, 'equipment', keeper, { equipment: 'pump', event: 'switched_on', remark: 'Filter and air stone running.' }));
  s.set_point('13:00', 23);
}

function keep_filter_fed(s, date) {
  const dose_for = (raise_mg_n_per_l) => raise_mg_n_per_l * 3.819 * 210 / 1000;
  const days = days_from(first_day, date);
  if (date === '2030-08-06') s.dose('09:30', 'ammonium_chloride', dose_for(2));
  // Ripening: a new dose when the last one is nearly gone and nitrite is not off the card.
  const ripening_visit = days >= 3 && date < '2030-11-12' && (weekday(date) === 2 || weekday(date) === 5);
  if (ripening_visit) {
    s.at('15:00', (at) => {
      const { ammonia = 9, nitrite = 9 } = s.latest;
      if (ammonia > 0.6 || nitrite > 3) return;
      const raise = nitrite < 0.2 && ammonia < 0.3 ? 1.2 : 0.8;
      const mass_g = tenth(dose_for(raise));
      s.tank.dose_ammonium_chloride(mass_g);
      s.log.add(at, 'dose', keeper, { substance: 'ammonium_chloride', mass_g });
    });
  }
  const cold_doses = { '2030-11-19': 0.5, '2030-11-26': 0.5, '2030-12-03': 0.4, '2030-12-10': 0.5, '2030-12-19': 0.2, '2030-12-31': 0.2 };
  if (cold_doses[date]) s.dose('15:00', 'ammonium_chloride', dose_for(cold_doses[date]));
}

function mind_carbonates(s, date) {
  if (weekday(date) !== 2 && weekday(date) !== 5) return;
  s.at('15:10', (at) => {
    if ((s.latest.kh ?? 9) > 1.6) return;
    // Two German degrees; one at a time once there are animals, for a quick rise in pH frees ammonia.
    const mass_g = tenth((date < egg_day ? 2 : 1) * 2.996 * 2.1);
    s.tank.dose_bicarbonate(mass_g);
    s.log.add(at, 'dose', keeper, { substance: 'sodium_bicarbonate', mass_g });
    s.latest.kh = 9; // not again before the next test
  });
}

function test_water(s, date) {
  const school = is_school_day(date);
  const before_term = date < term_begins;
  const eggs_soon = date >= '2030-12-20';
  if (weekday(date) === 2 && (school || before_term || date === '2030-12-31' || date === '2031-02-18' || date === '2031-04-15') && date !== '2030-12-24') {
    const week = Math.floor(days_from(first_day, date) / 7);
    const replicate = school && week % 3 === 0;
    const readers = replicate ? teams : [school ? team_of_week(date) : keeper];
    s.sitting(date, '09:40', six_tests, readers, 'weekly test');
    if (school && date >= '2030-11-12' && date < release_day) s.guesses(date, '09:40');
  }
  if (weekday(date) === 5 && (before_term || school) && !eggs_soon) s.sitting(date, '13:20', ['ammonia', 'nitrite'], [before_term ? keeper : team_of_week(date)], 'midweek');
  if (weekday(date) === 5 && school && date >= '2031-03-21' && date < release_day) s.sitting(date, '13:20', ['ammonia', 'nitrite'], [team_of_week(date)], 'midweek');
  if (weekday(date) === 5 && !eggs_soon && (before_term || school)) s.sitting(date, '13:40', ['kh'], [before_term ? keeper : team_of_week(date)], 'midweek');
  if (date === '2031-01-30') s.sitting(date, '10:30', ['nitrite', 'ammonia', 'ph_high'], teams, 'retest');
  if (['2030-12-17', '2031-01-07', '2031-01-28', '2031-02-25', '2031-03-10', '2031-04-08', '2031-05-06'].includes(date)) s.sitting(date, '11:10', ['oxygen'], [team_of_week(date)], 'oxygen');
}

function change_water(s, date) {
  if (flushes[date]) {
    s.change('14:00', flushes[date], { warmer_c: 0 });
    return;
  }
  if (date === '2031-01-31') {
    // What the retest of the day before asked for, in two parts.
    s.change('08:30', 42);
    s.change('15:40', 42);
    return;
  }
  const extra = { '2031-02-07': 42, '2031-04-04': 42, '2031-05-09': 63, '2031-05-16': 63 };
  if (extra[date]) s.change('14:00', extra[date], { vacuumed: date > '2031-03-25' });
  const weekly = weekday(date) === 3 && date >= egg_day && date < release_day;
  const visited = is_school_day(date) || date === '2031-02-19' || date === '2031-04-16';
  if (weekly && visited) {
    const fed = date >= '2031-03-25';
    s.change('14:00', date >= '2031-04-23' ? 63 : 42, { author: is_school_day(date) ? team_of_week(date) : rota, vacuumed: fed });
  }
}

function read_temperatures(s, date) {
  const day = weekday(date);
  if (is_school_day(date)) {
    s.temperature('08:15', team_of_week(date));
    if (date >= '2030-11-18') s.temperature('14:45', team_of_week(date));
    if (day === 1) s.temperature('08:20', team_of_week(date), 'room');
    if (day === 3) s.temperature('13:30', keeper, 'source');
    return;
  }
  const august_visit = date < term_begins && [1, 3, 5].includes(day);
  const break_visit = (date > '2030-12-20' && date < '2031-01-06' && [2, 5].includes(day)) || (date >= '2031-02-15' && date <= '2031-02-23') || (date >= '2031-04-12' && date <= '2031-04-20') || date === '2031-01-29';
  const weekend_visit = date > egg_day && day === 6 && date !== '2031-03-08' && date !== '2031-01-25';
  if (august_visit || break_visit || weekend_visit) s.temperature('10:00', august_visit ? keeper : rota);
}

function change_set_point(s, date) {
  const days_cooled = (() => {
    let count = 0;
    for (let d = '2030-11-18'; d <= date; d = plus_days(d, 1)) if (is_school_day(d)) ++count;
    return count;
  })();
  if (date >= '2030-11-18' && is_school_day(date) && days_cooled <= 15) s.set_point('09:00', 23 - days_cooled);
  if (date === '2030-11-18') s.at('08:55', (at) => s.log.add(at, 'equipment', keeper, { equipment: 'chiller', event: 'switched_on', remark: 'Cooling one degree each school day until the target.' }));
  const later = { '2031-03-10': 11, '2031-03-11': 9.5, '2031-03-12': 8, '2031-04-07': 9, '2031-04-09': 10, '2031-05-12': 11 };
  if (later[date]) s.set_point('09:00', later[date]);
}

function receive_eggs(s) {
  s.at('10:20', (at) => {
    s.tank.eggs = 198;
    s.tank.hatch_progress = 0.583;
    s.tank.swim_progress = 0.583 / 1.7;
    s.log.add(at, 'egg_receipt', keeper, {
      count: 200, start: 'thermal_sum', thermal_sum_c_days: 290, thermal_sum_doubt_c_days: 12, incubation_c: 7.8, box_c: 6.1,
      origin: 'farmed', supplier: 'Corrie Lane Hatchery (invented)',
    });
  });
  s.note('10:40', keeper, 'Box on time, eggs cool and moist, ice left, eyes plain in nearly all of them. Floated the eggs 40 minutes in a clean bucket with tank water; shipping water thrown away. Permit copy in the folder. Cover on the tank.');
  s.at('11:30', (at) => s.log.add(at, 'equipment', keeper, { equipment: 'light', event: 'switched_off', remark: 'Dark until swim-up.' }));
}

function look_for_milestones(s, date) {
  if (!is_school_day(date)) return;
  const looks = [
    ['first_hatch', '2031-01-24', () => s.tank.hatched_share() > 0.006],
    ['half_hatched', '2031-01-31', () => s.tank.hatched_share() > 0.5],
    ['all_hatched', '2031-02-04', () => s.tank.hatched_share() > 0.985],
    ['first_swim_up', '2031-03-11', () => s.tank.swum_up_share() > 0.01],
    ['half_swim_up', '2031-03-17', () => s.tank.swum_up_share() > 0.5],
  ];
  for (const [milestone, from, happened] of looks) {
    if (date < from || s.seen[milestone]) continue;
    if (milestone !== 'first_hatch' && milestone !== 'first_swim_up' && !s.seen[milestone === 'half_swim_up' ? 'first_swim_up' : 'first_hatch']) continue;
    s.at('12:05', (at) => {
      const seen = happened();
      s.log.add(at, 'milestone', team_of_week(date), { milestone, seen });
      if (seen) s.seen[milestone] = date;
      if (seen && milestone === 'half_swim_up') {
        s.log.add(at + 5400000, 'milestone', keeper, { milestone: 'first_feed', seen: true });
        s.first_feed = date;
      }
      if (milestone === 'half_hatched') {
        s.log.add(at + 300000, 'count', team_of_week(date), { what: 'hatched', count: Math.round(s.tank.hatched_share() * 184), method: 'estimated' });
      }
    });
  }
}

function count_losses(s, date) {
  const here = date >= egg_day && date < release_day;
  if (!here) return;
  const [what, count] = losses[date] ?? [];
  const stage_key = () => (s.seen.half_swim_up ? 'dead_fry' : s.seen.half_hatched ? 'dead_alevins' : 'dead_eggs');
  if (count) {
    s.at(date === egg_day ? '11:00' : '08:30', (at) => {
      s.log.add(at, 'count', is_school_day(date) ? team_of_week(date) : rota, { what, count, method: 'counted' });
      if (date === egg_day) return; // already left out of the tank's count
      const lost_from = s.tank.fry > 0 ? 'fry' : s.tank.alevins > s.tank.eggs ? 'alevins' : 'eggs';
      s.tank[lost_from] -= count;
    });
  } else if (is_school_day(date) && !s.seen.half_swim_up) {
    // Picking is logged on quiet days too: a zero is an observation.
    s.at('08:30', (at) => s.log.add(at, 'count', team_of_week(date), { what: stage_key(), count: 0, method: 'counted' }));
  }
  // Hatching and swim-up move animals from one stage to the next.
  s.at('00:01', () => {
    const tank = s.tank;
    const unhatched = tank.eggs + tank.alevins + tank.fry;
    if (tank.fry === 0) {
      const hatched = s.seen.all_hatched ? unhatched : Math.round(unhatched * tank.hatched_share());
      tank.eggs = unhatched - hatched;
      tank.alevins = hatched;
    }
    if (s.seen.half_swim_up && tank.alevins > 0) {
      tank.fry += tank.alevins;
      tank.alevins = 0;
    }
  });
}

function feed(s, date) {
  if (!s.first_feed || date <= s.first_feed || date >= '2031-05-20') return;
  const days_fed = days_from(s.first_feed, date);
  const school = is_school_day(date);
  const cover = days_fed < 22 || (date >= '2031-04-12' && date <= '2031-04-20');
  if (!school && !cover && weekday(date) !== 6) return;
  const growth_share = 3 * 1.25 * 0.75 * s.tank.temperature_c / 1000 / Math.cbrt(s.tank.fry_g);
  // Half rations while nitrite was high.
  const eased = date >= '2031-04-02' && date <= '2031-04-10' ? 0.5 : 1;
  const ration_g = s.tank.fry * s.tank.fry_g * growth_share * Math.min(1, 0.5 + days_fed / 20) * eased;
  const times = school ? ['08:40', '13:50'] : ['10:10'];
  for (const time of times) {
    s.at(time, (at) => {
      const mass_g = Math.max(0.05, round_to(0.05)(ration_g / times.length));
      s.tank.feed(mass_g);
      s.log.add(at, 'feeding', school ? team_of_week(date) : rota, { mass_g, food: date < '2031-04-21' ? 'starter crumb, under 0.5 mm' : 'second crumb, 0.5 to 0.8 mm' });
    });
  }
}

function told_by_date(s, date) {
  const tell = {
    '2030-08-26': () => s.note('09:00', keeper, 'Term begins. Teams drawn: Otter, Heron, Newt, one a week. Labels only, no names in the log.'),
    '2030-09-17': () => s.note('10:40', keeper, 'Reminder on the wall: eye protection on, an adult opens bottles A, C and D, hands washed after.'),
    '2030-10-08': () => {
      const body = { kit: 'hill', test: 'nitrate', form: 'step', value: 6, session: '2030-10-08 second look' };
      s.at('11:30', (at) => s.log.add(at, 'reading', 'Team Newt', body, { label: 'misread' }));
      s.at('13:10', (at) => {
        const value = taken_as(read_test('nitrate', s.truth_on_card('nitrate'), stream(s.seed, 'second look')));
        const step = [3, 6, 12, 24, 48, 96].reduce((a, b) => (Math.abs(b - value) < Math.abs(a - value) ? b : a));
        s.log.add(at - 6000000, 'reading', 'Team Newt', { ...body, value: step }, { logged_at: at, corrects: 'misread' });
        s.log.add(at, 'note', 'Team Newt', { text: 'The vial was shaken only ten seconds the first time. Repeated with the full minute and corrected.' }, { logged_at: at + 120000 });
      });
    },
    '2030-11-05': () => {
      s.at('08:17', (at) => s.log.add(at, 'temperature', 'Team Heron', { temperature_c: 32.8, place: 'tank' }, { label: 'slip' }));
      s.at('08:25', (at) => s.log.add(at, 'undo', keeper, {}, { takes_back: 'slip' }));
    },
    '2030-11-13': () => s.note('14:30', keeper, 'Half the water changed to bring nitrate down before cooling; the other half on Friday. Filter left alone.'),
    '2030-12-09': () => s.note('09:10', keeper, 'At the target of 8 degrees. Now see how fast the filter works cold.'),
    '2030-12-20': () => s.note('14:30', keeper, 'Before the break: full test done, topped up, drip tray checked, set-point photographed, two contacts on the door.'),
    '2031-01-06': () => {
      s.note('09:30', keeper, 'Back after the break. No test on 24 December, the keeper tested on the 31st.');
      s.at('10:30', (at) => s.log.add(at, 'equipment', keeper, { equipment: 'chiller', event: 'serviced', remark: 'Dust brushed off the condenser, alarm tested.' }));
    },
    '2031-01-07': () => receive_eggs(s),
    '2031-01-22': () => {
      s.at('15:00', (at) => {
        s.tank.damage_filter(0.55, 0.9);
        s.log.add(at, 'filter_work', 'Team Heron', { work: 'rinsed', fraction: 0.5 });
        s.tank.rotting_mg_n += 48; // a dozen dead eggs begin to rot out of sight
      });
    },
    '2031-01-23': () => s.note('08:50', keeper, 'Half of the sponge was rinsed yesterday, under the tap by mistake: chloramine may have hurt the filter. From now on only in tank water. Watch ammonia and nitrite.'),
    '2031-01-27': () => s.note('08:40', 'Team Otter', 'Nine white eggs in a clump under the rim of the basket, some furry. All taken out.'),
    '2031-01-29': () => s.note('10:05', rota, 'Snow, school closed. Looked in, temperature fine. No water change today.'),
    '2031-01-31': () => s.note('15:50', keeper, 'Two changes today after yesterday\'s tests. Fine sponge on the filter intake before they hatch.'),
    '2031-03-10': () => {
      s.at('07:40', (at) => {
        s.log.add(instant('2031-03-08', '17:00'), 'equipment', keeper, { equipment: 'chiller', event: 'failed', remark: 'Time guessed. The protected socket had tripped; pump and air were on another one and kept running.' }, { logged_at: at });
      });
      s.temperature('07:42', keeper);
      s.at('07:55', (at) => {
        s.tank.chiller_works = true;
        s.log.add(at, 'equipment', keeper, { equipment: 'chiller', event: 'restored', remark: 'Socket dried and reset. Cooling back in steps, not all at once.' });
      });
      s.temperature('11:30', keeper);
    },
    '2031-03-18': () => s.at('09:00', (at) => s.log.add(at, 'equipment', keeper, { equipment: 'light', event: 'switched_on', remark: 'Dim, school hours only.' })),
    '2031-04-02': () => s.note('14:20', keeper, 'Nitrite up since feeding began. Half rations until it is down; uneaten crumb siphoned after each feed.'),
    '2031-04-11': () => s.note('14:30', keeper, 'Nitrite falling. Spring week: rota feeds once a day and reads the temperature.'),
    '2031-04-24': () => s.at('14:30', (at) => s.log.add(at, 'filter_work', keeper, { work: 'rinsed', fraction: 0.3 })),
    '2031-05-06': () => s.note('14:20', keeper, 'Nitrate creeps up with the rations. Larger and more frequent changes until release.'),
    '2031-05-19': () => s.note('14:00', keeper, 'Release is Wednesday, inside the permit window of 12 to 30 May. Last feed this afternoon.'),
    '2031-05-20': () => s.at('13:00', (at) => s.log.add(at, 'count', keeper, { what: 'alive', count: s.tank.fry, method: 'counted' })),
    '2031-05-21': () => {
      s.at('09:50', (at) => {
        s.log.add(at, 'release', keeper, { count: s.tank.fry, place: 'Tarrow Brook, permit site 2 (invented)', tank_c: tenth(s.tank.temperature_c), site_c: 11.8 });
        s.tank.fry = 0;
      });
      s.note('13:30', keeper, 'Released along the margins after 25 minutes of mixing. Stream clear and low.');
    },
    '2031-05-22': () => s.at('10:00', (at) => s.log.add(at, 'equipment', keeper, { equipment: 'chiller', event: 'switched_off' })),
    '2031-05-23': () => s.note('11:00', keeper, 'Tank emptied to the sewer drain, gear cleaned and dried. Numbers for the permit report: 200 eggs in, the rest is in this log.'),
  };
  tell[date]?.();
  if (weekday(date) === 5 && date < '2030-11-15' && days_from(first_day, date) % 14 === 4) s.note('15:30', keeper, 'Topped up about 7 litres of dechlorinated tap water that had evaporated.');
}

function set_the_scene(s, date) {
  const winter = date > '2030-10-15' && date < '2031-05-01';
  const occupied = is_school_day(date) || date < term_begins;
  s.tank.room_aim_c = occupied ? (winter ? 20.5 : 22.5) : winter ? 16.5 : 22;
  s.tank.top_up_l_per_day = date < '2030-11-18' ? 0.5 : date > '2031-03-20' ? 0.1 : 0;
  if (date === '2031-03-08') s.at('17:00', () => (s.tank.chiller_works = false));
}

/// The whole season as lines of JSON, one record each.
export function tell_story(seed, watch = () => {}) {
  const s = new Scribe(seed);
  open_season(s);
  for (let date = first_day; date <= last_day; date = plus_days(date, 1)) {
    set_the_scene(s, date);
    told_by_date(s, date);
    read_temperatures(s, date);
    change_set_point(s, date);
    test_water(s, date);
    change_water(s, date);
    keep_filter_fed(s, date);
    if (date < release_day) mind_carbonates(s, date);
    count_losses(s, date);
    look_for_milestones(s, date);
    feed(s, date);
    s.at('23:59', () => watch(date, s.tank, s));
    s.work_through(date);
  }
  return s.log.lines();
}
