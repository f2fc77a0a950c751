// The set-up as data: which questions stand on which screen, what is taken while nobody is sure, what stands in the way
// of going on, and the records that the answers become. Words live in messages, rules about values in the server.
import type { Body, Problem } from "../contract";
import { dayNumber, instantOfWallClock, shiftDay } from "../days";
import { t } from "../messages";
import { fFromC, numeral } from "../units";
import { readNumber } from "../numbers";
import { speciesKeys, unitEndings } from "./kinds";

export const screens = [
  "units",
  "school",
  "tank",
  "around",
  "cold",
  "water",
  "eggs",
  "kit",
  "calendar",
  "permit",
  "check",
] as const;
export type Screen = (typeof screens)[number];
/** After the season has begun. */
export const laterScreens = ["card", "plan"] as const;

export interface Break {
  name: string;
  from: string;
  to: string;
}

/** Everything typed. An empty or unsure answer means: not sure. */
export interface Answers {
  values: Record<string, string>;
  unsure: Record<string, boolean>;
  /** Whether a measured answer is in its second unit (°F, gallons, …). */
  second: Record<string, boolean>;
  breaks: Break[];
}

export interface Question {
  key: string;
  type: "choice" | "decimal" | "integer" | "text" | "day" | "zone" | "weekdays" | "breaks" | "kit";
  choices?: readonly string[];
  /** The key under which the first and the second unit are sent. */
  pair?: readonly [string, string];
  /** Where the names of the two units stand. */
  unit?: string;
  /** Always answered: it has a usual answer that nobody can be unsure of. */
  sure?: true;
  /** May stay empty without anybody being unsure of it. */
  optional?: true;
  /** From and to, in the first and in the second unit: beyond it the unit is probably wrong. */
  range?: readonly [readonly [number, number], readonly [number, number]];
  when?: (answers: Answers) => boolean;
}

const pairOf = (key: string, kind: keyof typeof unitEndings): readonly [string, string] => {
  const [own, other] = unitEndings[kind];
  return [key, key.slice(0, -own.length) + other];
};
const temperature = (key: string, c: readonly [number, number]): Question => ({
  key,
  type: "decimal",
  pair: pairOf(key, "temperature"),
  unit: "temperature",
  range: [c, [fFromC(c[0]), fFromC(c[1])]],
});
const choice = (key: string, choices: readonly string[], more: Partial<Question> = {}): Question => ({
  key,
  type: "choice",
  choices,
  ...more,
});

/** The answer, or "" while nobody is sure. */
export const answer = (answers: Answers, key: string) =>
  answers.unsure[key] ? "" : (answers.values[key] ?? "").trim();
const is =
  (key: string, ...values: string[]) =>
  (answers: Answers) =>
    values.includes(answer(answers, key));
const measuring = (answers: Answers) => answers.unsure.volume === true;
const here = is("here", "yes");
const box = (key: string): Question => ({
  key,
  type: "decimal",
  pair: pairOf(key, "length"),
  unit: "length",
  when: measuring,
  optional: true,
  range: [
    [5, 2000],
    [2, 790],
  ],
});

export const questionsOf: Record<Screen, readonly Question[]> = {
  units: [choice("language", ["en", "es"], { sure: true }), choice("units", ["metric", "us"], { sure: true })],
  school: [
    { key: "place", type: "text" },
    { key: "name", type: "text", optional: true },
    { key: "time_zone", type: "zone", sure: true },
    choice("elevation", ["300", "1000", "2000", "3000"]),
  ],
  tank: [
    {
      key: "volume",
      type: "decimal",
      pair: ["volume_l", "volume_us_gal"],
      unit: "volume",
      range: [
        [1, 20000],
        [0.3, 5300],
      ],
    },
    box("length_cm"),
    box("width_cm"),
    box("water_height_cm"),
    { key: "first_day", type: "day" },
  ],
  around: [
    choice("wall", ["glass", "acrylic", "foam"]),
    choice("lid", ["none", "sheet", "foam"]),
    { key: "pump_w", type: "decimal" },
    { key: "air_l_per_min", type: "decimal" },
  ],
  cold: [
    temperature("target_c", [0.5, 20]),
    {
      key: "chiller_cooling_w",
      type: "decimal",
      pair: pairOf("chiller_cooling_w", "cooling"),
      unit: "cooling",
    },
    temperature("room_day_c", [-20, 50]),
    temperature("room_summer_day_c", [-20, 50]),
  ],
  water: [
    choice("disinfectant", ["chlorine", "chloramine", "none"]),
    { key: "chlorine_mg_per_l", type: "decimal", when: is("disinfectant", "chlorine", "chloramine") },
    {
      key: "ph",
      type: "decimal",
      range: [
        [3, 12],
        [3, 12],
      ],
    },
    {
      key: "alkalinity",
      type: "decimal",
      pair: ["alkalinity_german_degrees", "alkalinity_mg_caco3_per_l"],
      unit: "alkalinity",
    },
  ],
  eggs: [
    choice("species", speciesKeys),
    choice("here", ["yes", "no"]),
    { key: "egg_day", type: "day" },
    { key: "egg_count", type: "integer" },
    choice("age", ["thermal_sum", "fertilised_on", "eyed"], { when: here }),
    {
      key: "thermal_sum",
      type: "decimal",
      pair: ["thermal_sum_c_days", "thermal_sum_f_units"],
      unit: "thermal",
      when: (answers) => here(answers) && is("age", "thermal_sum")(answers),
    },
    { key: "fertilised_on", type: "day", when: (answers) => here(answers) && is("age", "fertilised_on")(answers) },
    choice("origin", ["farmed", "wild"], { when: here }),
  ],
  kit: [{ key: "kit", type: "kit" }],
  calendar: [
    { key: "weekdays", type: "weekdays" },
    { key: "breaks", type: "breaks" },
  ],
  permit: [
    { key: "release_from", type: "day" },
    { key: "release_until", type: "day" },
    { key: "permit", type: "text", optional: true },
  ],
  check: [],
};

/** Keys of the answers that are typed in one of two units. */
export const unitPairs = new Set(
  Object.values(questionsOf)
    .flat()
    .filter((question) => question.pair)
    .map((question) => question.key),
);

export const asked = (screen: Screen, answers: Answers): readonly Question[] =>
  questionsOf[screen].filter((question) => question.when?.(answers) ?? true);

export const allAsked = (answers: Answers): Question[] => screens.flatMap((screen) => asked(screen, answers));
export const screenOf = (key: string): Screen =>
  screens.find((screen) => questionsOf[screen].some((question) => question.key === key)) ?? "check";

export const isOpen = (question: Question, answers: Answers): boolean => {
  if (question.sure || question.optional) return false;
  if (answers.unsure[question.key]) return true;
  if (question.type === "breaks") return answers.breaks.length === 0;
  const text = answer(answers, question.key);
  return text === "";
};

/** What is worth finding out, most important first: what harms animals, then dates, then what only sharpens numbers. */
const worth = [
  "disinfectant",
  "volume",
  "target_c",
  "species",
  "chlorine_mg_per_l",
  "chiller_cooling_w",
  "egg_day",
  "age",
  "thermal_sum",
  "kit",
  "release_from",
  "breaks",
  "alkalinity",
  "ph",
  "air_l_per_min",
  "egg_count",
  "room_summer_day_c",
  "elevation",
];

/** Keys of the open questions that are worth finding out, ranked. A measured box stands in for the volume. */
export function openKeys(answers: Answers): string[] {
  const open = new Set(
    allAsked(answers)
      .filter((question) => isOpen(question, answers))
      .map((question) => question.key),
  );
  if (boxLitres(answers) !== null) open.delete("volume");
  return worth.filter((key) => open.has(key));
}

export function freshAnswers(timeZone: string, today: string, units: string, language: string): Answers {
  const year = Number(today.slice(0, 4));
  const begins = today.slice(5) >= "07-01" ? year : year - 1;
  return {
    values: {
      language,
      units,
      time_zone: timeZone,
      name: `${begins}–${String(begins + 1).slice(2)}`,
      weekdays: "mon tue wed thu fri",
    },
    unsure: {},
    second: {},
    breaks: [],
  };
}

/** Whether an answer is in its second unit: as typed, else by the units chosen. */
export const inSecond = (question: Question, answers: Answers): boolean =>
  question.pair !== undefined && (answers.second[question.key] ?? answers.values.units === "us");

const numberOf = (answers: Answers, key: string): number | null => {
  const read = readNumber(answer(answers, key));
  return read.ok ? read.value : null;
};

// Assumed: gravel and equipment take up a tenth. An inch is 2.54 cm exactly.
const waterShare = 0.9;
const cmPerInch = 2.54;

/** The water in a tank of these inner lengths, in whole litres; null while one is missing. */
export function boxLitres(answers: Answers): number | null {
  if (!measuring(answers)) return null;
  const sides = ["length_cm", "width_cm", "water_height_cm"].map((key) => {
    const value = numberOf(answers, key);
    const question = questionsOf.tank.find((one) => one.key === key);
    return value !== null && question ? value * (inSecond(question, answers) ? cmPerInch : 1) : null;
  });
  const [length, width, height] = sides;
  if (!length || !width || !height) return null;
  return Math.max(1, Math.round(((length * width * height) / 1000) * waterShare));
}

/** Days that an answer means, with what is taken for it where nobody is sure. */
export function daysOf(answers: Answers, today: string): { first: string; egg: string; here: boolean } {
  const arrived = here(answers);
  const told = answer(answers, "egg_day");
  const filled = answer(answers, "first_day");
  const first = filled || (arrived && told && told < today ? told : today);
  // Assumed: eight weeks for the filter to ripen and two to chill.
  const planned = shiftDay(first > today ? first : today, 70);
  return { first, egg: told || (arrived ? today : planned), here: arrived };
}

function numberProblem(question: Question, answers: Answers): string | null {
  const text = answer(answers, question.key);
  if (text === "") return null;
  const label = t.firstRun.question(question.key).label;
  const read = readNumber(text);
  if (!read.ok) return read.reason === "unclear" ? t.errors.unclearNumber(label, text) : t.errors.noNumber(label, text);
  if (question.type === "integer" && !Number.isInteger(read.value)) return t.errors.noWholeNumber(label, text);
  const range = question.range?.[inSecond(question, answers) ? 1 : 0];
  if (range && (read.value < range[0] || read.value > range[1]))
    return t.firstRun.problems.outside(label, numeral(range[0]), numeral(range[1]));
  const mayBeNought =
    question.unit === "temperature" || question.key.endsWith("_per_l") || question.unit === "alkalinity";
  if (mayBeNought ? read.value < 0 && question.unit !== "temperature" : read.value <= 0)
    return t.firstRun.problems.positive(label);
  return null;
}

const isDay = (text: string) => /^\d{4}-\d\d-\d\d$/.test(text) && !Number.isNaN(dayNumber(text));

function dayProblem(key: string, answers: Answers, today: string): string | null {
  const text = answer(answers, key);
  if (text === "") return null;
  const { label } = t.firstRun.question(key);
  const words = t.firstRun.problems;
  if (!isDay(text)) return words.noDay(label);
  const days = daysOf(answers, today);
  if (key === "egg_day" && days.here && text > today) return words.notPast(label);
  if (key === "egg_day" && !days.here && text < today) return words.notFuture(label);
  if (key === "egg_day" && text < days.first) return words.beforeFilling(label);
  if (key === "first_day" && days.here && text > today) return words.notPast(label);
  if (key === "fertilised_on" && text > days.egg) return words.notPast(label);
  if (key === "release_until" && answer(answers, "release_from") > text) return words.crossed;
  return null;
}

/** What stands in the way of leaving a screen. `field` is the question's key. */
export function problemsOf(screen: Screen, answers: Answers, today: string): Problem[] {
  const problems: Problem[] = [];
  const add = (field: string, sentence: string | null) => {
    if (sentence) problems.push({ code: "form", field, sentence });
  };
  for (const question of asked(screen, answers)) {
    if (question.type === "decimal" || question.type === "integer") add(question.key, numberProblem(question, answers));
    if (question.type === "day") add(question.key, dayProblem(question.key, answers, today));
    if (question.type === "zone" && answer(answers, question.key) === "")
      add(question.key, t.errors.required(t.firstRun.question(question.key).label));
    if (question.type === "breaks" && !answers.unsure.breaks)
      answers.breaks.forEach((one, index) => {
        const name = one.name.trim() || t.firstRun.break.unnamed(index + 1);
        if (!isDay(one.from) || (one.to !== "" && (!isDay(one.to) || one.to < one.from)))
          add("breaks", t.firstRun.problems.breakDays(name));
      });
  }
  return problems;
}

/** A record to keep; its slot is the same at every try. */
export interface Planned {
  slot: string;
  kind: string;
  body: Body;
  at?: string;
  /** The screen on which it can be put right. */
  screen: Screen;
}

function known(answers: Answers, keys: readonly string[]): Body {
  const body: Body = {};
  for (const question of allAsked(answers).filter((one) => keys.includes(one.key))) {
    const text = answer(answers, question.key);
    if (text === "") continue;
    const numeric = question.type === "decimal" || question.type === "integer";
    const key = question.pair ? question.pair[inSecond(question, answers) ? 1 : 0] : question.key;
    const value = numeric ? numberOf(answers, question.key) : text;
    if (key && value !== null) body[key] = value;
  }
  return body;
}

const usualTarget = { target_c: 8 };
const usualLitres = 200;
const usualElevation = 500;
const usualSpecies = "rainbow_trout";
const usualCount = 100;

function seasonBody(answers: Answers, today: string): Body {
  const days = daysOf(answers, today);
  const target = known(answers, ["target_c"]);
  const volume = known(answers, ["volume"]);
  return {
    name: answer(answers, "name") || today.slice(0, 4),
    place: answer(answers, "place") || t.firstRun.ourSchool,
    time_zone: answer(answers, "time_zone"),
    first_day: days.first,
    ...(Object.keys(volume).length > 0 ? volume : { volume_l: boxLitres(answers) ?? usualLitres }),
    elevation_m: Number(answer(answers, "elevation") || usualElevation),
    species: answer(answers, "species") || usualSpecies,
    egg_day: days.egg,
    ...(days.here || answer(answers, "egg_day") ? {} : { egg_day_assumed: true }),
    ...known(answers, ["egg_count", "release_from", "release_until", "permit"]),
    ...(Object.keys(target).length > 0 ? target : usualTarget),
    ...(answer(answers, "weekdays") ? { school_weekdays: answer(answers, "weekdays") } : {}),
  };
}

function receiptBody(answers: Answers): Body {
  const sum = known(answers, ["thermal_sum"]);
  const fertilised = known(answers, ["fertilised_on"]);
  const told = Object.keys(sum).length > 0 ? sum : fertilised;
  const start =
    Object.keys(sum).length > 0 ? "thermal_sum" : Object.keys(fertilised).length > 0 ? "fertilised_on" : "eyed";
  return {
    count: usualCount,
    ...Object.fromEntries(Object.entries(known(answers, ["egg_count"])).map(([, value]) => ["count", value])),
    start,
    ...told,
    origin: answer(answers, "origin") || "wild",
  };
}

function waterBody(answers: Answers): Body {
  const kind = answer(answers, "disinfectant");
  const body = known(answers, ["ph", "alkalinity", "chlorine_mg_per_l"]);
  if (kind === "none") body.chlorine_mg_per_l = 0;
  if (kind === "chloramine") body.chloramine = true;
  return body;
}

/** The records of the answers, in the order in which they are kept: a season first, for the others need it. */
export function recordsOf(answers: Answers, today: string): Planned[] {
  const days = daysOf(answers, today);
  const zone = answer(answers, "time_zone");
  const list: Planned[] = [
    { slot: "season", kind: "season_setup", body: seasonBody(answers, today), screen: "school" },
  ];
  const tank = known(answers, [
    "length_cm",
    "width_cm",
    "water_height_cm",
    "wall",
    "lid",
    "pump_w",
    "air_l_per_min",
    "chiller_cooling_w",
    "room_day_c",
    "room_summer_day_c",
  ]);
  if (Object.keys(tank).length > 0) list.push({ slot: "tank", kind: "tank_build", body: tank, screen: "around" });
  const water = waterBody(answers);
  if (Object.keys(water).length > 0)
    list.push({
      slot: "water",
      kind: "source_water",
      body: { key: "tap", name: t.firstRun.tap, ...water },
      screen: "water",
    });
  if (days.here) {
    const noon = days.egg < today ? instantOfWallClock(`${days.egg}T12:00`, zone) : null;
    list.push({
      slot: "eggs",
      kind: "egg_receipt",
      body: receiptBody(answers),
      ...(noon ? { at: noon } : {}),
      screen: "eggs",
    });
  }
  if (!answers.unsure.breaks)
    answers.breaks.forEach((one, index) =>
      list.push({
        slot: `break.${index}`,
        kind: "closure",
        body: {
          name: one.name.trim() || t.firstRun.break.fallback,
          from: one.from,
          ...(one.to ? { to: one.to } : {}),
        },
        screen: "calendar",
      }),
    );
  const open = openKeys(answers).map((key) => t.firstRun.question(key).label);
  // Before the tank is filled the log takes no notes of it.
  if (open.length > 0 && days.first <= today)
    list.push({ slot: "open", kind: "note", body: { text: t.firstRun.note(open.join("; ")) }, screen: "check" });
  return list;
}
