# Prints the processor seconds one log-likelihood takes at the stored draws of the posterior. For bench/ratios_bench.cpp.
root <- Sys.getenv("REDD_ROOT", normalizePath(file.path(dirname(sub("--file=", "", grep("--file=", commandArgs(), value = TRUE))), "../..")))
source(file.path(root, "tools/reference/tank_model.R"))
draws <- as.matrix(read.csv(file.path(data_dir, "draws.csv"), comment.char = "#")[, unknowns])
invisible(log_likelihood(draws[1, ]))
started <- sum(proc.time()[c("user.self", "sys.self")])
for (again in 1:20) invisible(apply(draws, 1, log_likelihood))
cat((sum(proc.time()[c("user.self", "sys.self")]) - started) / (20 * nrow(draws)), "\n")
