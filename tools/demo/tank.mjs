// The invented tank: heat, nitrogen, carbonates and animals, one short step after another. It only has to tell a
// believable story; none of its numbers is used by the program. Concentrations are mg N/L, alkalinity and hardness meq/L.

const step_days = 1 / 96;

// Nitrogen: two bacterial groups on Monod kinetics with decay, temperature factors theta^(T - 20).
// Assumed: rounded from published activated-sludge ranges (Sin et al. 2008; Hiatt & Grady 2008), with lower decay and
// half-saturation, as attached freshwater filters show, chosen so that ripening takes about seven weeks.
const ammonia_oxidisers = { growth_per_day: 0.52, growth_theta: 1.08, decay_per_day: 0.05, half_mg_n_per_l: 0.3, yield: 0.17 };
const nitrite_oxidisers = { growth_per_day: 0.46, growth_theta: 1.06, decay_per_day: 0.05, half_mg_n_per_l: 0.2, yield: 0.06 };
const decay_theta = 1.05;
const meq_per_mg_n = 1 / 14; // alkalinity gained per mg N excreted; twice that is lost when it is nitrified

// Heat: foam on all but one pane, pump inside the water. Assumed.
const wall_w_per_k = 4.5;
const pump_w = 12;
const heat_capacity_j_per_k = 210 * 4190 * 1.04;
const chiller_w = 190;
const heater_w = 150;

/// Brook trout, days from fertilisation to half hatched: ln D = 5.189 - 0.1325 T, an exponential through the trout egg
/// table of Embody 1934 (rows recalled); swim-up takes 1.7 times as long (Crisp 1988).
const days_to_hatch = (t_c) => Math.exp(5.189 - 0.1325 * t_c);

/// pH of water of this alkalinity in balance with a CO2 pressure. Constants of Plummer & Busenberg 1982, Davies activity.
function balanced_ph(alkalinity_meq_per_l, t_c, pco2_uatm) {
  const t_k = t_c + 273.15;
  const log_k1 = -356.3094 - 0.06091964 * t_k + 21834.37 / t_k + 126.8339 * Math.log10(t_k) - 1684915 / (t_k * t_k);
  const log_kh = 108.3865 + 0.01985076 * t_k - 6919.53 / t_k - 40.45154 * Math.log10(t_k) + 669365 / (t_k * t_k);
  const ionic = 1.3e-3 * alkalinity_meq_per_l;
  const log_gamma = -0.5 * (Math.sqrt(ionic) / (1 + Math.sqrt(ionic)) - 0.3 * ionic);
  return Math.log10(alkalinity_meq_per_l * 1e-3) + log_gamma - log_k1 - log_kh - Math.log10(pco2_uatm * 1e-6);
}

/// Oxygen in mg/L at saturation, Benson & Krause 1984, at 640 m.
export function oxygen_at_saturation(t_c) {
  const t = t_c + 273.15;
  const ln = -139.34411 + 1.575701e5 / t - 6.642308e7 / t ** 2 + 1.2438e10 / t ** 3 - 8.621949e11 / t ** 4;
  return Math.exp(ln) * 0.9265;
}

function normal_share_below(z) {
  // Abramowitz & Stegun 7.1.26, five terms: more than a story needs.
  const x = Math.abs(z) / Math.SQRT2;
  const t = 1 / (1 + 0.3275911 * x);
  const tail = t * (0.254829592 + t * (-0.284496736 + t * (1.421413741 + t * (-1.453152027 + t * 1.061405429)))) * Math.exp(-x * x) / 2;
  return z > 0 ? 1 - tail : tail;
}

export class Tank {
  constructor(tap, random) {
    this.tap = tap;
    this.random = random;
    this.volume_l = 210;
    this.temperature_c = 18;
    this.set_point_c = null;
    this.room_c = 24;
    this.room_aim_c = 24;
    this.chiller_works = true;
    this.controller_error_c = 0; // it wanders around its set point
    this.total_ammonia = tap.total_ammonia_mg_n_per_l;
    this.nitrite = 0;
    this.nitrate = tap.nitrate_mg_n_per_l;
    this.alkalinity = tap.alkalinity_meq_per_l;
    this.hardness = tap.hardness_meq_per_l;
    this.ammonia_bacteria = 2e-4;
    this.nitrite_bacteria = 3e-5;
    this.rotting_mg_n = 0; // from food and dead eggs, on its way to ammonia
    this.top_up_l_per_day = 0.5; // evaporation made good from the tap
    this.pco2_uatm = 700;
    this.eggs = 0;
    this.alevins = 0;
    this.fry = 0;
    this.fry_g = 0.07;
    this.hatch_progress = 0;
    this.swim_progress = 0;
    this.moment = null;
  }

  advance_to(moment_ms) {
    if (this.moment === null) this.moment = moment_ms;
    while (this.moment < moment_ms) {
      const days = Math.min(step_days, (moment_ms - this.moment) / 86400000);
      this.#step(days);
      this.moment += days * 86400000;
    }
    this.moment = moment_ms;
  }

  #step(days) {
    this.#step_heat(days);
    this.#step_nitrogen(days);
    const added = (this.top_up_l_per_day * days) / this.volume_l;
    this.hardness += added * this.tap.hardness_meq_per_l;
    this.alkalinity += added * this.tap.alkalinity_meq_per_l;
    if (this.eggs + this.alevins + this.fry > 0) {
      this.hatch_progress += days / days_to_hatch(this.temperature_c);
      this.swim_progress += days / (1.7 * days_to_hatch(this.temperature_c));
    }
    this.pco2_uatm += (730 - this.pco2_uatm) * days * 0.5 + this.random.normal(70) * Math.sqrt(days);
    this.pco2_uatm = Math.max(480, this.pco2_uatm);
  }

  #step_heat(days) {
    const seconds = days * 86400;
    this.room_c += (this.room_aim_c - this.room_c) * (1 - Math.exp(-days * 6)) + this.random.normal(0.5) * Math.sqrt(days);
    const passive_w = wall_w_per_k * (this.room_c - this.temperature_c) + pump_w;
    this.controller_error_c += -this.controller_error_c * days * 3 + this.random.normal(0.45) * Math.sqrt(days);
    let control_w = 0;
    if (this.set_point_c !== null && this.chiller_works) {
      const wanted_w = ((this.set_point_c + this.controller_error_c - this.temperature_c) * heat_capacity_j_per_k) / seconds - passive_w;
      control_w = Math.max(-chiller_w, Math.min(heater_w, wanted_w));
    }
    this.temperature_c += ((passive_w + control_w) * seconds) / heat_capacity_j_per_k;
  }

  #step_nitrogen(days) {
    const excreted = (this.eggs * this.#egg_excretion_mg() + this.alevins * 0.03 + this.fry * this.fry_g * 0.07) / this.volume_l;
    const rotted = this.rotting_mg_n * (1 - Math.exp(-1.5 * days));
    this.rotting_mg_n -= rotted;
    const ammonia_in = excreted * days + rotted / this.volume_l;

    const grown = (group, substrate, biomass) =>
      group.growth_per_day * group.growth_theta ** (this.temperature_c - 20) * (substrate / (group.half_mg_n_per_l + substrate)) * biomass * days;
    const lost = (group, biomass) => group.decay_per_day * decay_theta ** (this.temperature_c - 20) * biomass * days;
    // Low carbonate hardness slows the first group (assumed, half speed at 0.15 meq/L).
    const carbonate = this.alkalinity / (0.15 + this.alkalinity);
    const oxidised = Math.min(0.9 * this.total_ammonia, (carbonate * grown(ammonia_oxidisers, this.total_ammonia, this.ammonia_bacteria)) / ammonia_oxidisers.yield);
    const finished = Math.min(0.9 * this.nitrite, grown(nitrite_oxidisers, this.nitrite, this.nitrite_bacteria) / nitrite_oxidisers.yield);
    this.total_ammonia += ammonia_in - oxidised;
    this.nitrite += oxidised - finished;
    this.nitrate += finished;
    this.ammonia_bacteria += oxidised * ammonia_oxidisers.yield - lost(ammonia_oxidisers, this.ammonia_bacteria);
    this.nitrite_bacteria += finished * nitrite_oxidisers.yield - lost(nitrite_oxidisers, this.nitrite_bacteria);
    this.alkalinity = Math.max(0.05, this.alkalinity + ammonia_in * meq_per_mg_n - 2 * oxidised * meq_per_mg_n);
  }

  // A rise towards hatching, within the 5-10 micrograms a day an egg is thought to give off.
  #egg_excretion_mg() {
    return 0.004 + 0.008 * Math.min(1.2, this.hatch_progress);
  }

  ph() {
    return balanced_ph(this.alkalinity, this.temperature_c, this.pco2_uatm);
  }

  change_water(volume_l, new_water_c) {
    const share = volume_l / this.volume_l;
    const mix = (old, fresh) => old + share * (fresh - old);
    // Dechlorinator frees the ammonia that chloramine holds: 0.1975 mg N per mg of chlorine.
    const tap_ammonia = this.tap.total_ammonia_mg_n_per_l + 0.1975 * this.tap.chlorine_mg_per_l;
    this.total_ammonia = mix(this.total_ammonia, tap_ammonia);
    this.nitrite = mix(this.nitrite, 0);
    this.nitrate = mix(this.nitrate, this.tap.nitrate_mg_n_per_l);
    this.alkalinity = mix(this.alkalinity, this.tap.alkalinity_meq_per_l);
    this.hardness = mix(this.hardness, this.tap.hardness_meq_per_l);
    this.temperature_c = mix(this.temperature_c, new_water_c);
    this.rotting_mg_n *= 1 - 0.5 * share;
  }

  dose_ammonium_chloride(mass_g) {
    this.total_ammonia += (mass_g * 1000) / 3.819 / this.volume_l;
  }
  dose_bicarbonate(mass_g) {
    this.alkalinity += ((mass_g * 1000) / 84.007) / this.volume_l;
  }
  damage_filter(share_of_ammonia_bacteria, share_of_nitrite_bacteria) {
    this.ammonia_bacteria *= 1 - share_of_ammonia_bacteria;
    this.nitrite_bacteria *= 1 - share_of_nitrite_bacteria;
  }

  /// Food given: nitrogen excreted is 0.092 of its protein (half of it is protein, assumed), and the fry grow.
  feed(mass_g) {
    this.rotting_mg_n += mass_g * 1000 * 0.5 * 0.092;
    this.fry_g += mass_g / Math.max(1, this.fry) / 1.25;
  }

  hatched_share() {
    return normal_share_below(Math.log(this.hatch_progress / this.lot_threshold) / 0.025);
  }
  swum_up_share() {
    return normal_share_below(Math.log(this.swim_progress / this.lot_threshold ** 0.7) / 0.025);
  }
}
