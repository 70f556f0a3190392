/* The whole checker, the messages as they are shown, and the pages of a report,
 * which with --partial-data come from notes with errors too. */
#include "fuzz.h"

#include "check.h"
#include "cmd/cmd.h"
#include "kit/facts.h"
#include "page.h"

static void show(struct diags *d) {
    FILE *nothing = fopen("/dev/null", "w");
    struct cmd_show how;

    if (!nothing)
        abort();
    cmd_show_init(&how, nothing, false);
    how.reviews = true;
    cmd_show(&how, d);
    fclose(nothing);
}

static void promises(const struct checked *c, const struct diags *d) {
    PROMISE(c->unread == 0 || d->errors > 0, "an unread line has its message");
    PROMISE(c->unread <= c->lines, "not more unread lines than lines");
    for (size_t i = 0; i < d->n; i++) {
        const struct place *p = &d->at[i].place;
        PROMISE(p->at <= p->text.n && p->n <= p->text.n - p->at, "the caret stands in its line");
    }
    for (size_t i = 0; i < c->played_n; i++) {
        const struct played *p = &c->played[i];
        PROMISE(!(played_ace(p) && played_error(p)), "no serve is an ace and an error");
        PROMISE(p->side < SIDE_N, "a serve has a side");
        PROMISE(!played_counts(p) || p->said.outcome, "a counted serve has an outcome");
    }
}

static double half_width(void *context, struct str words, enum page_face face, double type_pt) {
    (void)context;
    (void)face;
    return (double)words.n * 0.5 * type_pt * 25.4 / 72;
}

static void report(const struct checked *c, const struct diags *d, struct arena *a) {
    const struct page_font font = {half_width, NULL};
    struct page_facts facts = {.file = STR("fuzz.9m"),
                               .hash = STR("0123456789ab"),
                               .errors = (unsigned)d->errors,
                               .warnings = (unsigned)d->warnings};

    if (c->match->occasion)
        PROMISE(page_report(tally_of(c, a), &facts, &font, a)->n > 0, "a report has pages");
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size) {
    struct arena *a = arena_new(fuzz_no_memory);
    struct str notes = fuzz_with_head(data, size, a);
    const struct checked *c;
    struct diags d;
    struct text t;
    struct buf b;

    fuzz_text(&t, (const uint8_t *)notes.at, notes.n, a, &d);
    c = check_text(&t, CHECK_KEEP, a, &d);
    promises(c, &d);
    buf_init(&b, a);
    facts_put(&b, c);
    show(&d);
    report(c, &d, a);
    arena_free(a);
    return 0;
}
