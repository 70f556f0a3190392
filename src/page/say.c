/* Words of a page in the language of the report. */
#include "page/draw.h"

#include <math.h>

struct str page_say(const struct draw *d, const char *words) {
    return str_of(lang_say(d->facts->lang, words));
}

struct str page_sayf(const struct draw *d, const char *format, ...) {
    va_list args;
    va_start(args, format);
    struct str said = str_vprintf(d->arena, lang_say(d->facts->lang, format), args);
    va_end(args);
    return said;
}

struct str page_say_n(const struct draw *d, unsigned n, const char *one, const char *many, ...) {
    va_list args;
    va_start(args, many);
    struct str said = str_vprintf(d->arena, lang_say_n(d->facts->lang, n, one, many), args);
    va_end(args);
    return said;
}

struct str page_decimal(const struct draw *d, int hundredths, unsigned digits) {
    char mark = d->facts->lang ? d->facts->lang->decimal : '.';
    unsigned all = (unsigned)(hundredths < 0 ? -hundredths : hundredths);
    const char *sign = hundredths < 0 ? "−" : "";
    if (digits == 1)
        return str_printf(d->arena, "%s%u%c%u", sign, all / 100, mark, all / 10 % 10);
    return str_printf(d->arena, "%s%u%c%02u", sign, all / 100, mark, all % 100);
}

struct str page_signed(const struct draw *d, double frac) {
    double percent = round(frac * 100);
    if (percent < 0)
        return str_printf(d->arena, "−%.0f", -percent);
    return str_printf(d->arena, percent > 0 ? "+%.0f" : "%.0f", fabs(percent));
}
