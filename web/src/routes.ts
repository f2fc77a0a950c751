// Addresses inside the page: #/today, #/season, #/log, #/log/water_change, #/history, #/history/42, #/setup.

export type RouteName = "today" | "season" | "log" | "history" | "setup";
export interface Route {
  name: RouteName;
  rest: string[];
}

export const screens: RouteName[] = ["today", "season", "log", "history", "setup"];
/** The screens of the top navigation, in its order; setup opens by itself when there is no season yet. */
export const navigation: RouteName[] = ["today", "log", "season", "history"];

export function routeOf(hash: string): Route {
  const [name, ...rest] = hash
    .replace(/^#\/?/, "")
    .split("/")
    .filter((part) => part !== "")
    .map((part) => decodeURIComponent(part));
  const known = screens.find((screen) => screen === name);
  return { name: known ?? "today", rest: known ? rest : [] };
}

export function hrefOf(name: RouteName, ...rest: (string | number)[]): string {
  return `#/${[name, ...rest.map((part) => encodeURIComponent(String(part)))].join("/")}`;
}
