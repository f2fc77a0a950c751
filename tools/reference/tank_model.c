/* The ripening tank written a second time, from the notes on the filter (docs/science/filter.md) and from published formulae, for lsoda of the R
   package deSolve. Shares no line with the program: it is what the program's posterior is compared with (tank_posterior.R).
   Differs on purpose where the program takes a short cut: pH by solving the whole balance of charge, ionic strength from the alkalinity of
   the moment.

   y: organic N, ammonia N, nitrite N, nitrate N (mg/L); ammonia and nitrite oxidisers (mg COD/L); oxygen (mg/L); alkalinity (meq/L);
      inorganic carbon (mmol/L); share of activity lost to a chill; volume (L). */

#include <R.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

enum { organic, ammonia, nitrite, nitrate, xa, xn, oxygen, alkalinity, carbon, shock, volume, state_count };
enum { growth_a, theta_a, decay_a, yield_a, half_ammonia, half_oxygen_a, growth_n, theta_n, decay_n, yield_n, half_nitrite, half_oxygen_n,
       inhibition, theta_decay, half_alkalinity, ammonification, capacity, transfer, sensitivity, recovery, load, dose_factor, parameter_count };
enum { day_temperature, day_excretion, day_organic, day_oxygen_use, day_columns };
enum { deed_day, deed_kind, deed_volume, deed_nitrate, deed_alkalinity, deed_carbon, deed_oxygen, deed_ammonium_chloride, deed_bicarbonate, deed_lost, deed_columns };
enum { change_water = 1, top_up, dose, rinse };

static double p[parameter_count];
static double *days = NULL, *deeds = NULL; /* row after row */
static int day_count = 0, deed_count = 0;
static int begun = -1; /* first deed not yet done */

static const double molar_n = 14.007, molar_o = 15.999;

/* .C("set_season", ...): one row a day, one row a deed, in order of time. */
void set_season(double *day_rows, int *n_days, double *deed_rows, int *n_deeds) {
  free(days);
  free(deeds);
  day_count = *n_days;
  deed_count = *n_deeds;
  days = malloc(sizeof(double) * day_columns * (size_t)day_count);
  deeds = malloc(sizeof(double) * deed_columns * (size_t)deed_count);
  memcpy(days, day_rows, sizeof(double) * day_columns * (size_t)day_count);
  memcpy(deeds, deed_rows, sizeof(double) * deed_columns * (size_t)deed_count);
}

static double of_day(int day, int column) { return days[(day < day_count ? day : day_count - 1) * day_columns + column]; }

/* What temperature makes of water and air; concentrations in mmol/L, ionic strength zero. */
typedef struct {
  double k1, k2, kw, ka, debye_huckel, oxygen_saturation, carbon_dioxide_saturation, gas, rot, growth_a, growth_n, decay;
} conditions;

static conditions conditions_at(double c) {
  conditions s;
  const double t = c + 273.15, l = log10(t);
  /* Plummer and Busenberg 1982; water from the same data base */
  s.k1 = 1e3 * pow(10, -356.3094 - 0.06091964 * t + 21834.37 / t + 126.8339 * l - 1684915 / (t * t));
  s.k2 = 1e3 * pow(10, -107.8871 - 0.03252849 * t + 5151.79 / t + 38.92561 * l - 563713.9 / (t * t));
  s.kw = 1e6 * pow(10, -283.971 - 0.05069842 * t + 13323.0 / t + 102.24447 * l - 1119669.0 / (t * t));
  const double henry = pow(10, 108.3865 + 0.01985076 * t - 6919.53 / t - 40.45154 * l + 669365.0 / (t * t)); /* mol/L/atm */
  s.ka = 1e3 * pow(10, -(0.09018 + 2729.92 / t)); /* Emerson and others 1975 */
  /* Davies' constant; dielectric constant of water by Malmberg and Maryott 1956 */
  s.debye_huckel = log(10) * 1.8246e6 * pow((87.740 - 0.40008 * c + 9.398e-4 * c * c - 1.410e-6 * c * c * c) * t, -1.5);
  /* Benson and Krause 1984; air of 760 mmHg, 420 uatm of carbon dioxide in it when dry */
  s.oxygen_saturation = exp(-139.34411 + 1.575701e5 / t - 6.642308e7 / (t * t) + 1.2438e10 / (t * t * t) - 8.621949e11 / (t * t * t * t));
  const double vapour = pow(10, 8.10765 - 1750.286 / (235 + c));
  s.carbon_dioxide_saturation = 1e3 * henry * 420e-6 * (760 - vapour) / 760;
  s.rot = pow(1.072, c - 20);
  s.gas = pow(1.024, c - 20);
  s.growth_a = pow(p[theta_a], c - 20);
  s.growth_n = pow(p[theta_n], c - 20);
  s.decay = pow(p[theta_decay], c - 20);
  return s;
}

/* Everything that follows temperature runs straight through each day. */
static struct { int day; conditions from, to; } at_hand = {-1, {0}, {0}};

static conditions conditions_now(double time) {
  int day = (int)floor(time);
  if (day < 0) day = 0;
  if (at_hand.day != day) {
    at_hand.day = day;
    at_hand.from = conditions_at(of_day(day, day_temperature));
    at_hand.to = conditions_at(of_day(day + 1, day_temperature));
  }
  conditions now;
  const double share = time - day, *from = &at_hand.from.k1, *to = &at_hand.to.k1;
  double *into = &now.k1;
  for (size_t i = 0; i < sizeof now / sizeof(double); ++i) into[i] = from[i] + share * (to[i] - from[i]);
  return now;
}

static double temperature_now(double time) {
  const int day = (int)floor(time);
  return of_day(day, day_temperature) + (time - day) * (of_day(day + 1, day_temperature) - of_day(day, day_temperature));
}

/* Activity coefficient of an ion of charge one, by Davies, in a sodium bicarbonate water. */
static double activity(double alk, const conditions *s) {
  const double ionic = 1e-3 * fmax(alk, 0), root = sqrt(ionic);
  return exp(-s->debye_huckel * (root / (1 + root) - 0.3 * ionic));
}

/* Activity of the hydrogen ion, mmol/L: HCO3 + 2 CO3 + OH - H = alkalinity, solved by Newton's method in its logarithm, kept in a bracket. */
static double hydrogen(double alk, double dic, const conditions *s, double f) {
  const double k1 = s->k1 / f, k2 = s->k2 / (f * f * f), kw = s->kw / f;
  double low = log(1e-9), high = log(1e2); /* pH 12 to 1 */
  double b = k1 * (alk - dic), x = alk > 0 ? log((-b + sqrt(b * b - 4 * alk * k1 * k2 * fmin(alk - 2 * dic, 0))) / (2 * alk)) : log(1e-4);
  if (!(x > low && x < high)) x = 0.5 * (low + high);
  for (int i = 0; i < 100; ++i) {
    const double h = exp(x), below = h * h + k1 * h + k1 * k2;
    const double miss = dic * (k1 * h + 2 * k1 * k2) / below + kw / h - h / f - alk;
    if (miss > 0) low = x; else high = x;
    const double slope = -dic * k1 * h * (h * h + 4 * k2 * h + k1 * k2) / (below * below) - kw / h - h / f;
    double next = x - miss / slope;
    if (!(next > low && next < high)) next = 0.5 * (low + high);
    if (fabs(next - x) < 1e-9) return exp(next);
    x = next;
  }
  return exp(x);
}

/* .C("ph_of", ...) for the readings. */
void ph_of(double *alk, double *dic, double *time, int *n, double *ph) {
  for (int i = 0; i < *n; ++i) {
    const double c = temperature_now(time[i]);
    const conditions s = conditions_at(c);
    ph[i] = 3 - log10(hydrogen(alk[i], dic[i], &s, activity(alk[i], &s)));
  }
}

void begin(void (*read)(int *, double *)) {
  int n = parameter_count;
  read(&n, p);
  at_hand.day = -1;
  begun = 0;
}

static double monod(double x, double half) { return x / (half + x); }

void rates_of_change(int *n, double *time, double *y, double *dy, double *out, int *ip) {
  (void)n; (void)out; (void)ip;
  const conditions s = conditions_now(*time);
  const int day = (int)floor(*time);
  const double f = activity(y[alkalinity], &s), h = hydrogen(y[alkalinity], y[carbon], &s, f);
  const double nh3 = y[ammonia] * s.ka * f / (s.ka * f + h);
  const double acid = 1 / (1 + h / (2.5118864315e-4 /* pH 6.6 */));
  const double breath = y[oxygen] * y[oxygen] / (0.05 * 0.05 + y[oxygen] * y[oxygen]);
  const double per_l = p[load] / y[volume];
  const double nitrogen = 0.086, inert = 0.08; /* of biomass */

  /* mg COD of bacteria grown and died, a litre and day */
  const double shared = (1 - y[shock]) * monod(y[alkalinity], p[half_alkalinity]) * acid;
  const double grown_a = p[growth_a] * s.growth_a * y[xa] * monod(y[ammonia], p[half_ammonia]) * monod(y[oxygen], p[half_oxygen_a]) * shared /
                         (1 + y[xa] * p[growth_a] / (p[capacity] * p[yield_a]));
  const double grown_n = p[growth_n] * s.growth_n * y[xn] * monod(y[nitrite], p[half_nitrite]) * monod(y[oxygen], p[half_oxygen_n]) * shared /
                         (1 + y[xn] * p[growth_n] / (p[capacity] * p[yield_n])) * p[inhibition] / (p[inhibition] + nh3);
  const double died_a = p[decay_a] * s.decay * y[xa] * breath, died_n = p[decay_n] * s.decay * y[xn] * breath;
  /* mg N oxidised, built in from ammonia or, where there is none, from nitrite; rotted; given off */
  const double oxidised_a = grown_a / p[yield_a], oxidised_n = grown_n / p[yield_n];
  const double from_nitrite = nitrogen * grown_n * 1e-6 / (1e-6 + y[ammonia] * y[ammonia]);
  const double built_in = nitrogen * (grown_a + grown_n) - from_nitrite;
  const double rotted = p[ammonification] * s.rot * y[organic];
  const double excreted = of_day(day, day_excretion) * per_l;
  const double breathed = of_day(day, day_oxygen_use) * per_l * breath;
  const double inert_free = (1 - inert) * (died_a + died_n);
  const double kla = p[transfer] * s.gas;

  dy[organic] = nitrogen * inert_free - rotted + of_day(day, day_organic) * per_l;
  dy[ammonia] = rotted + excreted - oxidised_a - built_in;
  dy[nitrite] = oxidised_a - oxidised_n - from_nitrite;
  dy[nitrate] = oxidised_n;
  dy[xa] = grown_a - died_a;
  dy[xn] = grown_n - died_n;
  /* oxygen demand: 3 O for ammonia to nitrite, 1 O for nitrite to nitrate, less what is stored in new cells; dead cells are breathed */
  dy[oxygen] = kla * (s.oxygen_saturation - y[oxygen]) - (3 * molar_o / molar_n * oxidised_a - grown_a) - (molar_o / molar_n * oxidised_n - grown_n) +
               3 * molar_o / molar_n * from_nitrite - inert_free - breathed;
  /* charge: + 1 for each ammonium that appears, - 1 for each nitrite or nitrate */
  dy[alkalinity] = (dy[ammonia] - dy[nitrite] - dy[nitrate]) / molar_n;
  /* cells are C5H7O2N, 5 C to 5 O2; breath gives 0.9 CO2 an O2 */
  const double k1 = s.k1 / f, k2 = s.k2 / (f * f * f);
  const double co2 = y[carbon] * h * h / (h * h + k1 * h + k1 * k2);
  dy[carbon] = 0.91 * kla * (s.carbon_dioxide_saturation - co2) + (inert_free - grown_a - grown_n + 0.9 * breathed) / (2 * molar_o);
  dy[shock] = -y[shock] / p[recovery];
  dy[volume] = 0; /* no evaporation in this season */
}

static void mix(double *y, double kept, const double *water) {
  y[organic] *= kept;
  y[ammonia] *= kept;
  y[nitrite] *= kept;
  y[nitrate] = kept * y[nitrate] + (1 - kept) * water[deed_nitrate];
  y[alkalinity] = kept * y[alkalinity] + (1 - kept) * water[deed_alkalinity];
  y[carbon] = kept * y[carbon] + (1 - kept) * water[deed_carbon];
  y[oxygen] = kept * y[oxygen] + (1 - kept) * water[deed_oxygen];
}

/* Called at the times of events: the deeds that are due, and what a day of sudden cooling costs when it begins. */
void happen(int *n, double *time, double *y) {
  (void)n;
  for (; begun < deed_count && deeds[begun * deed_columns + deed_day] <= *time + 1e-9; ++begun) {
    const double *d = deeds + begun * deed_columns;
    const double before = y[volume];
    switch ((int)d[deed_kind]) {
      case change_water: mix(y, 1 - d[deed_volume] / before, d); break;
      case top_up:
        y[volume] = before + d[deed_volume];
        mix(y, before / y[volume], d);
        y[xa] *= before / y[volume];
        y[xn] *= before / y[volume];
        break;
      case dose:
        y[ammonia] += p[dose_factor] * d[deed_ammonium_chloride] / before;
        y[alkalinity] += p[dose_factor] * d[deed_bicarbonate] / before;
        y[carbon] += p[dose_factor] * d[deed_bicarbonate] / before;
        break;
      case rinse:
        y[xa] *= 1 - d[deed_lost];
        y[xn] *= 1 - d[deed_lost];
        break;
    }
  }
  const int day = (int)floor(*time + 1e-9);
  if (fabs(*time - day) < 1e-9) {
    const double beyond = of_day(day, day_temperature) - of_day(day + 1, day_temperature) - 2;
    if (beyond > 0) y[shock] = 1 - (1 - y[shock]) * (1 - p[sensitivity] * beyond / 10);
  }
}
