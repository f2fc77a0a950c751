# Makes the season on which the program's posterior is compared with an outside one: ten weeks of an invented tank, its kit, and what
# a class with an erring eye read of a true tank drawn from the prior. Then solves twenty draws of the prior exactly, so that both
# statements of the model can be held against each other. Writes tests/reference/data/tank_posterior/*.csv.
#
#   Rscript tools/reference/make_tank_season.R            some seconds; Debian 12: r-base-core r-cran-desolve gcc

root <- normalizePath(file.path(dirname(sub("--file=", "", grep("--file=", commandArgs(), value = TRUE))), "../.."))
out_dir <- file.path(root, "tests/reference/data/tank_posterior")
dir.create(out_dir, showWarnings = FALSE)
write_table <- function(name, says, rows) {
  file <- file(file.path(out_dir, paste0(name, ".csv")), "w")
  writeLines(paste("#", c(says, "Made by tools/reference/make_tank_season.R; invented.")), file)
  write.csv(rows, file, row.names = FALSE, quote = FALSE, na = "")
  close(file)
}

# Warm for seven weeks and a half, then colder by 13 C within four days: more than gradual. A little food from the first day; eggs from week eight.
day <- 0:77
days <- data.frame(day = day, temperature_c = pmax(11, pmin(24, 24 - 3.25 * (day - 53))), excretion_mg_n_per_day = ifelse(day >= 58, 25, 0),
                   organic_mg_n_per_day = ifelse(day < 53, 4, 0), oxygen_use_mg_o2_per_day = ifelse(day >= 58, 300, 0))
write_table("days", c("The tank's days: temperature when the day begins (straight to the next), loads of the whole tank."), days)

deed <- function(day, deed, volume_l = NA, nitrate_mg_n_per_l = NA, alkalinity_meq_per_l = NA, carbon_mmol_per_l = NA, oxygen_mg_o2_per_l = NA,
                 ammonium_chloride_mg_n = NA, bicarbonate_meq = NA, lost_fraction = NA)
  data.frame(day, deed, volume_l, nitrate_mg_n_per_l, alkalinity_meq_per_l, carbon_mmol_per_l, oxygen_mg_o2_per_l, ammonium_chloride_mg_n, bicarbonate_meq, lost_fraction)
deeds <- deed(0, "fill", 200, 0.5, 1.6, 1.62, 8.4)
for (week in 0:9) {
  at <- 7 * week + 0.1
  if (week == 5) deeds <- rbind(deeds, deed(at, "rinse", lost_fraction = 0.15))
  if (week == 3) deeds <- rbind(deeds, deed(at, "top_up", 4, 0, 0, 0.015, 8.4))
  if (week < 8) deeds <- rbind(deeds, deed(at, "dose", ammonium_chloride_mg_n = if (week == 0) 400 else 200, bicarbonate_meq = if (week == 0) 0 else 30))
  else deeds <- rbind(deeds, deed(at, "change", 60, 0.5, 1.6, 1.63, 9))
}
write_table("deeds", c("What was done. fill, change, top_up: volume and the water that comes in; dose: for the whole tank; rinse: share of bacteria lost."), deeds)

kit <- data.frame(test = c("ammonia", "nitrite", "nitrate", "ph", "kh"), unit = c("mg_nh4_per_l", "mg_no2_per_l", "mg_no3_per_l", "ph", "german_degrees"),
                  method = c("steps", "steps", "steps", "steps", "drops"), per_drop = c(NA, NA, NA, NA, 0.5),
                  steps = c("0;0.2;0.4;0.8;1.6;3.2;6.4", "0;0.2;0.5;1;2;5;10", "0;5;10;20;40;80", "6.4;6.8;7.2;7.6;8.0;8.4", ""))
write_table("kit", "The kit: printed steps of the colour cards, or the unit of a drop.", kit)

source(file.path(root, "tools/reference/tank_model.R"))
solver_tolerance <- 1e-9

# The true tank and the eye. The first seed whose ammonia and nitrite both rise above 1 mg N/L and end below 0.5.
at_days <- 7 * (0:9) + 6.4
for (seed in 1:100) {
  set.seed(seed)
  truth <- rnorm(dimension)
  water <- water_at(truth, at_days)
  if (all(apply(water[, c("ammonia", "nitrite")], 2, max) > 1) && all(water[10, c("ammonia", "nitrite")] < 0.5)) break
}
cat("seed", seed, "\n")
read_by_eye <- function(test, place) {
  row <- match(test, kit$test)
  seen <- place + rnorm(1, sd = eye_sd)
  slipped <- runif(1) < slip
  if (kit$method[row] == "drops") return(data.frame(form = "drops", value = if (slipped) sample(0:8, 1) else max(ceiling(seen), 0)))
  card <- kit$card[[row]]
  n <- length(card)
  if (slipped) return(data.frame(form = "step", value = sample(card, 1)))
  if (seen > n - 0.5) return(data.frame(form = "above_last", value = card[n]))
  at <- min(max(floor(seen), 0), n - 1)
  if (seen > 0 && seen < n - 1 && abs(seen - at - 0.5) < 0.15) return(data.frame(form = "between", value = card[at + 1]))  # an eye that cannot decide
  data.frame(form = "step", value = card[min(max(round(seen), 0), n - 1) + 1])
}
readings <- NULL
for (i in seq_along(at_days))
  for (test in kit$test) readings <- rbind(readings, cbind(day = at_days[i], test = test, read_by_eye(test, places_of(test, water, truth)[i])))
write_table("readings", c("What was read. between: of this step and the next."), readings)
print(cbind(round(water[, c("ammonia", "nitrite", "nitrate", "ph", "alkalinity", "oxygen", "shock", "volume")], 3),
            matrix(paste(readings$form, readings$value), ncol = 5, byrow = TRUE)), quote = FALSE)

# Draws of the prior and what the readings say of them.
source(file.path(root, "tools/reference/tank_model.R"))
solver_tolerance <- 1e-9
set.seed(20)
points <- t(replicate(20, rnorm(dimension)))
values <- t(apply(points, 1, function(z) c(log_likelihood(z), water_at(z, max(reading_days))[, c("ammonia", "nitrite", "nitrate", "ph")])))
colnames(points) <- unknowns
colnames(values) <- c("log_likelihood", "ammonia_mg_n_per_l", "nitrite_mg_n_per_l", "nitrate_mg_n_per_l", "ph")
write_table("points", c("Twenty draws of the prior (standard normal numbers), the logarithm of the probability of all readings, and the water at the last reading,",
                        "by the model in tools/reference (lsoda of deSolve, rtol 1e-9)."), data.frame(point = 1:20, signif(points, 17), signif(values, 10)))
