// Where what hands did is written down: the form behind each deed of a step. Waiting, planning and asking need none.
import type { Action } from "../contract";

const forms: Record<string, readonly string[]> = {
  test: [],
  change_water: ["water_change"],
  dose: ["dose"],
  clean_filter: ["filter_work"],
  set_temperature: ["set_point"],
  feed: ["feeding"],
  count: ["count"],
  mend: ["equipment"],
};

/** The first deed of a step that has a form, with the address of that form inside the log. */
export function formOfDeed(action: Action): { deed: string; rest: readonly string[] } | null {
  const deed = action.deeds.find((one) => Object.hasOwn(forms, one));
  return deed === undefined ? null : { deed, rest: forms[deed] ?? [] };
}
