// The invented school's year, and local clock time to UTC. Dates are "YYYY-MM-DD" texts, times "HH:MM" texts.

const day_ms = 86400000;

/// Summer time in America/New_York under the rule in force since 2007: second Sunday of March to first Sunday of
/// November, at 02:00 local time. Written out for the one year told here.
const summer_ends = Date.UTC(2030, 10, 3, 6);
const summer_begins = Date.UTC(2031, 2, 9, 7);

/// The instant (UTC milliseconds) of a local wall-clock time.
export function instant(date, time) {
  const as_if_utc = Date.parse(`${date}T${time}:00Z`);
  const standard = as_if_utc + 5 * 3600000;
  return standard >= summer_ends && standard < summer_begins ? standard : standard - 3600000;
}

export const rfc3339 = (ms) => new Date(ms).toISOString().replace('.000Z', 'Z');

export const plus_days = (date, days) => new Date(Date.parse(date) + days * day_ms).toISOString().slice(0, 10);
export const days_from = (from, to) => Math.round((Date.parse(to) - Date.parse(from)) / day_ms);

/// 0 Sunday … 6 Saturday.
export const weekday = (date) => new Date(Date.parse(date)).getUTCDay();

export const monday_of = (date) => plus_days(date, -((weekday(date) + 6) % 7));

export const term_begins = '2030-08-26';
export const closed = [
  ['2030-09-02', '2030-09-02', 'First holiday'],
  ['2030-10-14', '2030-10-14', 'Autumn holiday'],
  ['2030-11-28', '2030-11-29', 'Harvest days'],
  ['2030-12-23', '2031-01-03', 'Winter break'],
  ['2031-01-20', '2031-01-20', 'January holiday'],
  ['2031-01-29', '2031-01-29', 'Snow day'],
  ['2031-02-17', '2031-02-21', 'Winter week'],
  ['2031-04-14', '2031-04-18', 'Spring week'],
];

export function is_school_day(date) {
  const day = weekday(date);
  if (date < term_begins || day === 0 || day === 6) return false;
  return !closed.some(([from, to]) => date >= from && date <= to);
}
