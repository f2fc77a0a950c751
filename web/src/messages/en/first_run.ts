// Words of the set-up: each question with what its answer changes, what is taken while nobody is sure, and why finding
// out is worth it.

interface Asked {
  label: string;
  /** What the answer changes. */
  changes: string;
  /** What is taken until somebody knows. */
  taken?: string;
  /** Worth finding out, because. */
  why?: string;
}

const questions: Record<string, Asked> = {
  language: {
    label: "Language",
    changes: "The words on every screen and print. The page loads anew at once; you can change it later, too.",
  },
  units: { label: "Units", changes: "How numbers are typed and shown. The log itself keeps °C and litres." },
  place: {
    label: "School or place",
    changes: "It heads every page and print. A place, never a person’s name.",
    taken: "“Our school”.",
  },
  name: { label: "Name of this season", changes: "It tells one season from the next." },
  time_zone: {
    label: "Time zone",
    changes: "It decides when a school day begins.",
    taken: "The zone of this device.",
  },
  elevation: {
    label: "Height above the sea",
    changes: "Thin air holds less oxygen, so fewer fish fit.",
    taken: "500 m (1,600 ft). In a lower place that is the careful side; in a higher one it is not.",
    why: "The higher the school, the less oxygen the water holds and the fewer fish the tank carries.",
  },
  volume: {
    label: "Water in the tank",
    changes: "Every dose and water change is sized by it.",
    taken:
      "200 L (53 gal). Or measure the three lengths below: then it is worked out, less a tenth for gravel and equipment.",
    why: "Every dose and every water change is sized by it: a tank half as large gets twice the dose.",
  },
  length_cm: { label: "Length inside", changes: "With width and height it gives the volume." },
  width_cm: { label: "Width inside", changes: "With length and height it gives the volume." },
  water_height_cm: {
    label: "Height of the water",
    changes: "From the floor of the tank to the surface.",
  },
  first_day: {
    label: "Day the tank was filled, or will be",
    changes: "The season begins on it. Nothing in the tank can be logged before.",
    taken: "Today.",
  },
  wall: {
    label: "Walls",
    changes: "How fast the tank warms up when the chiller stops.",
    taken: "Glass.",
  },
  lid: {
    label: "Lid",
    changes: "How much warmth comes in from above, and how much water evaporates.",
    taken: "A plain sheet.",
  },
  pump_w: {
    label: "Filter and pumps: electric power (W), as on the plate",
    changes: "What runs day and night ends up as heat that the chiller has to take out.",
    taken: "A usual pump for this volume.",
  },
  air_l_per_min: {
    label: "Air pump: litres of air a minute, as on the plate",
    changes: "How many fish get enough oxygen.",
    taken: "The poorest small air stone.",
    why: "Until then the poorest air stone is reckoned with, and the tank seems to carry fewer fish than it may.",
  },
  chiller_cooling_w: {
    label: "Chiller: heat it takes from the water",
    changes:
      "Whether it holds the eggs’ temperature in a warm room. On its plate as cooling capacity, not as electric power.",
    taken: "That it holds 4 to 26 °C (39 to 79 °F), whatever the room. Nobody has checked that.",
    why: "Without it nobody can say whether the tank stays cold when the room gets warm.",
  },
  target_c: {
    label: "Temperature for the eggs",
    changes: "The dates of hatching and swimming up. Your hatchery or permit names it.",
    taken: "8 °C (46 °F), which lies in the comfortable range of eggs of all species here.",
    why: "A degree moves hatching by days. Your hatchery or permit names it.",
  },
  room_day_c: {
    label: "Room in the coldest months, while in use",
    changes: "How hard the chiller works, and how long the tank stays cold without it.",
    taken: "20 °C (68 °F).",
  },
  room_summer_day_c: {
    label: "Room in the warmest months, while in use",
    changes: "Whether the chiller is strong enough in late spring.",
    taken: "A few degrees above the coldest months.",
    why: "Late spring is when a chiller fails to keep up.",
  },
  disinfectant: {
    label: "What keeps your tap water clean",
    changes: "Chlorine and chloramine kill fish and filter. Your water supplier’s yearly report names it.",
    taken: "Chlorine or chloramine may be in it: neutralise new water and test it before it goes in.",
    why: "Chlorine and chloramine kill eggs, fish and filter, and chloramine leaves ammonia behind.",
  },
  chlorine_mg_per_l: {
    label: "How much, as total chlorine (mg/L)",
    changes: "How much neutraliser a water change needs.",
    taken: "Not known: test the new water.",
    why: "It sizes the neutraliser for each water change.",
  },
  ph: {
    label: "pH of the tap water",
    changes: "How poisonous ammonia is after a water change.",
    taken: "Not known, so predictions of water changes leave it out.",
    why: "It decides how poisonous ammonia becomes after a water change.",
  },
  alkalinity: {
    label: "Alkalinity (carbonate hardness) of the tap water",
    changes: "How steady the pH is while the filter ripens and works.",
    taken: "Not known, so predictions of water changes leave it out.",
    why: "Soft water lets the pH fall suddenly while the filter works.",
  },
  species: {
    label: "Species",
    changes: "The dates and the temperature band. Your supplier or permit names it.",
    taken: "Rainbow trout. Its dates can be weeks off for another species.",
    why: "Each species has dates and temperatures of its own: weeks lie between them.",
  },
  here: {
    label: "Are the eggs in the tank already?",
    changes: "Whether the plan starts from an arrival or a date to come.",
    taken: "No.",
  },
  egg_day: {
    label: "Day the eggs arrive, or arrived",
    changes: "Every date of the plan starts from it.",
    taken:
      "Ten weeks after the tank is filled: eight for the filter to ripen and two to chill. If they are here: today.",
    why: "Every date of the plan starts from it. It now stands on a guess.",
  },
  egg_count: {
    label: "How many eggs",
    changes: "How much ammonia, food and oxygen to reckon with.",
    taken: "100 for eggs that are here; for eggs to come, 200 is reckoned with until you say.",
    why: "Ammonia, food and oxygen all go with the number.",
  },
  age: {
    label: "What the supplier tells of their age",
    changes: "How narrow the dates are.",
    taken: "Only that they are eyed: the dates stay wide.",
    why: "It narrows the dates from weeks to days. Ask the hatchery for thermal units or the day of fertilisation.",
  },
  thermal_sum: {
    label: "Thermal units so far",
    changes: "Degrees above freezing, added up day by day since fertilisation.",
    taken: "Only that they are eyed.",
    why: "It narrows the dates from weeks to days.",
  },
  fertilised_on: {
    label: "Day of fertilisation",
    changes: "The dates are counted from it.",
    taken: "Only that they are eyed.",
  },
  origin: {
    label: "Where the eggs come from",
    changes: "Wild eggs hatch over weeks, farmed ones within days.",
    taken: "Wild, the wider one.",
  },
  kit: {
    label: "Your test kit",
    changes:
      "Readings are logged on the steps of your own card. Pick the nearest; you match it to your card in a moment.",
    taken: "No kit: water tests can be logged once you have described one.",
    why: "Without a kit no water test can be logged, and untested water is never called good.",
  },
  weekdays: {
    label: "Days with school",
    changes: "Hatching and first feeding are planned on days when somebody is there.",
    taken: "Monday to Friday.",
  },
  breaks: {
    label: "Breaks and closed days",
    changes: "The plan keeps first feeding out of breaks, and says who has to look after the fish.",
    taken: "No breaks: every weekday counts as open.",
    why: "First feeding in a break nobody planned for starves fry. A calendar file can be read in later.",
  },
  release_from: {
    label: "Permit: first day for a release",
    changes: "The plan aims for fry that can leave then.",
    taken: "No window: release is not part of the plan.",
    why: "If the fry are ready outside the window, they may not leave.",
  },
  release_until: {
    label: "Permit: last day for a release",
    changes: "The fry must be ready by then.",
    taken: "No window.",
  },
  permit: {
    label: "Permit in short",
    changes: "Shown where release is spoken of. The permit itself decides.",
  },
};

const choices: Record<string, Record<string, string>> = {
  language: { en: "English", es: "Español" },
  units: { metric: "°C and litres", us: "°F and US gallons" },
  elevation: {
    "300": "Below 300 m (1,000 ft)",
    "1000": "300 to 1,000 m (1,000 to 3,300 ft)",
    "2000": "1,000 to 2,000 m (3,300 to 6,600 ft)",
    "3000": "Higher",
  },
  wall: { glass: "Glass", acrylic: "Acrylic", foam: "An insulated box" },
  lid: { none: "None", sheet: "A plain sheet", foam: "Insulated" },
  disinfectant: {
    chlorine: "Chlorine",
    chloramine: "Chloramine",
    none: "Nothing (a well, or said so by the supplier)",
  },
  here: { yes: "Yes", no: "No, they are to come" },
  age: { thermal_sum: "Thermal units", fertilised_on: "The day of fertilisation", eyed: "Only “eyed”" },
  origin: { farmed: "A farm’s brood stock", wild: "Wild parents" },
  kit: { blank: "None of these: I describe mine" },
  weekdays: { mon: "Mon", tue: "Tue", wed: "Wed", thu: "Thu", fri: "Fri", sat: "Sat", sun: "Sun" },
};

export const firstRun = {
  intro:
    "About five minutes. Nothing here is final: every answer can be corrected later, and what you are not sure of may stay open.",
  steps: {
    units: "Language and units",
    school: "Your school",
    tank: "The tank",
    around: "Around the water",
    cold: "Cold",
    water: "Tap water",
    eggs: "The eggs",
    kit: "Your test kit",
    calendar: "The school’s calendar",
    permit: "The permit",
    check: "Is this right?",
    card: "Match your card",
    plan: "Your plan",
  } as Record<string, string>,
  progress: (step: number, of: number) => `Step ${step} of ${of}`,
  question: (key: string): Asked => questions[key] ?? { label: key, changes: "" },
  choice: (key: string, value: string) => choices[key]?.[value],
  unsure: "Not sure",
  unsureAbout: (label: string) => `Not sure: ${label}`,
  taken: (what: string) => `Until you know: ${what}`,
  unitOf: (label: string) => `Unit of “${label}”`,
  eggDayTaken: (day: string) =>
    `${day}. Ten weeks after the tank is filled: eight for the filter to ripen, two to chill.`,
  units: {
    alkalinity: ["German degrees (KH)", "mg/L as CaCO₃"],
    thermal: ["°C·days", "°F units"],
  } as Record<string, readonly [string, string]>,
  next: "Next",
  back: "Back",
  kitLike: (name: string) => `Like this: ${name}`,
  askSupplier:
    "Ask the supplier now for the eggs’ age on arrival: thermal units, or the day of fertilisation. You log it when they come.",
  break: {
    name: "Name",
    named: (index: number) => `Name of break ${index}`,
    from: "First closed day",
    fromOf: (index: number) => `First closed day of break ${index}`,
    to: "Last closed day",
    toOf: (index: number) => `Last closed day of break ${index}`,
    add: "Add a break",
    remove: (name: string) => `Remove ${name}`,
    unnamed: (index: number) => `break ${index}`,
    fallback: "School closed",
    file: "A calendar file (.ics) of the school can be read in once the season has begun.",
  },
  check: {
    intro: "Correct anything now or later. Begin, and the plan is made.",
    answered: "Your answers",
    open: "Not sure yet",
    openNone: "Nothing is left open.",
    change: (label: string) => `Change: ${label}`,
    changeShort: "Change",
    begin: "Begin the season",
    saving: "Saving …",
    again: "Some of it is kept already. Press the button again: only what is missing is added, nothing is kept twice.",
  },
  problems: {
    notFuture: (label: string) =>
      `${label}: this day is over. If the eggs are here, say so; else give the day they come.`,
    notPast: (label: string) => `${label}: this day is still to come.`,
    beforeFilling: (label: string) => `${label}: the tank was not filled yet on this day.`,
    crossed: "The permit’s last day is before its first.",
    breakDays: (name: string) => `${name}: give its first day; its last day may not be before it.`,
    noDay: (label: string) => `${label}: that is no day of the calendar.`,
    positive: (label: string) => `${label}: a number above 0, please.`,
    outside: (label: string, low: string, high: string) =>
      `${label}: please between ${low} and ${high}. Is the unit right?`,
  },
  card: {
    intro:
      "Change the steps below to those printed on your own card. A reading can only be logged on steps that are there.",
    later: "Do it later",
  },
  plan: {
    made: "The season has begun. This is the plan as far as it can be known today.",
    working: "Making the plan …",
    noPlan: "There is no plan yet",
    next: "The one next step",
    dates: "Key dates",
    eggs: "Eggs arrive",
    release: "Release, by the permit",
    likely: (from: string, to: string, mid: string) => `${from} to ${to}, most likely ${mid}`,
    open: "Worth finding out",
    openHelp:
      "Most important first: what can harm animals, then what moves dates, then what only sharpens numbers. The order is our judgement, not a calculation.",
    openNone: "You were sure of everything. The log will tell the rest.",
    today: "To today’s page",
    season: "See the whole plan",
    print: "Print sheets for the wall",
    calendar: "Read in the school’s calendar",
  },
  ourSchool: "Our school",
  tap: "Tap water",
  note: (list: string) => `Not sure at set-up, usual values taken: ${list}.`,
};
