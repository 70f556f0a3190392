# The pages of a report from their list (9m dump pages), set by R's own device:
# the same words, lines and marks on as many pages. What is drawn is known
# beforehand; nothing is read, checked or counted.
given <- commandArgs(trailingOnly = TRUE)
lines <- strsplit(readLines(given[1], encoding = "UTF-8"), "\t", fixed = TRUE)
kind <- vapply(lines, `[`, "", 1)
page <- cumsum(startsWith(kind, "page "))
items <- function(what, from) {
  of <- lines[kind == what & page == from]
  if (length(of) == 0) return(NULL)
  do.call(rbind, lapply(of, function(f) c(f, rep("", 9))[1:9]))
}
number <- function(m, column) as.numeric(m[, column])
suppressWarnings({
  pdf(given[2], width = 8.27, height = 11.69)
  par(mar = rep(0, 4), xaxs = "i", yaxs = "i")
  for (p in unique(page)) {
    plot.new()
    plot.window(c(-18, 192), c(-273, 24))
    if (!is.null(m <- items("line", p)))
      segments(number(m, 2), -number(m, 3), number(m, 4), -number(m, 5), lwd = number(m, 6))
    if (!is.null(m <- items("circle", p)))
      symbols(number(m, 2), -number(m, 3), circles = number(m, 4), inches = FALSE, add = TRUE)
    if (!is.null(m <- items("mark", p)))
      points(number(m, 2), -number(m, 3), pch = as.integer(factor(m[, 5])) + 14)
    if (!is.null(m <- items("words", p)))
      text(number(m, 2), -number(m, 3), m[, 6], adj = c(0, 0),
           cex = as.numeric(sub("b", "", m[, 4])) / 12,
           font = ifelse(endsWith(m[, 4], "b"), 2, 1))
  }
  invisible(dev.off())
})
