// The record forms as data: which fields each kind of record has, in the order they are asked. Words live in messages,
// rules about values live in the server; here is only what to ask and when. Readings and kits have forms of their own.

export type UnitKind = "temperature" | "volume" | "mass" | "length" | "thickness" | "cooling";

/** How a measured field's key ends, by the unit the user chose; the server converts. */
export const unitEndings: Record<UnitKind, readonly [string, string]> = {
  temperature: ["_c", "_f"],
  volume: ["_l", "_us_gal"],
  mass: ["_g", "_oz"],
  length: ["_cm", "_in"],
  thickness: ["_mm", "_in"],
  cooling: ["_w", "_btu_per_h"],
};

export interface Field {
  key: string;
  type:
    | "decimal"
    | "integer"
    | "numbers"
    | "text"
    | "food"
    | "long_text"
    | "choice"
    | "day"
    | "yes_no"
    | "source_water"
    | "time_zone";
  unit?: UnitKind;
  required?: boolean;
  choices?: readonly string[];
  /** What stands in the field at first. */
  fallback?: string;
  /** Shown only while another field holds one of these values. */
  when?: { field: string; is: readonly string[] };
  /** Tucked away under "more" until wanted. */
  extra?: boolean;
  /** Only decides what else is asked, and is never sent; remembered on this device. */
  local?: boolean;
  /** Left empty, it is the number of values in this list. */
  countOf?: string;
}

const temperature = (key: string, more: Partial<Field> = {}): Field => ({
  key,
  type: "decimal",
  unit: "temperature",
  ...more,
});
const decimal = (key: string, more: Partial<Field> = {}): Field => ({ key, type: "decimal", ...more });
const choice = (key: string, choices: readonly string[], more: Partial<Field> = {}): Field => ({
  key,
  type: "choice",
  choices,
  required: true,
  ...more,
});

const measured = (key: string, unit: UnitKind, more: Partial<Field> = {}): Field => ({
  key,
  type: "decimal",
  unit,
  ...more,
});
const whole = (key: string, more: Partial<Field> = {}): Field => ({ key, type: "integer", ...more });
const kept = { required: false } as const;

export const speciesKeys = [
  "chinook",
  "coho",
  "chum",
  "pink_even",
  "pink_odd",
  "sockeye",
  "rainbow_trout",
  "brown_trout",
  "brook_trout",
  "lake_trout",
  "atlantic_salmon",
] as const;

export const recordKinds: Record<string, readonly Field[]> = {
  temperature: [
    temperature("temperature_c", { required: true }),
    choice("place", ["tank", "room", "source"], { fallback: "tank" }),
  ],
  water_change: [
    { key: "volume_l", type: "decimal", unit: "volume", required: true },
    temperature("new_water_c"),
    { key: "dechlorinated", type: "yes_no" },
    { key: "vacuumed", type: "yes_no" },
    { key: "source_water", type: "source_water" },
  ],
  top_up: [measured("volume_l", "volume", { required: true }), { key: "source_water", type: "source_water" }],
  dose: [
    choice("substance", [
      "sodium_bicarbonate",
      "calcium_chloride_dihydrate",
      "magnesium_sulfate_heptahydrate",
      "ammonium_chloride",
      "sodium_thiosulfate_pentahydrate",
      "other",
    ]),
    { key: "name", type: "text", when: { field: "substance", is: ["other"] }, required: true },
    { key: "mass_g", type: "decimal", unit: "mass", required: true },
  ],
  count: [
    choice("what", ["dead_eggs", "dead_alevins", "dead_fry", "hatched", "swum_up", "alive"]),
    choice("method", ["counted", "estimated", "sampled"], { fallback: "counted" }),
    { key: "count", type: "integer", required: true },
    decimal("looked_at_fraction", { required: true, when: { field: "method", is: ["sampled"] } }),
  ],
  feeding: [
    choice("given_in", ["grams", "spoons"], { local: true, fallback: "grams" }),
    measured("mass_g", "mass", { required: true, when: { field: "given_in", is: ["grams"] } }),
    decimal("spoons", { required: true, when: { field: "given_in", is: ["spoons"] } }),
    { key: "food", type: "food" },
  ],
  spoon: [
    whole("spoons", { required: true, fallback: "10" }),
    measured("mass_g", "mass", { required: true }),
    { key: "food", type: "food" },
  ],
  fish_sample: [
    whole("count", { required: true, countOf: "lengths_mm" }),
    measured("mass_g", "mass"),
    { key: "lengths_mm", type: "numbers" },
  ],
  milestone: [
    choice("milestone", [
      "first_eyes",
      "half_eyed",
      "first_hatch",
      "half_hatched",
      "all_hatched",
      "first_swim_up",
      "half_swim_up",
      "first_feed",
    ]),
    { key: "seen", type: "yes_no", required: true },
  ],
  equipment: [
    choice("equipment", ["chiller", "pump", "air", "heater", "power", "light", "other"]),
    choice("event", ["failed", "restored", "switched_off", "switched_on", "serviced"]),
    { key: "remark", type: "text" },
  ],
  filter_work: [choice("work", ["rinsed", "media_replaced", "media_added", "seeded"]), decimal("fraction")],
  set_point: [temperature("temperature_c", { required: true })],
  note: [{ key: "text", type: "long_text", required: true }],
  egg_receipt: [
    { key: "count", type: "integer", required: true },
    choice("start", ["fertilised_on", "thermal_sum", "eyed"]),
    { key: "fertilised_on", type: "day", required: true, when: { field: "start", is: ["fertilised_on"] } },
    decimal("thermal_sum_c_days", { required: true, when: { field: "start", is: ["thermal_sum"] } }),
    decimal("thermal_sum_doubt_c_days", { when: { field: "start", is: ["thermal_sum"] } }),
    decimal("start_doubt_days", { when: { field: "start", is: ["fertilised_on", "eyed"] } }),
    temperature("incubation_c", { when: { field: "start", is: ["fertilised_on", "eyed"] } }),
    temperature("box_c"),
    choice("origin", ["farmed", "wild"]),
    { key: "supplier", type: "text" },
  ],
  source_water: [
    { key: "key", type: "text", required: true },
    { key: "name", type: "text", required: true },
    decimal("ph"),
    decimal("alkalinity_meq_per_l"),
    decimal("hardness_meq_per_l"),
    decimal("total_ammonia_mg_n_per_l"),
    decimal("nitrite_mg_n_per_l"),
    decimal("nitrate_mg_n_per_l"),
    decimal("chloride_mg_per_l"),
    decimal("chlorine_mg_per_l"),
    { key: "chloramine", type: "yes_no" },
    temperature("temperature_c"),
  ],
  release: [
    { key: "count", type: "integer", required: true },
    { key: "place", type: "text", required: true },
    temperature("tank_c"),
    temperature("site_c"),
  ],
  closure: [
    { key: "name", type: "text", required: true },
    { key: "from", type: "day", required: true },
    { key: "to", type: "day" },
    { key: "shut_from", type: "text", extra: true },
  ],
  duty: [
    { key: "label", type: "text", required: true },
    { key: "from", type: "day", required: true },
    { key: "to", type: "day" },
  ],
  tank_build: [
    measured("length_cm", "length"),
    measured("width_cm", "length"),
    measured("water_height_cm", "length"),
    choice("wall", ["glass", "acrylic", "foam"], kept),
    measured("wall_thickness_mm", "thickness"),
    measured("foam_thickness_mm", "thickness"),
    whole("bare_long_sides"),
    choice("lid", ["none", "sheet", "foam"], kept),
    choice("base", ["open_frame", "board", "foam"], kept),
    measured("chiller_cooling_w", "cooling"),
    temperature("chiller_rated_water_c"),
    temperature("chiller_rated_room_c"),
    decimal("chiller_electric_w"),
    decimal("pump_w"),
    decimal("air_l_per_min"),
    decimal("flow_l_per_min"),
    temperature("room_day_c"),
    temperature("room_summer_day_c"),
    temperature("room_night_c", { extra: true }),
    temperature("room_weekend_c", { extra: true }),
    temperature("room_break_c", { extra: true }),
    whole("room_used_from_hour", { extra: true }),
    whole("room_used_until_hour", { extra: true }),
    whole("warmest_month", { extra: true }),
    decimal("light_w", { extra: true }),
    whole("light_from_hour", { extra: true }),
    whole("light_until_hour", { extra: true }),
    decimal("heater_w", { extra: true }),
    decimal("controller_band_c", { extra: true }),
    decimal("price_per_kwh", { extra: true }),
    { key: "currency", type: "text", extra: true },
  ],
  season_setup: [
    { key: "name", type: "text", required: true },
    { key: "place", type: "text", required: true },
    { key: "first_day", type: "day", required: true },
    { key: "volume_l", type: "decimal", unit: "volume", required: true },
    choice("species", speciesKeys),
    { key: "egg_day", type: "day" },
    { key: "egg_day_assumed", type: "yes_no" },
    { key: "egg_count", type: "integer" },
    temperature("target_c", { required: true }),
    decimal("elevation_m", { required: true, fallback: "500" }),
    { key: "time_zone", type: "time_zone", required: true },
    { key: "release_from", type: "day", extra: true },
    { key: "release_until", type: "day", extra: true },
    { key: "permit", type: "text", extra: true },
    { key: "school_weekdays", type: "text", extra: true },
    temperature("warm_c", { extra: true }),
    decimal("usual_change_fraction", { extra: true }),
    decimal("nitrate_act_mg_no3_per_l", { extra: true }),
    decimal("nitrate_ceiling_mg_no3_per_l", { extra: true }),
    decimal("filter_media_l", { extra: true }),
    decimal("ready_test_dose_mg_n_per_l", { extra: true }),
    decimal("ready_within_hours", { extra: true }),
    decimal("ready_total_ammonia_mg_n_per_l", { extra: true }),
    decimal("ready_nitrite_mg_n_per_l", { extra: true }),
  ],
};

/** The kinds offered beside the water tests, most used first. */
export const quickKinds = [
  "temperature",
  "water_change",
  "count",
  "feeding",
  "note",
  "fish_sample",
  "top_up",
  "milestone",
  "dose",
  "set_point",
  "filter_work",
  "equipment",
  "egg_receipt",
  "spoon",
  "source_water",
  "release",
  "closure",
  "duty",
  "tank_build",
] as const;

/** The key under which a field is sent when its second unit is chosen: temperature_c → temperature_f. */
export function keyInUnit(field: Field, second: boolean): string {
  if (!field.unit) return field.key;
  const [own, other] = unitEndings[field.unit];
  return second && field.key.endsWith(own) ? field.key.slice(0, -own.length) + other : field.key;
}
