# The tank's readings and unknown numbers written a second time, in R: priors, what a keeper's eye makes of a value, and the logarithm of
# the posterior density. Sourced by the scripts beside it. Packages (Debian 12): r-base-core, r-cran-desolve.
#
# log_likelihood(z) takes the unknowns as standard normal numbers in the order of `unknowns`; log_posterior(z) adds their prior.

suppressPackageStartupMessages(library(deSolve))

data_dir <- file.path(root, "tests/reference/data/tank_posterior")
compiled <- file.path(tempdir(), "tank_model.so")
if (system2("R", c("CMD", "SHLIB", "--output", compiled, file.path(root, "tools/reference/tank_model.c")), stdout = FALSE,
            env = "PKG_CFLAGS='-O2 -I.'") != 0) stop("tank_model.c could not be compiled")
unlink(file.path(root, "tools/reference/tank_model.o"))
dyn.load(compiled)

read_table <- function(name) read.csv(file.path(data_dir, paste0(name, ".csv")), comment.char = "#", stringsAsFactors = FALSE)

# --- Unknowns ---------------------------------------------------------------------------------------------------------------------

volume_l <- 200
media_area_m2 <- 1.8

# One row each of docs/science/filter.md's priors: shape, middle, spread, range. Values beyond the range stand at its end.
priors <- read.table(header = TRUE, text = "
  name                                     shape     middle spread  low  high
  ammonia_oxidiser_growth                  lognormal  0.75   0.30   0.1   4.0
  ammonia_oxidiser_growth_theta            normal     1.080  0.015  1.03  1.12
  ammonia_oxidiser_decay                   lognormal  0.10   0.35   0.01  0.6
  ammonia_oxidiser_yield                   lognormal  0.17   0.15   0.08  0.30
  ammonia_half_saturation                  lognormal  0.5    0.7    0.01  6.0
  ammonia_oxidiser_oxygen_half_saturation  lognormal  0.5    0.35   0.05  3.0
  nitrite_oxidiser_growth                  lognormal  0.70   0.30   0.1   4.0
  nitrite_oxidiser_growth_theta            normal     1.060  0.012  1.02  1.10
  nitrite_oxidiser_decay                   lognormal  0.10   0.35   0.01  0.6
  nitrite_oxidiser_yield                   lognormal  0.06   0.20   0.02  0.15
  nitrite_half_saturation                  lognormal  0.4    0.8    0.01  6.0
  nitrite_oxidiser_oxygen_half_saturation  lognormal  0.9    0.35   0.1   4.0
  free_ammonia_inhibition                  lognormal  0.5    0.7    0.03  10.0
  decay_theta                              normal     1.05   0.02   1.02  1.12
  alkalinity_half_saturation               lognormal  0.5    0.5    0.05  3.0
  ammonification                           lognormal  0.5    0.7    0.02  10.0
  filter_capacity                          lognormal  NA     0.55   0.01  300.0
  gas_transfer                             lognormal  50.0   0.5    2.0   400.0
  cold_shock_sensitivity                   beta       0.2    10.0   0.0   1.0
  cold_shock_recovery                      lognormal  10.0   0.5    1.0   60.0
  load_factor                              lognormal  1.0    0.3    0.2   5.0")
# Media turn over 0.245 g N a square metre and day at half their most.
priors$middle[priors$name == "filter_capacity"] <- 1000 * 0.245 / 0.5 * media_area_m2 / volume_l

kit <- read_table("kit")
kit$card <- lapply(strsplit(as.character(kit$steps), ";"), as.numeric)
unknowns <- c(priors$name, "ammonia_oxidisers_at_first", "nitrite_oxidisers_at_first", "first_alkalinity", "first_nitrate",
              "nitrite_in_nitrate_test", "dose", "seeding", paste0("error_of_", kit$test))
dimension <- length(unknowns)

is_lognormal <- priors$shape == "lognormal"
is_beta <- priors$shape == "beta"
beta_counts <- cbind(priors$middle, 1 - priors$middle)[is_beta, ] * priors$spread[is_beta]

parameters_of <- function(z) {
  own <- z[seq_len(nrow(priors))]
  # Growth and decay of a group go together: correlation 0.5.
  own[3] <- 0.5 * z[1] + sqrt(0.75) * z[3]
  own[9] <- 0.5 * z[7] + sqrt(0.75) * z[9]
  value <- priors$middle + priors$spread * own
  value[is_lognormal] <- (priors$middle * exp(priors$spread * own))[is_lognormal]
  # The beta distribution by a normal logit: mean log(a - 1/2) - log(b - 1/2), variance 1/(a - 1/2) + 1/(b - 1/2).
  value[is_beta] <- plogis(log((beta_counts[1] - 0.5) / (beta_counts[2] - 0.5)) + own[is_beta] * sqrt(sum(1 / (beta_counts - 0.5))))
  c(pmin(pmax(value, priors$low), priors$high), exp(0.1 * z[27]))
}

# --- What was done ----------------------------------------------------------------------------------------------------------------

days <- read_table("days")
deeds <- read_table("deeds")
fill <- deeds[deeds$deed == "fill", ]
deeds <- deeds[deeds$deed != "fill", ]
deeds$deed <- match(deeds$deed, c("change", "top_up", "dose", "rinse"))
deeds[is.na(deeds)] <- 0
day_rows <- as.double(t(as.matrix(days[, c("temperature_c", "excretion_mg_n_per_day", "organic_mg_n_per_day", "oxygen_use_mg_o2_per_day")])))
deed_rows <- as.double(t(as.matrix(deeds[, c("day", "deed", "volume_l", "nitrate_mg_n_per_l", "alkalinity_meq_per_l", "carbon_mmol_per_l", "oxygen_mg_o2_per_l",
                                             "ammonium_chloride_mg_n", "bicarbonate_meq", "lost_fraction")])))
invisible(.C("set_season", day_rows, nrow(days), deed_rows, nrow(deeds)))
chilled <- days$day[-nrow(days)][head(days$temperature_c, -1) - tail(days$temperature_c, -1) > 2]
event_days <- sort(unique(c(deeds$day, chilled)))

first_state <- function(z) {
  a <- 10^(-4 + z[22])
  buffer <- exp(0.1 * z[24])
  c(organic = 0, ammonia = 0, nitrite = 0, nitrate = fill$nitrate_mg_n_per_l * exp(0.3 * z[25]), a = a, n = a * 0.3 * exp(0.8 * z[23]),
    oxygen = fill$oxygen_mg_o2_per_l, alkalinity = fill$alkalinity_meq_per_l * buffer, carbon = fill$carbon_mmol_per_l * buffer, shock = 0, volume = fill$volume_l)
}

floors <- c(1e-3, 1e-3, 1e-3, 1e-3, 1e-12, 1e-12, 0.05, 1e-3, 1e-3, 1e-3, 1)
solver_tolerance <- 1e-4

# The water at these days (one row a day), solved by lsoda.
water_at <- function(z, at_days) {
  z <- as.numeric(z)
  times <- sort(unique(c(0, at_days, event_days[event_days < max(at_days)])))
  path <- lsoda(first_state(z), times, "rates_of_change", parameters_of(z), rtol = solver_tolerance, atol = solver_tolerance * floors, dllname = "tank_model",
                initfunc = "begin", events = list(func = "happen", time = times[times %in% event_days]), maxsteps = 20000)
  if (nrow(path) < length(times)) return(NULL)
  path <- path[match(at_days, path[, 1]), , drop = FALSE]
  ph <- .C("ph_of", path[, "alkalinity"], path[, "carbon"], as.double(at_days), length(at_days), ph = double(length(at_days)))$ph
  cbind(path, ph = ph)
}

# --- What was read ----------------------------------------------------------------------------------------------------------------

molar <- c(n = 14.007, h = 1.008, o = 15.999)
printed_units <- c(mg_nh4_per_l = (molar[["n"]] + 4 * molar[["h"]]) / molar[["n"]], mg_no2_per_l = (molar[["n"]] + 2 * molar[["o"]]) / molar[["n"]],
                   mg_no3_per_l = (molar[["n"]] + 3 * molar[["o"]]) / molar[["n"]], ph = 1,
                   german_degrees = 56.0774 / 20)  # 10 mg CaO/L

# Place on the card: 0 the first step, 1 the second, straight between and beyond; drops for a drop count.
place_of <- function(test, seen) {
  row <- match(test, kit$test)
  printed <- seen * printed_units[[kit$unit[row]]]
  if (kit$method[row] == "drops") return(printed / kit$per_drop[row])
  card <- kit$card[[row]]
  n <- length(card)
  i <- pmin(pmax(findInterval(printed, card), 1), n - 1)
  i - 1 + (printed - card[i]) / (card[i + 1] - card[i])
}

# What each test sees, with its own lasting error.
seen_by <- function(test, water, z) {
  error <- z[28 + match(test, kit$test)]
  switch(test,
         ammonia = water[, "ammonia"] * exp(0.25 * error),
         nitrite = water[, "nitrite"] * exp(0.25 * error),
         nitrate = (water[, "nitrate"] + water[, "nitrite"] * exp(0.5 * z[26])) * exp(0.25 * error),
         ph = water[, "ph"] + 0.2 * error,
         kh = water[, "alkalinity"] * exp(0.05 * error))
}
places_of <- function(test, water, z) place_of(test, pmax(seen_by(test, water, z), 0))

# The stretch of places a reading names.
stretch_of <- function(test, form, value) {
  row <- match(test, kit$test)
  if (form == "drops") return(c(if (value <= 0) -Inf else value - 1, max(value, 1)))
  card <- kit$card[[row]]
  last <- length(card) - 1
  if (form == "below_first") return(c(-Inf, 0))
  if (form == "above_last") return(c(last, Inf))
  at <- which.min(abs(card - value)) - 1
  if (form == "between") return(c(at, at + 1))
  c(if (at == 0) -Inf else at - 0.5, if (at == last) Inf else at + 0.5)
}

eye_sd <- 0.5
slip <- 0.02
if (file.exists(file.path(data_dir, "readings.csv"))) {
  readings <- read_table("readings")
  reading_days <- sort(unique(readings$day))
  by_test <- lapply(split(readings, readings$test), function(rows) {
    stretch <- mapply(stretch_of, rows$test, rows$form, rows$value)
    row <- match(rows$test[1], kit$test)
    list(test = rows$test[1], at = match(rows$day, reading_days), low = stretch[1, ], high = stretch[2, ],
         floor = slip / min(max(if (kit$method[row] == "steps") length(kit$card[[row]]) else 0, 8), 30))
  })
}

# A reading says something wrong of any class once in fifty times, else what the erring eye makes of the place.
log_likelihood_of <- function(water, z) {
  sum <- 0
  for (t in by_test) {
    place <- places_of(t$test, water, z)[t$at]
    sum <- sum + sum(log(t$floor + (1 - slip) * (pnorm((t$high - place) / eye_sd) - pnorm((t$low - place) / eye_sd))))
  }
  sum
}
log_likelihood <- function(z) {
  water <- water_at(z, reading_days)
  if (is.null(water) || any(!is.finite(water))) return(-Inf)
  log_likelihood_of(water, z)
}
log_posterior <- function(z) sum(dnorm(z, log = TRUE)) + log_likelihood(z)
