/* Looks words up in compiled-in catalogues. A .mo file (GNU gettext manual,
 * "The Format of GNU MO Files") holds a table of the English words in rising
 * order and one of what stands for them, each entry a length and an offset. */
#include "lang.h"

#include <stdint.h>
#include <string.h>

#include "catalogues.h" /* each .mo file as bytes, by the Makefile */

enum { MO_COUNT = 8, MO_WORDS = 12, MO_SAID = 16, ENTRY = 8 };

static uint32_t u32(const unsigned char *at) {
    return (uint32_t)at[0] | (uint32_t)at[1] << 8 | (uint32_t)at[2] << 16 | (uint32_t)at[3] << 24;
}

/* Entry `ix` of the table whose offset stands at `table`; msgfmt puts a NUL
 * behind each. */
static const char *entry(const unsigned char *mo, unsigned table, uint32_t ix) {
    return (const char *)mo + u32(mo + u32(mo + table) + ix * ENTRY + 4);
}

static const char *find(const struct lang *lang, const char *words) {
    const unsigned char *mo = lang->catalogue;
    uint32_t low = 0, high = u32(mo + MO_COUNT);
    while (low < high) {
        uint32_t middle = low + (high - low) / 2;
        int order = strcmp(words, entry(mo, MO_WORDS, middle));
        if (order == 0)
            return entry(mo, MO_SAID, middle);
        if (order < 0)
            high = middle;
        else
            low = middle + 1;
    }
    return NULL;
}

/* Plural forms as in the headers of the catalogues (GNU gettext manual, "Plural
 * forms"); a test compares them with what msgfmt reads there. */
static unsigned two_forms(unsigned long n) {
    return n != 1;
}

static unsigned french_form(unsigned long n) {
    return n > 1;
}

static unsigned slavic_form(unsigned long n) {
    return n == 1 ? 0 : n >= 2 && n <= 4 ? 1 : 2;
}

static unsigned polish_form(unsigned long n) {
    if (n == 1)
        return 0;
    return n % 10 >= 2 && n % 10 <= 4 && (n % 100 < 12 || n % 100 > 14) ? 1 : 2;
}

static const char *as_it_is(const struct lang *lang, const char *words) {
    (void)lang;
    (void)words;
    return NULL;
}

static const struct lang langs[] = {
    {"en", "English", '.', two_forms, as_it_is, NULL},
#define LANG(code, name, decimal, form) {#code, name, decimal, form, find, code##_mo},
#include "lang.def"
#undef LANG
};

const char *const lang_codes[] = {
    "en",
#define LANG(code, ...) #code,
#include "lang.def"
#undef LANG
    NULL,
};

const struct lang *lang_of(struct str code) {
    for (size_t i = 0; i < sizeof langs / sizeof *langs; i++)
        if (str_same(code, str_of(langs[i].code)))
            return &langs[i];
    return NULL;
}

const char *lang_say(const struct lang *lang, const char *words) {
    const char *said = lang ? lang->find(lang, words) : NULL;
    return said ? said : words;
}

const char *lang_say_n(const struct lang *lang, unsigned long n, const char *one,
                       const char *many) {
    const char *said = lang ? lang->find(lang, one) : NULL;
    if (!said)
        return n == 1 ? one : many;
    for (unsigned form = lang->form(n); form > 0; form--)
        said += strlen(said) + 1;
    return said;
}
