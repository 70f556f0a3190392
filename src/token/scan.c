/* The values of tokens. The patterns have bounded every number already: no
 * digit string here is longer than four, so nothing can overflow. */
#include "token/scan.h"

#include <string.h>

#include "notation.h"
#include "word_hash.h"

static const struct word_info words[W_N] = {
#define WORD(id, spelling, class, terminal, value, meaning, help, example) \
    {W_##id, {spelling, sizeof spelling - 1}, WORD_##class, T_##terminal, value, meaning, help, \
     example},
#include "words.def"
#undef WORD
};

const struct word_info *word_info(enum word_id id) {
    return &words[id];
}

const struct word_info *word_find(struct str spelling, unsigned classes) {
    for (size_t i = 0; i < W_N; i++)
        if (classes & WORD_CLASS(words[i].class) && str_same(spelling, words[i].word))
            return &words[i];
    return NULL;
}

/* Lower case, eight letters in one number: letters and digits differ from their
 * lower case by bit 5 at most. The bit also turns some control characters into
 * digits, but a line that holds one has had its message. */
static uint64_t key_of(const unsigned char *at, size_t n) {
    uint64_t key = str_eight(at) | UINT64_C(0x2020202020202020);
    return n >= 8 ? key : key & ((UINT64_C(1) << (8 * n)) - 1);
}

static bool tail_is(const unsigned char *at, const char *word, size_t n) {
    for (size_t i = 8; i < n; i++)
        if ((at[i] | 0x20) != (unsigned char)word[i])
            return false;
    return true;
}

const struct word_info *scan_word(const unsigned char *at, const unsigned char *end,
                                  bool statement) {
    size_t n = (size_t)(end - at);
    uint64_t key = key_of(at, n);
    uint64_t product = key * (statement ? STATEMENT_MULTIPLIER : FIELD_MULTIPLIER);
    unsigned slot = (unsigned)(product >> (64 - WORD_SLOT_BITS));
    unsigned ix = statement ? statement_slots[slot] : field_slots[slot];
    if (ix == WORD_SLOT_EMPTY || word_keys[ix] != key || words[ix].word.n != n)
        return NULL;
    return n <= 8 || tail_is(at, words[ix].word.at, n) ? &words[ix] : NULL;
}

int16_t scan_letter(const unsigned char *at) {
    return (int16_t)(*at & ~0x20);
}

static bool digit(unsigned char c) {
    return c >= '0' && c <= '9';
}

static int16_t integer(const unsigned char **at) {
    int n = 0;
    while (digit(**at))
        n = n * 10 + (*(*at)++ - '0');
    return (int16_t)n;
}

/* One or two digits behind the point, if there is one, as hundredths. */
static int16_t decimal(const unsigned char **at) {
    int n = integer(at) * 100;
    if (**at == '.' && digit((*at)[1])) {
        n += ((*at)[1] - '0') * 10;
        *at += 2;
        if (digit(**at))
            n += *(*at)++ - '0';
    }
    return (int16_t)n;
}

static int16_t signed_decimal(const unsigned char **at) {
    bool minus = **at == '-';
    if (minus || **at == '+')
        (*at)++;
    int16_t n = decimal(at);
    return (int16_t)(minus ? -n : n);
}

int scan_server(const unsigned char *at, const unsigned char *end, struct token *out) {
    out->value = SERVER_SHIRT;
    if (!digit(*at))
        out->a = scan_letter(at++);
    if (at == end)
        out->value = SERVER_UNSEEN;
    else
        out->b = integer(&at);
    return T_SERVER;
}

int scan_person(const unsigned char *at, struct token *out) {
    out->a = scan_letter(at++);
    out->b = integer(&at);
    return T_PERSON;
}

int scan_number(const unsigned char *at, struct token *out) {
    out->a = integer(&at);
    return T_NUMBER;
}

int scan_decimal(const unsigned char *at, struct token *out) {
    int whole = 0;
    const unsigned char *p = at;
    while (digit(*p))
        whole = whole * 10 + (*p++ - '0');
    if (whole >= INT16_MAX / 100)
        return T_WORD;
    out->a = decimal(&at);
    return T_DECIMAL;
}

int scan_pair(const unsigned char *at, int code, struct token *out) {
    out->a = integer(&at);
    at++;
    out->b = integer(&at);
    return code;
}

static unsigned third_of(unsigned char c) {
    switch (c | 0x20) {
    case 'r': return THIRD_RIGHT;
    case 'm': return THIRD_MIDDLE;
    case 'l': return THIRD_LEFT;
    }
    return THIRD_NONE;
}

int scan_start(const unsigned char *at, const unsigned char *end, struct token *out) {
    out->value = (uint16_t)third_of(*at++);
    if (at < end && digit(*at)) {
        out->value |= START_PACES;
        out->a = integer(&at);
    }
    if (at < end) {
        at++;
        out->value |= START_STEPS;
        out->b = integer(&at);
    }
    return T_START;
}

int scan_start_p(const unsigned char *at, const unsigned char *end, struct token *out) {
    at++;
    out->value = START_P;
    out->a = decimal(&at);
    if (at < end) {
        at++;
        out->value |= START_STEPS;
        out->b = integer(&at);
    }
    return T_START;
}

int scan_spot(const unsigned char *at, const unsigned char *end, int code, struct token *out) {
    bool deep = (*at | 0x20) == 'd';
    at += deep ? 1 : 0;
    if (memchr(at, ',', (size_t)(end - at))) {
        out->value = PLACE_XD;
        out->a = signed_decimal(&at);
        at++;
        out->b = decimal(&at);
        return code;
    }
    out->a = integer(&at);
    out->value = deep ? PLACE_DEEP : PLACE_ZONE;
    if (at < end) {
        at++;
        out->b = integer(&at);
        out->value = deep ? PLACE_DEEP_SEAM : PLACE_SEAM;
    }
    return code;
}

static enum measure measure_of(unsigned char c) {
    switch (c | 0x20) {
    case 't': return MEASURE_TOSS_M;
    case 'j': return MEASURE_TAKEOFF_M;
    case 'c': return MEASURE_CONTACT_M;
    case 'h': return MEASURE_HEIGHT_M;
    case 'v': return MEASURE_SPEED_KMH;
    case 'f': return MEASURE_FLIGHT_S;
    case 'w': return MEASURE_WHISTLE_S;
    }
    return MEASURE_PACES;
}

int scan_measure(const unsigned char *at, const unsigned char *end, struct token *out) {
    out->value = (uint16_t)measure_of(*at++);
    while (at < end && !digit(*at) && *at != '+' && *at != '-')
        at++;
    const unsigned char *whole = at;
    if (digit(*whole) && integer(&whole) >= INT16_MAX / 100)
        return T_WORD;
    out->a = signed_decimal(&at);
    return T_MEASURE;
}

int scan_by(const unsigned char *at, struct token *out) {
    at += 2;
    out->a = integer(&at);
    return T_BY;
}

int scan_repeat(const unsigned char *at, struct token *out) {
    at += 1;
    out->a = integer(&at);
    return T_REPEAT;
}

/* `in3` is an outcome, `tn3` a mark and a count: both have this shape. */
int scan_mark_count(const unsigned char *at, const unsigned char *end, struct token *out) {
    const struct word_info *w = scan_word(at, end, false);
    if (w) {
        out->value = (uint16_t)w->id;
        return w->code;
    }
    w = scan_word(at, at + 2, false);
    if (!w || w->class != WORD_MARK)
        return T_WORD;
    out->value = (uint16_t)w->id;
    at += 2;
    out->a = integer(&at);
    return T_MARKCOUNT;
}

/* `long+0.5`, `net-0.2`: only these have a margin, and only with its own sign. */
int scan_miss(const unsigned char *at, const unsigned char *end, struct token *out) {
    const unsigned char *sign = at;
    while (*sign != '+' && *sign != '-')
        sign++;
    const struct word_info *w = scan_word(at, sign, false);
    if (!w || w->class != WORD_OUTCOME || sign >= end)
        return T_WORD;
    bool below = w->value == OUTCOME_NET;
    bool out_of_court = w->value == OUTCOME_LONG || w->value == OUTCOME_LEFT ||
                        w->value == OUTCOME_RIGHT;
    if (!(below && *sign == '-') && !(out_of_court && *sign == '+'))
        return T_WORD;
    out->value = (uint16_t)w->id;
    out->a = signed_decimal(&sign);
    return T_MISS;
}

int scan_date(const unsigned char *at, struct token *out) {
    out->value = (uint16_t)integer(&at);
    at++;
    out->a = integer(&at);
    at++;
    out->b = integer(&at);
    return T_DATE;
}

int scan_time(const unsigned char *at, const unsigned char *end, struct token *out) {
    int16_t parts[3] = {0, 0, 0};
    unsigned n = 0;
    for (; at < end && n < 3; at++)
        parts[n++] = integer(&at);
    out->value = n == 3;
    out->a = (int16_t)(n == 3 ? parts[0] * 60 + parts[1] : parts[0]);
    out->b = n == 3 ? parts[2] : parts[1];
    return T_CLOCKTIME;
}

bool scan_short(struct lexer *lx, const unsigned char *at, const unsigned char *end,
                const struct token *where) {
    struct str word = {(const char *)at, (size_t)(end - at)};
    for (const struct short_word *s = lx->shorts; s; s = s->next) {
        if (!str_same(s->word, word))
            continue;
        lx->expanding = s;
        lx->expanded_n = 0;
        lx->expanded_at = where->at;
        return true;
    }
    return false;
}

int scan_expansion(struct lexer *lx, struct token *out) {
    const struct short_word *s = lx->expanding;
    *out = s->tokens[lx->expanded_n];
    out->at = lx->expanded_at;
    out->n = (uint16_t)s->word.n;
    int code = s->codes[lx->expanded_n];
    if (++lx->expanded_n == s->n)
        lx->expanding = NULL;
    return code;
}
