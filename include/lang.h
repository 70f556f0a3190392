/* The words of the reports in other languages. English stands in the code; the
 * other languages are gettext catalogues (src/lang/CODE.po) that are compiled
 * in, so that a report needs nothing from the machine and --lang gives the same
 * bytes everywhere. Notation and exports know no language. */
#ifndef NINEMETRE_LANG_H
#define NINEMETRE_LANG_H

#include "str.h"

struct lang {
    const char *code;            /* "de" */
    const char *name;            /* in itself: "Deutsch" */
    char decimal;                /* '.' or ',' */
    unsigned (*form)(unsigned long n); /* which plural form n takes, from 0 */
    /* What stands for the English words, its plural forms one after the other
     * with a NUL between; NULL if nothing does. */
    const char *(*find)(const struct lang *lang, const char *words);
    const unsigned char *catalogue; /* of find: a .mo file, little-endian */
};

/* The language of a code such as "de"; NULL if there is none. "en" is there. */
const struct lang *lang_of(struct str code);

/* All codes; the last is NULL. */
extern const char *const lang_codes[];

/* The words in the language, or as they are; NULL is English. */
const char *lang_say(const struct lang *lang, const char *words);

/* The words for n of something. */
const char *lang_say_n(const struct lang *lang, unsigned long n, const char *one,
                       const char *many);

#endif
