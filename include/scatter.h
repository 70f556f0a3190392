/* Where a server's serves come down: a bell-shaped scatter in two dimensions,
 * from notes that mostly say less than a point. A zone is a rectangle, `left` a
 * half-plane, and of a serve into the net only is known that it would have
 * landed too short to clear the tape. Leaving these out would make every server
 * look steadier than she is.
 *
 * Idea and fit: R. Tibshirani, A. Price, J. Taylor, J. R. Stat. Soc. A 174 (2011)
 * 213-226 (landing = aim + Gaussian scatter, found by EM from coarse
 * observations). EM: A. Dempster, N. Laird, D. Rubin, J. R. Stat. Soc. B 39 (1977)
 * 1-38. Tape and prior are our own choice.
 *
 * Frame of the notation: x from the server's right side line, d from the net, in
 * metres; or both relative to the aim, with every limit shifted alike. */
#ifndef NINEMETRE_SCATTER_H
#define NINEMETRE_SCATTER_H

#include <stdbool.h>
#include <stddef.h>

/* Mean and spread of a normal distribution over the floor. */
struct scatter {
    double x_m, d_m;
    double sd_x_m, sd_d_m;
    double rho;                  /* correlation, inside -1 to 1 */
};

/* Whether the ball crossed the net. It does when d + tau * e, e standard normal,
 * is no less than the shortest landing that clears the tape. */
enum scatter_net {
    SCATTER_ANY,                 /* not asked */
    SCATTER_CROSSED,
    SCATTER_STOPPED,             /* into the net, or under it */
    SCATTER_AT                   /* d + tau * e was exactly `tape_m` */
};

/* What is known of one serve, or of several with the same known. Limits may be
 * infinite; equal limits mean exactly there. */
struct scatter_seen {
    double x0_m, x1_m, d0_m, d1_m;
    double tape_m;               /* shortest landing that clears the tape */
    double n;                    /* how many such serves */
    enum scatter_net net;
};

/* How probable that is (a density per metre for each exact value), and where the
 * ball then was: means of x, d and their products. A tape that a serve at an exact
 * place has cleared is left out of `p`: it would be the same for any scatter. */
struct scatter_part {
    double p;
    double x_m, d_m, xx_m2, xd_m2, dd_m2;
};

/* tau_m > 0. A part too far off to have a probability has p = 0 and the means of
 * its point nearest to the middle. */
struct scatter_part scatter_part(const struct scatter *s, const struct scatter_seen *seen,
                                 double tau_m);

/* What is assumed before the first serve: a normal-inverse-Wishart distribution.
 * `mean_weight` and `spread_weight` say how many serves it is worth. */
struct scatter_prior {
    double x_m, d_m, mean_weight;
    double scale_xx_m2, scale_dd_m2, spread_weight;
};

/* Our own choice: worth one serve for the middle and five for the spread, of 1.0 m
 * across and 1.3 m in depth. Around the aim, or in the court if no aim is known. */
struct scatter_prior scatter_prior_aimed(void);
struct scatter_prior scatter_prior_court(void);

enum scatter_shape {
    SCATTER_FREE,
    SCATTER_UPRIGHT              /* correlation 0: zones can't tell it */
};

struct scatter_fit {
    struct scatter scatter;      /* mode of the posterior of mean and spread together */
    double log_posterior;        /* but for a constant */
    unsigned steps;
    bool settled;                /* false: the steps ran out first */
};

/* Makes equal entries one and gives how many are left: the fit is then quick. */
size_t scatter_join(struct scatter_seen *seen, size_t n);

struct scatter_fit scatter_fit(const struct scatter_seen *seen, size_t n, double tau_m,
                               const struct scatter_prior *prior, enum scatter_shape shape);

#endif
