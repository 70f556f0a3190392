# Works out anew, with R's own functions, what build/tests/tools/studies says of
# random inputs, and prints the largest difference of each kind of case. Speaks
# TAP, less its plan.
#
#     Rscript studies.R FILE
#
# A kind has a function of the inputs that gives the results in the same order,
# and a bound: the largest difference that is allowed, relative to R's number,
# which counts as 1e-9 if it is smaller.
kinds <- list()
kind <- function(name, bound, f) kinds[[name]] <<- list(bound = bound, f = f)

pairs_of <- function(v) matrix(v, ncol = 2, byrow = TRUE)
tables_of <- function(v) matrix(v, ncol = 4, byrow = TRUE)
quietly <- suppressWarnings # R warns that small counts are small

# ---- rates and distributions -------------------------------------------------

wilson <- function(x, n) as.numeric(quietly(prop.test(x, n, correct = FALSE))$conf.int)

# The end of a limit that is 0 or 1 by definition.
with_ends <- function(x, n, limits) c(if (x == 0) 0 else limits[1], if (x == n) 1 else limits[2])

kind("rate", 1e-9, function(v) {
  x <- v[1]; n <- v[2]
  c(with_ends(x, n, wilson(x, n)),
    with_ends(x, n, qbeta(c(.025, .975), x + .5, n - x + .5)))
})

kind("difference", 1e-9, function(v) {
  p <- v[c(1, 3)] / v[c(2, 4)]
  a <- with_ends(v[1], v[2], wilson(v[1], v[2]))
  b <- with_ends(v[3], v[4], wilson(v[3], v[4]))
  p[1] - p[2] + c(-sqrt((p[1] - a[1])^2 + (b[2] - p[2])^2),
                  sqrt((a[2] - p[1])^2 + (p[2] - b[1])^2))
})

kind("beta", 1e-9, function(v)
  c(pbeta(v[1], v[2], v[3]), qbeta(v[1], v[2], v[3]), qbeta(c(.1, .9), v[2], v[3])))

kind("continuous", 1e-9, function(v)
  c(pnorm(v[2] - 4), qnorm(v[1]), pchisq(v[2] * v[3] / 2, v[3], lower.tail = FALSE),
    qchisq(v[1], v[3]), pf(v[2], v[3], v[4], lower.tail = FALSE)))

kind("counts", 1e-9, function(v)
  c(dbinom(v[1], v[2], v[3]), pbinom(v[1], v[2], v[3]),
    pbinom(v[1] - 1, v[2], v[3], lower.tail = FALSE)))

# ---- tables --------------------------------------------------------------------

kind("exact", 1e-9, function(v) {
  t <- matrix(v, 2, byrow = TRUE)
  half <- dhyper(v[1], v[1] + v[2], v[3] + v[4], v[1] + v[3]) / 2
  p <- c(fisher.test(t, alternative = "greater")$p.value, fisher.test(t)$p.value)
  c(p, p - half)
})

# Koopman's limits by root finding throughout: the likeliest share under a ratio
# where the likelihood is level, or else at its end; the limits where the
# chi-square is that of 95 %.
koopman <- function(x1, n1, x2, n2, log_ratio) {
  r <- exp(log_ratio)
  level <- function(p2) (x1 + x2) / p2 - (n1 - x1) * r / (1 - r * p2) - (n2 - x2) / (1 - p2)
  most <- min(1, 1 / r)
  end <- most * (1 - 1e-14)
  p2 <- if (level(end) > 0) end else uniroot(level, c(1e-14 * most, end), tol = 1e-17, maxiter = 10000)$root
  p <- c(r * p2, p2)
  sum((c(x1, x2) - c(n1, n2) * p)^2 / (c(n1, n2) * p * (1 - p)))
}

kind("risk", 1e-9, function(v) {
  x1 <- v[1]; n1 <- v[1] + v[2]; x2 <- v[3]; n2 <- v[3] + v[4]
  past <- function(l) koopman(x1, n1, x2, n2, l) - qchisq(.95, 1)
  centre <- log(x1 / n1 / (x2 / n2))
  limit <- function(from, to) exp(uniroot(past, c(from, to), tol = 1e-12)$root)
  c(x2 > 0, if (x2 > 0) x1 / n1 / (x2 / n2) else 0,
    if (x1 > 0) limit(-9, min(centre, 12)) else 0,
    if (x2 > 0) limit(max(centre, -9), 12) else 0)
})

kind("adjust", 1e-12, function(v) p.adjust(v, "BH"))

# R corrects for continuity only where half an event or more is there to correct.
kind("pool", 1e-9, function(v) {
  t <- tables_of(v)
  strata <- array(t(t[, c(1, 3, 2, 4)]), c(2, 2, nrow(t)))
  test <- function(correct) mantelhaen.test(strata, correct = correct)
  n <- rowSums(t)
  beyond <- sum(t[, 1] - (t[, 1] + t[, 2]) * (t[, 1] + t[, 3]) / n)
  below <- sum(t[, 3] * (t[, 1] + t[, 2]) / n)
  odds <- test(FALSE)$estimate
  c(if (is.finite(odds)) odds else 0,
    if (below > 0) sum(t[, 1] * (t[, 3] + t[, 4]) / n) / below else 0,
    test(FALSE)$statistic, test(FALSE)$p.value,
    if (abs(beyond) >= .5) test(TRUE)$statistic else 0)
})

# ---- servers -------------------------------------------------------------------

# A search that knows no slopes, begun at three places; the best of them is
# refined by the same search until it stands.
kind("team", 1e-6, function(v) {
  r <- pairs_of(v); x <- r[, 1]; n <- r[, 2]
  lost <- function(q) {
    m <- plogis(q[1]); w <- exp(q[2]); a <- m * w; b <- (1 - m) * w
    -(sum(lbeta(a + x, b + n - x) - lbeta(a, b)) + log(m) + log(1 - m) - (q[2] - log(30))^2 / 2)
  }
  start <- qlogis((sum(x) + 1) / (sum(n) + 2))
  best <- NULL
  for (w in log(c(3, 30, 300))) {
    found <- list(par = c(start, w))
    for (round in 1:6) found <- optim(found$par, lost, control = list(reltol = 1e-16, maxit = 2000))
    if (is.null(best) || found$value < best$value) best <- found
  }
  m <- plogis(best$par[1]); w <- exp(best$par[2])
  a <- m * w + x; b <- (1 - m) * w + n - x
  as.numeric(rbind(a / (a + b), qbeta(.1, a, b), qbeta(.9, a, b)))
})

# ---- all -----------------------------------------------------------------------

numbers <- function(text) as.numeric(strsplit(trimws(text), " ")[[1]])

difference_of <- function(case, f) {
  ours <- numbers(case[3])
  theirs <- f(numbers(case[2]))
  if (length(ours) != length(theirs)) return(Inf)
  max(abs(ours - theirs) / pmax(abs(theirs), 1e-9))
}

cases <- strsplit(readLines(commandArgs(TRUE)[1]), "\t")
names <- vapply(cases, `[`, "", 1)
failed <- FALSE
for (name in union(names, names(kinds))) {
  mine <- cases[names == name]
  far <- vapply(mine, difference_of, 0, f = kinds[[name]]$f)
  good <- length(mine) > 0 && isTRUE(all(far <= kinds[[name]]$bound))
  failed <- failed || !good
  cat(sprintf("%s - %s: %d cases, largest difference %.1e, allowed %.0e\n",
              if (good) "ok" else "not ok", name, length(mine), max(far, 0), kinds[[name]]$bound))
  if (!good && length(mine)) cat("#", mine[[which.max(far)]], "\n")
}
quit(status = failed)
