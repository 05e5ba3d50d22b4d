# Computes passing, D50 and the verdicts of a certificate again, from its twin alone: Rscript recompute.R C-26-00042.json (needs jsonlite)
twin <- jsonlite::fromJSON(commandArgs(trailingOnly = TRUE)[1], simplifyVector = FALSE)
number <- function(x) if (is.null(x)) NA else x
curve <- function(run) { # aperture in µm and percent passing, finest first
  nominal <- sapply(run$cuts, function(cut) cut$apertureNanometres)
  cuts <- run$cuts[order(nominal)]
  residue <- sapply(cuts, function(cut) cut$residueMicrograms)
  if (data$procedure == "nestedStack") residue <- rev(cumsum(rev(residue)))
  data.frame(nominal = sort(nominal), x = sapply(cuts, function(cut) cut$usedApertureNanometres) / 1000,
             q = 100 - 100 * residue / sapply(cuts, function(cut) cut$wholeMicrograms))
}
size_at <- function(points, percent) { # straight over the logarithm of the aperture; never extrapolated
  for (i in seq_len(nrow(points) - 1)) {
    x <- points$x[i:(i + 1)]; q <- points$q[i:(i + 1)]
    if (q[1] <= percent && percent <= q[2] && q[1] < q[2]) return(x[1] * (x[2] / x[1])^((percent - q[1]) / (q[2] - q[1])))
  }
  NA
}
for (sample in c(list(twin), twin$further)) { # version 2 of the form has further samples
  data <- sample$measurements
  cat(sprintf("lot %s, sample %s\n", sample$product$lotNumber, sample$sample$code))
  curves <- lapply(data$runs, curve)
  for (i in seq_len(nrow(curves[[1]]))) cat(sprintf("passing %g um: %.6f %%\n", curves[[1]]$x[i], mean(sapply(curves, function(one) one$q[i]))))
  for (limit in data$limits) {
    value <- number(limit$value)
    at <- function(one) one$q[one$nominal == limit$apertureNanometres]
    if (limit$characteristic == "passing") value <- mean(sapply(curves, at))
    if (limit$characteristic == "retained") value <- 100 - mean(sapply(curves, at))
    if (limit$characteristic == "percentile" && data$reading == "logLinear") value <- mean(sapply(curves, size_at, limit$percent))
    inside <- !is.na(value) && !isTRUE(value < number(limit$lower) - 1e-9) && !isTRUE(value > number(limit$upper) + 1e-9)
    what <- if (!is.null(limit$percent)) limit$percent else if (!is.null(limit$apertureNanometres)) limit$apertureNanometres else ""
    cat(sprintf("%s %s: %s %s; certified %s\n", limit$characteristic, what, if (is.na(value)) "none" else sprintf("%.6f", value), if (inside) "inside" else "outside", limit$verdict))
  }
}
