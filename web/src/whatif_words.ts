// What a slider of a what-if says in words. Numbers of the science come ready-made; these are the user's own choices.
import type { WhatIfBase, WhatIfSliderName } from "./contract_whatif";
import { t } from "./messages";
import { figure, temperatureChangeText, temperatureText } from "./units";

const percent = (fraction: number) => Math.round(100 * fraction);

export function sliderWords(name: WhatIfSliderName, value: number, base: WhatIfBase): string {
  const range = base.sliders[name];
  const untouched = Math.abs(value - range.as_planned) < 1e-9;
  switch (name) {
    case "room_warmer_c": {
      const at = temperatureText((range.now ?? 0) + value);
      if (untouched) return t.whatif.asItIs(at);
      return value > 0
        ? t.whatif.warmer(temperatureChangeText(value), at)
        : t.whatif.colder(temperatureChangeText(-value), at);
    }
    case "set_point_warmer_c":
      if (untouched) return t.whatif.asPlanned;
      return value > 0
        ? t.whatif.setWarmer(temperatureChangeText(value))
        : t.whatif.setColder(temperatureChangeText(-value));
    case "animals_factor": {
      const count = String(Math.round(base.animals * value));
      return untouched ? t.whatif.asItIs(count) : t.whatif.times(figure(value.toFixed(2).replace(/\.?0+$/, "")), count);
    }
    case "food_factor":
      if (untouched) return t.whatif.asPlanned;
      return value === 0 ? t.whatif.noFood : t.whatif.percentOfPlanned(percent(value));
    case "weekly_change_fraction":
      if (untouched) return (base.usual_change_assumed ? t.whatif.usualAssumed : t.whatif.usual)(percent(value));
      return value === 0 ? t.whatif.noChanges : t.whatif.aWeek(percent(value));
  }
}
