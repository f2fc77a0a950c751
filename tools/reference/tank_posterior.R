# The posterior of the season in tests/reference/data/tank_posterior, sampled with nothing of this project's: the model of tank_model.c and
# tank_model.R, lsoda of the package deSolve, random walks of the package mcmc, judged by the package coda.
#
#   Rscript tools/reference/tank_posterior.R [seconds]
#
# Debian 12: r-base-core r-cran-desolve r-cran-mcmc r-cran-coda gcc. Takes about `seconds` (1200) of processor time, shared by two processes. The shape
# of the random walk is found by adaptive chains that are thrown away (a quarter of the time), then held fixed. Writes posterior.csv and draws.csv beside the season.
# What it costs against this program: bench/ratios_bench.cpp.

root <- Sys.getenv("REDD_ROOT", normalizePath(file.path(dirname(sub("--file=", "", grep("--file=", commandArgs(), value = TRUE))), "../..")))
source(file.path(root, "tools/reference/tank_model.R"))
suppressPackageStartupMessages({
  library(mcmc)
  library(coda)
  library(parallel)
})

processor_seconds <- function() sum(proc.time()[c("user.self", "sys.self")])

# Adaptive random walk (Haario and others 2001, from memory) from a draw of the prior: learns scale and covariance as it goes.
adapted <- function(seed, seconds) {
  set.seed(seed)
  start <- processor_seconds()
  draws <- replicate(50, rnorm(dimension), simplify = FALSE)
  at <- draws[[which.max(sapply(draws, log_posterior))]]
  at_log <- log_posterior(at)
  log_scale <- log(2.38 / sqrt(dimension))
  root_of <- diag(dimension)
  seen <- matrix(0, 0, dimension)
  i <- 0
  while (processor_seconds() - start < seconds) {
    i <- i + 1
    to <- at + exp(log_scale) * as.vector(root_of %*% rnorm(dimension))
    to_log <- log_posterior(to)
    accept <- min(1, exp(to_log - at_log))
    if (runif(1) < accept) {
      at <- to
      at_log <- to_log
    }
    log_scale <- log_scale + 3 / max(i, 100)^0.6 * (accept - 0.25)
    if (i %% 5 == 0) seen <- rbind(seen, at)
    if (i %% 500 == 0 && i >= 1000) {
      late <- seen[-seq_len(nrow(seen) %/% 2), ]
      root_of <- t(chol(cov(late) * 0.95 + diag(0.05, dimension)))
    }
  }
  list(at = at, log_scale = log_scale, late = seen[-seq_len(nrow(seen) %/% 2), ], seconds = processor_seconds() - start, steps = i)
}

# Four chains of fixed random walks; every 20th state is kept.
spacing <- 20
sample_posterior <- function(seconds, cores = 2, chains = 4) {
  RNGkind("L'Ecuyer-CMRG")
  warm <- mclapply(seq_len(chains), adapted, seconds = seconds / 4 / chains, mc.cores = cores, mc.preschedule = FALSE)
  shape <- t(chol(cov(do.call(rbind, lapply(warm, `[[`, "late")))))
  scale <- exp(mean(sapply(warm, `[[`, "log_scale")))
  cost <- mean(sapply(warm, function(w) w$seconds / w$steps))
  kept <- floor(seconds * 3 / 4 / chains / cost / spacing)
  run <- function(chain) {
    set.seed(100 + chain)
    start <- processor_seconds()
    result <- metrop(log_posterior, warm[[chain]]$at, nbatch = kept, nspac = spacing, scale = scale * shape)
    list(z = result$batch, accepted = result$accept, seconds = processor_seconds() - start)
  }
  sampled <- mclapply(seq_len(chains), run, mc.cores = cores, mc.preschedule = FALSE)
  list(warm = warm, chains = lapply(sampled, `[[`, "z"), accepted = sapply(sampled, `[[`, "accepted"), kept = kept,
       warm_seconds = sum(sapply(warm, `[[`, "seconds")), seconds = sum(sapply(sampled, `[[`, "seconds")))
}

# Mean, spread, effective draws and convergence of each column of several chains.
summary_of <- function(chains, names) {
  all <- as.mcmc.list(lapply(chains, mcmc))
  pooled <- do.call(rbind, chains)
  ess <- effectiveSize(all)
  data.frame(what = names, mean = colMeans(pooled), sd = apply(pooled, 2, sd), mcse = apply(pooled, 2, sd) / sqrt(ess), effective = ess,
             gelman_rubin = gelman.diag(all, autoburnin = FALSE, multivariate = FALSE)$psrf[, 1])
}

if (sys.nframe() == 0) {
  seconds <- as.numeric(c(commandArgs(TRUE), 1200)[1])
  began <- Sys.time()
  result <- sample_posterior(seconds)
  # The water at the last reading, of every other state kept.
  water <- mclapply(result$chains, function(z) {
    z <- z[seq(1, nrow(z), by = 2), ]
    t(apply(z, 1, function(one) water_at(one, max(reading_days))[, c("ammonia", "nitrite", "nitrate")]))
  }, mc.cores = 2)
  rows <- rbind(summary_of(result$chains, unknowns), summary_of(water, c("ammonia_mg_n_per_l", "nitrite_mg_n_per_l", "nitrate_mg_n_per_l")))
  rows[, -1] <- signif(rows[, -1], 6)
  print(rows, row.names = FALSE)
  note <- c(sprintf("R %s.%s, deSolve %s (lsoda, rtol %g), mcmc %s (metrop, 4 chains of %d states, each %dth kept; accepted %s), coda %s.", R.version$major, R.version$minor,
                    packageVersion("deSolve"), solver_tolerance, packageVersion("mcmc"), result$kept * spacing, spacing,
                    paste(sprintf("%.2f", result$accepted), collapse = ", "), packageVersion("coda")),
            sprintf("Processor time: %.0f s of adaptive chains, thrown away; %.0f s of sampling. Wall time %.0f min.", result$warm_seconds, result$seconds,
                    as.numeric(Sys.time() - began, units = "mins")))
  cat(note, sep = "\n")
  write_rows <- function(name, says, rows) {
    file <- file(file.path(data_dir, paste0(name, ".csv")), "w")
    writeLines(paste("#", says), file)
    write.csv(rows, file, row.names = FALSE, quote = FALSE)
    close(file)
  }
  write_rows("posterior", c("Posterior of the season beside this: unknowns as standard normal numbers, then the water at the last reading. mcse: Monte-Carlo standard error of",
                            "the mean; effective: independent draws it is worth; gelman_rubin: spread between chains over spread within (1 when they agree).",
                            "Made by tools/reference/tank_posterior.R, apart from this program.", note), rows)
  some <- do.call(rbind, lapply(result$chains, function(z) z[round(seq(1, nrow(z), length.out = 5)), ]))
  solver_tolerance <- 1e-9
  some <- cbind(seq_len(nrow(some)), signif(some, 10), signif(apply(some, 1, log_likelihood), 10))
  colnames(some) <- c("point", unknowns, "log_likelihood")
  write_rows("draws", c("Twenty draws of the posterior and the logarithm of the probability of all readings, as in points.csv.", "Made by tools/reference/tank_posterior.R."), some)
}
