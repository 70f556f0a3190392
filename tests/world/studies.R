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

kind("tell", 1e-9, function(v) {
  if (v[1] == v[2]) return(0)
  n <- ceiling(power.prop.test(p1 = v[1], p2 = v[2], power = .8, tol = 1e-12)$n)
  if (n > 1e5) 0 else n
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

# ---- trend ---------------------------------------------------------------------

kind("limits", 0, function(v) {
  x <- 0:v[1]
  low <- x[pbinom(x, v[1], v[2]) <= .00135]
  high <- x[pbinom(x - 1, v[1], v[2], lower.tail = FALSE) <= .00135]
  c(if (length(low)) max(low) else -1, if (length(high)) min(high) else -1)
})

# The chain of a sum as a matrix of its states below the alarm.
chain <- function(up, down, alarm, p_up) {
  q <- matrix(0, alarm, alarm)
  for (s in seq_len(alarm) - 1) {
    lower <- max(0, s - down)
    q[s + 1, lower + 1] <- q[s + 1, lower + 1] + 1 - p_up
    if (s + up < alarm) q[s + 1, s + up + 1] <- q[s + 1, s + up + 1] + p_up
  }
  q
}
serves_to <- function(q) solve(diag(nrow(q)) - q, rep(1, nrow(q)))[1]

kind("cusum", 1e-9, function(v) {
  worse <- v[1] == 1; p0 <- v[2]; p1 <- if (worse) 2 * p0 else p0 / 2
  good <- log((1 - p0) / (1 - p1)); missed <- log(p1 / p0)
  up <- if (worse) round(1 / (good / (good + missed))) - 1 else 1
  down <- if (worse) 1 else round(-missed / -good)
  q <- function(alarm, p) chain(up, down, alarm, if (worse) p else 1 - p)
  alarm <- 1
  while (serves_to(q(alarm, p0)) < 300) alarm <- alarm + 1
  left <- c(1, rep(0, alarm - 1))
  for (i in 1:100) left <- left %*% q(alarm, p0)
  c(up, down, alarm, serves_to(q(alarm, p0)), serves_to(q(alarm, p1)), 1 - sum(left))
})

season_of <- function(v) {
  s <- matrix(v, ncol = 3, byrow = TRUE)
  s <- s[s[, 3] > 0, , drop = FALSE]
  data.frame(t = s[, 1], x = s[, 2], n = s[, 3])
}

kind("trend", 1e-9, function(v) {
  s <- season_of(v)
  test <- quietly(prop.trend.test(s$x, s$n, s$t))
  c(test$statistic, test$p.value)
})

# R stops where the deviance does, which is early; so it takes all its steps, and
# says that it has not stopped.
kind("plain line", 1e-6, function(v) {
  s <- season_of(v)
  fit <- quietly(glm(cbind(x, n - x) ~ t, binomial, s, control = list(epsilon = 1e-300, maxit = 50)))
  as.numeric(summary(fit)$coefficients[, 1:2])
})

# Firth's line: the top of the penalised likelihood by a search that knows no
# slopes, then the zero of the penalised score by Newton's method with slopes
# from differences.
kind("line", 1e-6, function(v) {
  s <- season_of(v)
  design <- cbind(1, s$t)
  weight <- function(b) { p <- plogis(design %*% b)[, 1]; s$n * p * (1 - p) }
  information <- function(b) crossprod(design, weight(b) * design)
  lost <- function(b) {
    eta <- (design %*% b)[, 1]
    d <- det(information(b))
    if (d <= 0) return(1e9)
    -sum(s$x * plogis(eta, log.p = TRUE) + (s$n - s$x) * plogis(-eta, log.p = TRUE)) - log(d) / 2
  }
  score <- function(b) {
    p <- plogis(design %*% b)[, 1]
    h <- weight(b) * rowSums((design %*% solve(information(b))) * design)
    crossprod(design, s$x - s$n * p + h * (.5 - p))[, 1]
  }
  b <- c(0, 0)
  for (round in 1:4) b <- optim(b, lost, control = list(reltol = 1e-14, maxit = 2000))$par
  for (round in 1:6) {
    slopes <- sapply(1:2, function(k) {
      e <- 1e-5 * (k == 1:2)
      (score(b + e) - score(b - e)) / 2e-5
    })
    b <- b - solve(slopes, score(b))
  }
  c(b, sqrt(diag(solve(information(b)))))
})

# ---- routine -------------------------------------------------------------------

kind("spread", 1e-9, function(v) {
  df <- length(v) - 1
  c(mean(v), sd(v), sd(v) * sqrt(df / qchisq(c(.975, .025), df)))
})

kind("usual", 0, function(v) {
  of <- table(v)
  c(as.numeric(names(of)[which.max(of)]), max(of), sum(v == 4))
})

kind("scatter", 1e-9, function(v) {
  xy <- sweep(pairs_of(v[-(1:2)]), 2, v[1:2])
  bias <- colMeans(xy)
  c(bias, sqrt(sum(bias^2)), mean(sqrt(rowSums(xy^2))), sqrt(mean(rowSums(sweep(xy, 2, bias)^2))))
})

kind("periods", 1e-9, function(v) {
  size <- v[1 + seq_len(v[1])]
  x <- v[-seq_len(1 + v[1])]
  period <- factor(rep(seq_along(size), size))
  test <- oneway.test(abs(x - ave(x, period, FUN = median)) ~ period, var.equal = TRUE)
  c(test$statistic, test$p.value)
})

# ---- scatter of serves ---------------------------------------------------------

# Integral over pieces that end where the integrand may bend.
pieces <- function(f, from, to, bends) {
  at <- sort(unique(c(from, to, bends[bends > from & bends < to])))
  sum(mapply(function(a, b) integrate(f, a, b, rel.tol = 1e-10, abs.tol = 0,
                                      subdivisions = 1000, stop.on.error = FALSE)$value,
             head(at, -1), tail(at, -1)))
}

# The integral of weight(z) times a normal density between limits, or the
# density times the weight where they are equal.
normal_part <- function(weight, from, to, mean, sd, bends = c()) {
  f <- function(z) weight(z) * dnorm(z, mean, sd)
  if (from == to) return(f(from))
  near <- min(max(mean, from), to)
  pieces(f, max(from, near - 10 * sd), min(to, near + 10 * sd), c(bends, mean + sd * c(-3, 0, 3)))
}

# Both axes by quadrature: across the court inside, in depth outside.
kind("part", 1e-9, function(v) {
  names(v) <- c("x", "d", "sx", "sd", "rho", "x0", "x1", "d0", "d1", "net", "tape", "tau")
  g <- as.list(v)
  net <- function(d) switch(g$net + 1, rep(1, length(d)), pnorm(d, g$tape, g$tau),
                            pnorm(d, g$tape, g$tau, lower.tail = FALSE), dnorm(g$tape, d, g$tau))
  moment <- function(i, j) normal_part(function(d) {
    across <- function(one) normal_part(function(x) x^i, g$x0, g$x1,
                                        g$x + g$rho * g$sx / g$sd * (one - g$d),
                                        g$sx * sqrt(1 - g$rho^2))
    d^j * net(d) * vapply(d, across, 0)
  }, g$d0, g$d1, g$d, g$sd, g$tape + g$tau * c(-3, 0, 3))
  p <- moment(0, 0)
  c(p, c(moment(1, 0), moment(0, 1), moment(2, 0), moment(1, 1), moment(0, 2)) / p)
})

# ---- sets and matches ----------------------------------------------------------

# Forward from the score, all scores of one sum at a time: u and t are the chances
# that we have the points of `i` and that we, or they, serve.
set_from <- function(p, points, cap, us, them, serves) {
  i <- us; j <- them
  u <- as.numeric(serves == 0); t <- 1 - u
  sum <- c(won = 0, level = 0, rallies = 0, served = 0)
  repeat {
    over <- (pmax(i, j) >= points & abs(i - j) >= 2) | (cap > 0 & pmax(i, j) >= cap)
    sum["won"] <- sum["won"] + sum((u + t)[over & i > j])
    u[over] <- 0; t[over] <- 0
    sum["level"] <- sum["level"] + sum((u + t)[i == points - 1 & j == points - 1])
    if (sum(u + t) < 1e-24) return(unname(sum))
    sum["rallies"] <- sum["rallies"] + sum(u + t)
    sum["served"] <- sum["served"] + sum(u)
    ours <- u * p[1] + t * (1 - p[2])
    theirs <- u * (1 - p[1]) + t * p[2]
    i <- c(i, max(i) + 1); j <- max(j) + min(i) + 1 - i
    u <- c(0, ours); t <- c(theirs, 0)
  }
}

kind("set", 1e-9, function(v) set_from(v[1:2], v[3], v[4], v[5], v[6], v[7]))

# Every course of all the sets, played to the end even if it is decided before.
kind("match", 1e-9, function(v) {
  p <- v[1:2]; sets <- 2 * v[3] - 1
  first <- function(s) set_from(p, 25, 0, 0, 0, s)[1]
  chance <- c(first(0), first(1))
  decider <- mean(c(set_from(p, 15, 0, 0, 0, 0)[1], set_from(p, 15, 0, 0, 0, 1)[1]))
  courses <- as.matrix(expand.grid(rep(list(0:1), sets)))
  of <- function(toss) {
    set <- c(rep_len(if (toss) rev(chance) else chance, sets - 1), decider)
    each <- apply(courses, 1, function(won) prod(ifelse(won == 1, set, 1 - set)))
    sum(each[rowSums(courses) >= v[3]])
  }
  mean(c(of(0), of(1)))
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
