/* Serves of which a zone is known, as numbers in a court. */
#include "page/courts.h"

#include <math.h>

static const double step_mm = 0.5, air_mm = 0.2, mark_air_mm = 0.5, seam_give_mm = 1.25,
                    mm_per_pt = 25.4 / 72;
static const double capital_high = 0.73;

struct box {
    double left_mm, right_mm, top_mm, bottom_mm;
};

/* A number that looks for its place: it may give way within its own zone, and
 * but little from the line between two. */
struct number {
    struct str words;
    struct type type;
    double x_mm, y_mm; /* middle and baseline where nothing is in its way */
    double give_x_mm, give_y_mm;
};

static struct box words_box(const struct draw *d, double x_mm, double y_mm, struct type type,
                            struct str words) {
    return (struct box){x_mm, x_mm + page_width(d, words, type),
                        y_mm - capital_high * type.pt * mm_per_pt, y_mm};
}

static struct box number_box(const struct draw *d, const struct number *n, double dx_mm,
                             double dy_mm) {
    double half = page_width(d, n->words, n->type) / 2;
    return words_box(d, n->x_mm + dx_mm - half, n->y_mm + dy_mm + d->push_mm, n->type, n->words);
}

/* How much of the box the marks and words of the page from `from` on cover. */
static double covered_mm2(const struct draw *d, size_t from, struct box a) {
    double sum = 0;
    for (size_t i = from; i < d->page->n; i++) {
        const struct page_item *item = &d->page->items[i];
        struct box b = {item->x_mm - item->size_mm / 2, item->x_mm + item->size_mm / 2,
                        item->y_mm - item->size_mm / 2, item->y_mm + item->size_mm / 2};
        if (item->kind == PAGE_WORDS)
            b = words_box(d, item->x_mm, item->y_mm,
                          (struct type){item->type_pt, item->face, item->ink}, item->words);
        else if (item->kind != PAGE_MARK)
            continue;
        double air = item->kind == PAGE_MARK ? mark_air_mm : air_mm;
        double wide = fmin(a.right_mm, b.right_mm) - fmax(a.left_mm, b.left_mm) + air;
        double high = fmin(a.bottom_mm, b.bottom_mm) - fmax(a.top_mm, b.top_mm) + air;
        sum += wide > 0 && high > 0 ? wide * high : 0;
    }
    return sum;
}

/* The nearest free place; where none is free, the one that is covered least. */
static void put_number(struct draw *d, const struct number *n, size_t from) {
    double least = HUGE_VAL, nearest = 0, x = 0, y = 0;
    int x_n = (int)(n->give_x_mm / step_mm), y_n = (int)(n->give_y_mm / step_mm);
    for (int i = -x_n; i <= x_n; i++)
        for (int k = -y_n; k <= y_n; k++) {
            double dx = i * step_mm, dy = k * step_mm, far = hypot(dx, dy);
            double covered = covered_mm2(d, from, number_box(d, n, dx, dy));
            if (covered > least || (covered >= least && far >= nearest))
                continue;
            least = covered;
            nearest = far;
            x = dx;
            y = dy;
        }
    page_centred(d, n->x_mm + x, n->y_mm + y, n->type, n->words);
}

static void zone_number(struct draw *d, const struct court *c, unsigned zone, unsigned seam,
                        struct number *n, size_t from) {
    static const double x_m[] = {4.5, 7.5, 7.5, 4.5, 1.5, 1.5, 4.5};
    static const double d_m[] = {6, 6, 1.5, 1.5, 1.5, 6, 6};
    unsigned other = seam ? seam : zone;
    bool across = fabs(x_m[zone] - x_m[other]) > 1, along = fabs(d_m[zone] - d_m[other]) > 1;
    double half_high_m = fmin(d_m[zone], d_m[other]) > 3 ? 3 : 1.5;
    double high = capital_high * n->type.pt * mm_per_pt;
    n->x_mm = page_court_x(c, (x_m[zone] + x_m[other]) / 2);
    n->y_mm = page_court_y(c, (d_m[zone] + d_m[other]) / 2) + high / 2;
    n->give_x_mm =
        across ? seam_give_mm : 1.5 * c->scale_mm - page_width(d, n->words, n->type) / 2 - air_mm;
    n->give_y_mm = along ? seam_give_mm : half_high_m * c->scale_mm - high / 2 - air_mm;
    put_number(d, n, from);
}

/* Seams stand in brackets, so that nobody takes a zone for a place. */
void page_zone_counts(struct draw *d, const struct court *c, court_wants *wants,
                      const void *context, struct type type, size_t from) {
    const struct checked *facts = d->tally->checked;
    unsigned zone_n[7][7] = {{0}};
    for (size_t i = 0; i < facts->played_n; i++) {
        const struct played *p = &facts->played[i];
        const struct spot *at = &p->said.landing;
        bool turned = at->seam > 0 && at->seam < at->zone;
        if (page_zone_only(p) && wants(p, context) && at->zone <= 6 && at->seam <= 6)
            zone_n[turned ? at->seam : at->zone][turned ? at->zone : at->seam]++;
    }
    for (unsigned zone = 1; zone <= 6; zone++)
        for (unsigned seam = 0; seam <= 6; seam++) {
            struct number n = {.type = type};
            if (zone_n[zone][seam] == 0)
                continue;
            n.words = str_printf(d->arena, seam ? "(%u)" : "%u", zone_n[zone][seam]);
            zone_number(d, c, zone, seam, &n, from);
        }
}
