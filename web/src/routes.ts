// Addresses inside the page: #/today, #/bench, #/season, #/season/wall, #/season/calendar, #/water, #/water/changes, #/brood,
// #/brood/room, #/brood/counts, #/heat, #/heat/thermometer, #/whatif, #/emergency, #/emergency/power_cut, #/log, #/log/water_change, #/history,
// #/history/42, #/setup, #/setup/tank, #/print, #/print/bench, #/print/report,
// #/lessons, #/lessons/teams, #/lessons/graphs, #/lessons/sheets, #/lessons/sheets/older/3/answers, #/copies, #/copies/table,
// #/classroom, #/classroom/who.
import { laterScreens, screens as setUpScreens } from "./forms/first_run";
import { recordKinds } from "./forms/kinds";

export const screens = [
  "today",
  "bench",
  "season",
  "water",
  "brood",
  "heat",
  "whatif",
  "emergency",
  "log",
  "history",
  "setup",
  "print",
  "lessons",
  "copies",
  "classroom",
] as const;
export type RouteName = (typeof screens)[number];
export interface Route {
  /** "missing" where the address leads nowhere: nothing else is shown in its place. */
  name: RouteName | "missing";
  rest: string[];
}

/** The screens of the top navigation, in its order; setup opens by itself when there is no season yet. */
export const navigation: RouteName[] = ["today", "bench", "log", "season", "water", "brood", "lessons", "history"];

function leadsToLesson(rest: readonly string[]): boolean {
  const [part = "", level = "", number = "1", answers = "answers"] = rest;
  if (rest.length === 1) return part === "teams" || part === "graphs" || part === "sheets";
  if (part !== "sheets" || rest.length > 4 || (level !== "younger" && level !== "older")) return false;
  return /^[1-9]\d{0,2}$/.test(number) && answers === "answers";
}

function leadsSomewhere(name: RouteName, rest: readonly string[]): boolean {
  const [part = "", more = ""] = rest;
  if (rest.length === 0) return true;
  if (name === "history") return /^\d+$/.test(part) && (rest.length === 1 || (rest.length === 2 && more === "correct"));
  if (name === "setup") return rest.length === 1 && [...setUpScreens, ...laterScreens].some((one) => one === part);
  if (name === "print") return rest.length === 1 && (part === "bench" || part === "report");
  if (name === "heat") return rest.length === 1 && part === "thermometer";
  if (name === "copies") return rest.length === 1 && part === "table";
  if (name === "season") return rest.length === 1 && (part === "wall" || part === "calendar");
  if (name === "classroom") return rest.length === 1 && part === "who";
  if (name === "water") return rest.length === 1 && part === "changes";
  if (name === "brood") return rest.length === 1 && (part === "room" || part === "counts");
  if (name === "emergency") return rest.length === 1 && /^[a-z_]+$/.test(part);
  if (name === "lessons") return leadsToLesson(rest);
  if (name !== "log") return false;
  if (part === "test") return rest.length === 2;
  return rest.length === 1 && (part === "kits" || (part !== "season_setup" && Object.hasOwn(recordKinds, part)));
}

export function routeOf(hash: string): Route {
  const missing: Route = { name: "missing", rest: [] };
  // The skip link's own mark is no address.
  if (hash === "#main") return { name: "today", rest: [] };
  let parts: string[];
  try {
    parts = hash
      .replace(/^#\/?/, "")
      .split("/")
      .filter((part) => part !== "")
      .map((part) => decodeURIComponent(part));
  } catch {
    return missing;
  }
  const [name = "today", ...rest] = parts;
  const known = screens.find((screen) => screen === name);
  return known && leadsSomewhere(known, rest) ? { name: known, rest } : missing;
}

export function hrefOf(name: RouteName, ...rest: (string | number)[]): string {
  return `#/${[name, ...rest.map((part) => encodeURIComponent(String(part)))].join("/")}`;
}
