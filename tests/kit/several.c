#include "kit/several.h"

#include <string.h>

enum { FILES_MOST = 16 };

bool several_are(const char *notes) {
    const char *end = strchr(notes, '\n');
    return strncmp(notes, "# ", 2) == 0 && end && end - notes > 3 && strncmp(end - 3, ".9m", 3) == 0;
}

/* The file that begins here; `*notes` goes on to the next. */
static struct str next_file(const char **notes, struct str *name) {
    const char *begin = strchr(*notes, '\n') + 1, *end = begin;
    *name = (struct str){*notes + 2, (size_t)(begin - *notes) - 3};
    while (*end && !several_are(end)) {
        end = strchr(end, '\n');
        end = end ? end + 1 : begin + strlen(begin);
    }
    *notes = end;
    return (struct str){begin, (size_t)(end - begin)};
}

static void add(struct across *x, struct str name, struct str bytes, struct arena *a,
                struct diags *d) {
    struct diags own;
    struct text t;
    diags_init(&own, a);
    text_take(&t, name, bytes, a, &own);
    const struct checked *c = check_text(&t, 0, a, &own);
    across_add(x, &t, c, &own);
    diags_join(d, &own);
}

void several_check(const char *notes, bool turned, bool parted, struct arena *a,
                   struct diags *d) {
    struct across *x = across_new(a), *more = across_new(a);
    struct str names[FILES_MOST], files[FILES_MOST];
    size_t n = 0;
    diags_init(d, a);
    while (*notes && n < FILES_MOST) {
        files[n] = next_file(&notes, &names[n]);
        n++;
    }
    for (size_t i = 0; i < n; i++) {
        size_t at = turned ? n - 1 - i : i;
        add(parted && at % 2 ? more : x, names[at], files[at], a, d);
    }
    across_merge(x, more);
    across_judge(x, d);
}
