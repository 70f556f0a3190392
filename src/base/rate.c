/* Rates of small counts. The forms follow E. B. Wilson, Probable inference, the
 * law of succession, and statistical inference, J. Am. Stat. Assoc. 22 (1927),
 * and R. G. Newcombe, Interval estimation for the difference between
 * independent proportions, Stat. Med. 17 (1998) 873-890, method 10. */
#include "rate.h"

#include <assert.h>
#include <math.h>

static const unsigned say_from_n[SAY_N] = {
    [SAY_NOTHING] = 0,     [SAY_COUNT] = 1,     [SAY_INTERVAL] = 10,
    [SAY_COMPARISON] = 30, [SAY_SEASON] = 150,
};

static const unsigned own_aim_from_n = 30, sure_aim_from_n = 100;

enum say rate_may_say(unsigned serves_n) {
    enum say say = SAY_N - 1;
    while (serves_n < say_from_n[say])
        say--;
    return say;
}

unsigned rate_say_from_n(enum say say) {
    return say_from_n[say];
}

enum say_aim rate_may_aim(unsigned serves_n, unsigned aimed_n) {
    if (rate_may_say(serves_n) < SAY_SEASON || aimed_n < own_aim_from_n)
        return SAY_AIM_GENERAL;
    return aimed_n < sure_aim_from_n ? SAY_AIM_OWN_CAUTION : SAY_AIM_OWN;
}

double rate_frac(struct rate r) {
    assert(r.n > 0 && r.x <= r.n);
    return (double)r.x / r.n;
}

double rate_percent(struct rate r) {
    return (double)((200ull * r.x + r.n) / (2ull * r.n));
}

struct rate rate_sum(struct rate a, struct rate b) {
    return (struct rate){a.x + b.x, a.n + b.n};
}

struct interval rate_wilson(struct rate r) {
    if (r.n == 0)
        return (struct interval){0, 1};
    double x = r.x, n = r.n, z = RATE_Z;
    double middle = x + z * z / 2;
    double half = z * sqrt(x * (n - x) / n + z * z / 4);
    return (struct interval){
        .low = r.x == 0 ? 0 : (middle - half) / (n + z * z),
        .high = r.x == r.n ? 1 : (middle + half) / (n + z * z),
    };
}

bool rate_difference(struct rate a, struct rate b, struct interval *out) {
    if (a.n == 0 || b.n == 0)
        return false;
    double pa = rate_frac(a), pb = rate_frac(b);
    struct interval ia = rate_wilson(a), ib = rate_wilson(b);
    out->low = pa - pb - hypot(pa - ia.low, ib.high - pb);
    out->high = pa - pb + hypot(ia.high - pa, pb - ib.low);
    return true;
}
