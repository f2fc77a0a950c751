// Which tests of the kit today's list asks for. Only what the day says is looked at: what is not known or old, and the
// actions that ask for a test.
import type { DayView, Kit } from "../contract";
import type { Expected } from "./plan";

/** The quantity that a rule's request for a test is about. */
const quantityOfRule: Record<string, string> = {
  ammonia: "total_ammonia",
  nitrite: "nitrite",
  nitrate: "nitrate",
  ph: "ph",
  buffer: "alkalinity",
  hardness: "hardness",
  oxygen: "oxygen",
  chlorine: "chlorine",
};

const agedDays = (at: string, now: string) => (Date.parse(now) - Date.parse(at)) / 86_400_000;

/** Keys of the tests that are due, in the kit's order; empty when none is. */
export function dueTests(day: DayView, kit: Kit): string[] {
  const asked = day.actions.filter((action) => action.deeds.includes("test"));
  const weekly = asked.some((action) => action.rule === "weekly_test" && action.by.slice(0, 10) <= nextDay(day.today));
  const named = new Set(asked.map((action) => quantityOfRule[action.rule]).filter((one) => one !== undefined));
  return kit.tests
    .filter(({ quantity }) => {
      if (named.has(quantity)) return true;
      const water = day.water.find((one) => one.key === quantity);
      if (!water) return false;
      const at = water.latest?.at ?? null;
      if (water.latest === null || water.tone === "unknown") return true;
      return weekly && (at === null || agedDays(at, day.now) > 1);
    })
    .map((test) => test.key);
}

/** An end of a local day may stand as the next day in UTC. */
function nextDay(day: string): string {
  return new Date(Date.parse(`${day}T00:00:00Z`) + 86_400_000).toISOString().slice(0, 10);
}

/** What the last tests read, for the choice between a low and a high card. Only pH is shown in the core's own unit. */
export function lastRead(day: DayView): Expected[] {
  const latest = day.water.find((one) => one.key === "ph")?.latest;
  return latest && latest.at !== null ? [{ quantity: "ph", value: latest.mid }] : [];
}
