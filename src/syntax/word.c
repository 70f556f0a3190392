/* The message for a word that the notation does not know: first the slips that
 * have a shape (a comma for a point, a blank forgotten, a sign left out), then
 * the nearest word that may stand there. A mend is offered only if the line
 * parses with it. */
#include <string.h>

#include "syntax/fault.h"

static bool digit(char c) {
    return c >= '0' && c <= '9';
}

static bool letter(char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z');
}

static bool has(struct str w, char c) {
    return w.n && memchr(w.at, c, w.n) != NULL;
}

/* The word with `n` bytes at `at` replaced. */
static struct str changed(struct syn *s, struct str w, size_t at, size_t n, const char *instead) {
    return str_printf(s->arena, "%.*s%s%.*s", (int)at, w.at, instead, (int)(w.n - at - n),
                      w.at + at + n);
}

/* Whether the line would parse with the word spelt so; only then it is a mend. */
static bool mend_works(struct syn *s, struct token t, struct str instead) {
    struct diag probe = {.place = build_place(s, t)};
    return fault_try(s, &probe, t.at, t.n, instead, false);
}

/* A numeric slip: what is wrong with it, and its mend if there is just one. */
static struct diag *number_fault(struct syn *s, struct token t, const char *what, struct str instead,
                                 bool safe) {
    struct diag *d = FAULT(s, E_NUMBER, t, STR_ARG(build_spelt(s, t)), what);
    if (instead.n)
        (void)fault_try(s, d, t.at, t.n, instead, safe);
    return d;
}

static bool comma_for_point(struct syn *s, struct token t, struct str w) {
    if (!has(w, ',') || has(w, '.'))
        return false;
    size_t at = (size_t)((const char *)memchr(w.at, ',', w.n) - w.at);
    struct str instead = changed(s, w, at, 1, ".");
    if (!mend_works(s, t, instead))
        return false;
    number_fault(s, t, "has a comma for the decimal point", instead, true);
    return true;
}

static bool leading_zero(struct syn *s, struct token t, struct str w) {
    for (size_t i = 0; i + 1 < w.n; i++) {
        bool starts = i == 0 || !(digit(w.at[i - 1]) || w.at[i - 1] == '.');
        if (w.at[i] != '0' || !digit(w.at[i + 1]) || !starts)
            continue;
        struct str instead = changed(s, w, i, 1, "");
        if (mend_works(s, t, instead)) {
            number_fault(s, t, "has a leading zero", instead, false);
            return true;
        }
    }
    return false;
}

static bool sign_or_point(struct syn *s, struct token t, struct str w) {
    size_t letters = 0;
    while (letters < w.n && letter(w.at[letters]))
        letters++;
    if (letters == w.n)
        return false;
    bool net = str_same(str_part(w, 0, letters), STR("net"));
    size_t sign = w.at[letters] == '+' || w.at[letters] == '-';
    struct str bare = changed(s, w, letters, sign, net ? "-" : "+");
    if (letters >= 3 && mend_works(s, t, bare)) {
        number_fault(s, t, sign ? "has the wrong sign" : "lacks its sign", bare, false);
        return true;
    }
    struct str pointed = str_printf(s->arena, "%.*s.0", STR_ARG(w));
    if (digit(w.at[w.n - 1]) && !has(w, '.') && mend_works(s, t, pointed)) {
        number_fault(s, t, "lacks its decimal point", pointed, false);
        return true;
    }
    struct str minus = changed(s, w, letters, 0, "-");
    if (letters == 1 && !sign && mend_works(s, t, minus)) {
        struct diag *d = number_fault(s, t, "lacks its sign", STR_NONE, false);
        d->likely = str_printf(s->arena, "%.*s or %.*s", STR_ARG(minus),
                               STR_ARG(changed(s, w, letters, 0, "+")));
        return true;
    }
    return false;
}

static bool too_many_decimals(struct syn *s, struct token t, struct str w) {
    size_t point = 0;
    while (point < w.n && w.at[point] != '.')
        point++;
    size_t end = point + 1;
    while (end < w.n && digit(w.at[end]))
        end++;
    if (point >= w.n || end - point - 1 <= 2)
        return false;
    struct str instead = changed(s, w, point + 3, end - point - 3, "");
    if (!mend_works(s, t, instead))
        return false;
    number_fault(s, t, "has more than two decimals", STR_NONE, false);
    return true;
}

/* `2,8` and `2.1,8`: coordinates carry a point each. */
static bool bare_coordinates(struct syn *s, struct token t, struct str w) {
    const char *comma = memchr(w.at, ',', w.n);
    if (!comma || !digit(w.at[0]))
        return false;
    struct str x = str_part(w, 0, (size_t)(comma - w.at)), d = str_part(w, x.n + 1, w.n);
    struct str instead = str_printf(s->arena, "%.*s%s,%.*s%s", STR_ARG(x), has(x, '.') ? "" : ".0",
                                    STR_ARG(d), has(d, '.') ? "" : ".0");
    if (!mend_works(s, t, instead))
        return false;
    number_fault(s, t, "lacks a decimal point", instead, false);
    return true;
}

/* `7, net`: punctuation that the scorer is used to. */
static bool stray_sign(struct syn *s, struct token t, struct str w) {
    char last = w.at[w.n - 1];
    if (w.n < 2 || !strchr(",;:.!", last))
        return false;
    struct str instead = str_part(w, 0, w.n - 1);
    if (!mend_works(s, t, instead))
        return false;
    struct diag *d = FAULT(s, E_STRAY, t, last, STR_ARG(w));
    (void)fault_try(s, d, t.at, t.n, instead, true);
    return true;
}

/* `by 11`, `long +0,5`: one field in two words. */
static bool apart(struct syn *s, struct token t, struct str w) {
    struct str line = text_line_at(s->text, s->stmt.at);
    size_t at = t.at - s->stmt.at, end = at + t.n;
    bool sign = w.at[0] == '+' || w.at[0] == '-';
    size_t from = sign ? at : end, to = from;
    while (from > 0 && sign && line.at[from - 1] == ' ')
        from--;
    while (to < line.n && !sign && line.at[to] == ' ')
        to++;
    struct str rest = str_part(line, to, line.n);
    if (from == to || !rest.n)
        return false;
    if (sign && has(w, ','))
        rest = changed(s, rest, (size_t)((const char *)memchr(w.at, ',', w.n) - w.at), 1, ".");
    struct diag probe = {.place = build_place(s, t)};
    size_t n = line.n - from;
    if (!fault_try(s, &probe, s->stmt.at + from, n, rest, false))
        return false;
    struct diag *d = FAULT(s, E_APART, t, sign ? "before" : "behind", STR_ARG(w));
    (void)fault_try(s, d, s->stmt.at + from, n, rest, false);
    return true;
}

/* `18.42` for 18:42. */
static bool point_in_time(struct syn *s, struct token t, struct str w) {
    size_t point = 0;
    while (point < w.n && w.at[point] != '.')
        point++;
    if (point == w.n || w.n - point != 3)
        return false;
    struct str instead = changed(s, w, point, 1, ":");
    if (!mend_works(s, t, instead))
        return false;
    number_fault(s, t, "has a point where a time has a colon", instead, true);
    return true;
}

/* `5:7` for a score, `2.1;8.4` for coordinates. */
static bool other_sign(struct syn *s, struct token t, struct str w) {
    for (size_t i = 1; i + 1 < w.n; i++) {
        if (!strchr(":;", w.at[i]) || !digit(w.at[i - 1]) || !digit(w.at[i + 1]))
            continue;
        const char *sign = has(w, '.') ? "," : "-";
        struct str instead = changed(s, w, i, 1, sign);
        if (!mend_works(s, t, instead))
            return false;
        struct diag *d = FAULT(s, E_NUMBER, t, STR_ARG(w),
                               str_printf(s->arena, "has a %s where a %s is needed",
                                          w.at[i] == ':' ? "colon" : "semicolon",
                                          *sign == ',' ? "comma" : "hyphen").at);
        (void)fault_try(s, d, t.at, t.n, instead, false);
        return true;
    }
    return false;
}

/* `in4` is more likely a slip of the pass than `in 4` of a practice. */
static bool like_pass(struct str w) {
    return w.n == 3 && memcmp(w.at, "in", 2) == 0 && digit(w.at[2]);
}

/* `7net`, `7,net`: two fields run together. */
static bool glued(struct syn *s, struct token t, struct str w) {
    if (like_pass(w))
        return false;
    struct str found = STR_NONE;
    unsigned ways = 0;
    for (size_t i = 1; i < w.n && i < 16; i++) {
        if (digit(w.at[i - 1]) && digit(w.at[i]))
            continue;
        bool sign = strchr(",;/.", w.at[i]) && i + 1 < w.n;
        struct str instead = changed(s, w, i, sign, " ");
        if (!mend_works(s, t, instead))
            continue;
        found = instead;
        ways++;
    }
    if (ways != 1)
        return false;
    struct diag *d = FAULT(s, E_GLUED, t, STR_ARG(w));
    (void)fault_try(s, d, t.at, t.n, found, true);
    return true;
}

/* `7 net G3 ace`. */
static bool second_server(struct syn *s, struct token t, struct str w,
                          const bool expected[T_EXTRA + 1]) {
    bool server = w.n <= 3 && letter(w.at[0]) && (w.n == 1 || digit(w.at[w.n - 1]));
    struct diag probe = {.place = build_place(s, t)};
    if (!server || !expected[T_GOING] || !fault_split(s, &probe, t.at, ""))
        return false;
    struct diag *d = FAULT(s, E_SECOND_SERVER, t, STR_ARG(w));
    (void)fault_split(s, d, t.at, "");
    return true;
}

/* Three numbers apart, in the order of the word; false for anything else. */
static bool three_numbers(struct str w, unsigned n[3]) {
    unsigned parts = 0, digits = 0;
    n[0] = n[1] = n[2] = 0;
    for (size_t i = 0; i < w.n; i++) {
        if (digit(w.at[i]) && digits < 4) {
            n[parts] = n[parts] * 10 + (unsigned)(w.at[i] - '0');
            digits++;
        } else if (strchr("/.-", w.at[i]) && digits && parts < 2) {
            parts++;
            digits = 0;
        } else {
            return false;
        }
    }
    return parts == 2 && digits > 0;
}

static struct str iso_date(struct syn *s, unsigned year, unsigned month, unsigned day) {
    return str_printf(s->arena, "%04u-%02u-%02u", year < 100 ? 2000 + year : year, month, day);
}

static bool date_like(struct syn *s, struct token t, struct str w) {
    unsigned n[3];
    if (!three_numbers(w, n))
        return false;
    bool year_first = n[0] > 99, day_first = n[0] > 12;
    struct str date = year_first ? iso_date(s, n[0], n[1], n[2]) : iso_date(s, n[2], n[1], n[0]);
    struct str other = iso_date(s, n[2], n[0], n[1]);
    bool sure = year_first || day_first || n[1] > 12 || n[0] == n[1];
    if (!year_first && n[1] > 12)
        date = other;
    struct diag *d = sure ? FAULT(s, E_DATE_FORM, t, STR_ARG(w))
                          : FAULT(s, E_DATE_AMBIGUOUS, t, STR_ARG(w));
    if (!d)
        return true;
    d->expected = STR("year, month and day, such as 2026-10-03");
    if (sure)
        (void)fault_try(s, d, t.at, t.n, date, false);
    else
        d->likely = str_printf(s->arena, "%.*s or %.*s", STR_ARG(date), STR_ARG(other));
    return true;
}

static bool unquoted(struct syn *s, struct token t, struct str w) {
    struct diag *d = FAULT(s, E_TEXT_BARE, t, STR_ARG(w));
    struct str line = text_line_at(s->text, s->stmt.at);
    struct str rest = str_trim(str_part(line, t.at - s->stmt.at, line.n));
    (void)fault_try(s, d, t.at, rest.n, str_printf(s->arena, "\"%.*s\"", STR_ARG(rest)), false);
    return true;
}

/* What a word would have to be here, for the message. */
static const char *class_noun(enum word_class class) {
    switch (class) {
    case WORD_STATEMENT: return "a statement";
    case WORD_TYPE: return "a type of serve";
    case WORD_INTENT: return "an intent";
    case WORD_MARK: return "a mark";
    case WORD_OUTCOME: return "an outcome";
    case WORD_AFTER: return "a word that stands behind the outcome";
    case WORD_PHASE: return "a phase";
    case WORD_ARGUMENT: return "a word that stands here";
    case WORD_SHAPE: return "a field";
    }
    return "a word";
}

enum { NEAREST_MAX = 2 };

/* The words nearest to `w` that may stand here: how many share the least
 * distance, the first two of them in `near`. */
static unsigned nearest(struct str w, const bool expected[T_EXTRA + 1],
                        const struct word_info *near[NEAREST_MAX]) {
    unsigned limit = w.n <= 4 ? 1 : 2, best = limit + 1, n = 0;
    for (int id = 0; id < W_N; id++) {
        const struct word_info *info = word_info((enum word_id)id);
        if (info->class == WORD_SHAPE || !expected[info->code])
            continue;
        unsigned slips = str_slips(w, info->word, limit);
        if (slips > limit || slips > best || slips >= info->word.n)
            continue;
        if (slips < best)
            n = 0;
        best = slips;
        if (n < NEAREST_MAX)
            near[n] = info;
        n++;
    }
    return n;
}

/* The one outcome that begins so, typed in part; NULL if none or several do. */
static const struct word_info *begun_outcome(struct str w, const bool expected[T_EXTRA + 1]) {
    const struct word_info *begun = NULL;

    for (int id = 0; id < W_N; id++) {
        const struct word_info *info = word_info((enum word_id)id);
        if (info->class != WORD_OUTCOME || !expected[info->code] || !str_starts(info->word, w))
            continue;
        if (begun)
            return NULL;
        begun = info;
    }
    return begun;
}

/* What is said of a serve in a hall where the notation has several words. */
static const char *said_in_the_hall(struct str w) {
    return str_same(w, STR("out"))    ? "long, left or right"
           : str_same(w, STR("wide")) ? "left or right"
                                      : NULL;
}

/* What may have been meant where no word alone is the nearest. */
static struct str likely_word(struct syn *s, const struct word_info *begun,
                              const struct word_info *near[NEAREST_MAX], unsigned n) {
    if (begun)
        return begun->word;
    if (n == 2)
        return str_printf(s->arena, "%.*s or %.*s", STR_ARG(near[0]->word),
                          STR_ARG(near[1]->word));
    return STR_NONE;
}

static const char *expected_noun(const bool expected[T_EXTRA + 1]) {
    if (expected[T_OUTCOME])
        return "a field of a serve, nor an outcome";
    if (expected[T_PHASE])
        return "a phase";
    return "a word that stands here";
}

static void unknown(struct syn *s, struct token t, struct str w, const bool expected[T_EXTRA + 1]) {
    const struct word_info *near[NEAREST_MAX];
    unsigned n = nearest(w, expected, near);
    const struct word_info *begun = n == 1 ? NULL : begun_outcome(w, expected);
    const struct word_info *meant = begun ? begun : n ? near[0] : NULL;
    bool serve = s->codes[0] == T_SERVER;
    struct diag *d;
    if (s->token_n == 1)
        d = FAULT(s, E_UNKNOWN_STATEMENT, t, STR_ARG(w));
    else
        d = FAULT(s, E_UNKNOWN_WORD, t, STR_ARG(w),
                  meant ? class_noun(meant->class) : expected_noun(expected));
    if (!d)
        return;
    if (meant && meant->class == WORD_OUTCOME)
        d->expected = STR("ace, in1 to in3, play, net, long or another outcome");
    else if (s->token_n == 1)
        d->expected = STR("a server such as 7, a score such as 2-3, or a statement such as set");
    else
        d->expected = fault_expected(s->arena, expected, serve);
    if (n == 1)
        (void)fault_try(s, d, t.at, t.n, near[0]->word, false);
    else if (!n && expected[T_OUTCOME] && said_in_the_hall(w))
        d->likely = str_of(said_in_the_hall(w));
    else
        d->likely = likely_word(s, begun, near, n);
}

/* `lO net`, `G2O net`: letters that look like the digits of a shirt. */
static bool letter_for_digit(struct syn *s, struct token t, struct str w) {
    char shirt[2];
    size_t team = w.n > 1 && letter(w.at[0]) && !strchr("lIOo", w.at[0]), n = w.n - team;
    if (s->token_n != 1 || n < 1 || n > sizeof shirt)
        return false;
    for (size_t i = 0; i < n; i++) {
        char c = w.at[team + i];
        shirt[i] = c == 'O' || c == 'o' ? '0' : c == 'l' || c == 'I' ? '1' : c;
    }
    struct str instead = str_printf(s->arena, "%.*s%.*s", (int)team, w.at, (int)n, shirt);
    if (!mend_works(s, t, instead))
        return false;
    number_fault(s, t, "has a letter for a digit", instead, false);
    return true;
}

/* A field at the start of a line: nobody is named who served. */
static bool starts_with_field(struct syn *s, struct token t, struct str w) {
    struct token field;
    if (s->token_n != 1)
        return false;
    int code = tok_field(s->arena, w, &field);
    if (code == T_WORD || code == T_NUMBER || code == T_EQUALS)
        return false;
    struct diag *d = FAULT(s, E_NO_SERVER, t, STR_ARG(w));
    if (d)
        d->expected = STR("the server first: 7, G3, G, or . for the same server again");
    (void)fault_try(s, d, t.at, 0, STR(". "), false);
    return true;
}

/* `100 ace`, `T200 ace`: a shirt that no player can have. */
static bool shirt_too_high(struct syn *s, struct token t, struct str w) {
    size_t from = letter(w.at[0]);
    if (s->token_n != 1 || w.n - from < 3 || w.n - from > 4 || w.at[from] == '0')
        return false;
    int shirt = 0;
    for (size_t i = from; i < w.n; i++) {
        if (!digit(w.at[i]))
            return false;
        shirt = shirt * 10 + (w.at[i] - '0');
    }
    FAULT(s, E_SHIRT_RANGE, t, shirt);
    return true;
}

void fault_word(struct syn *s, struct token t, const bool expected[T_EXTRA + 1]) {
    struct str w = build_spelt(s, t);
    if (s->trying) {
        s->bad = true;
        s->diags->errors++;
        return;
    }
    if (expected[T_DATE] && date_like(s, t, w))
        return;
    if (expected[T_TEXT] && !expected[T_NL] && unquoted(s, t, w))
        return;
    if (shirt_too_high(s, t, w) || stray_sign(s, t, w) || comma_for_point(s, t, w) ||
        leading_zero(s, t, w) || sign_or_point(s, t, w) || too_many_decimals(s, t, w) ||
        bare_coordinates(s, t, w) || point_in_time(s, t, w) || apart(s, t, w) ||
        letter_for_digit(s, t, w) || other_sign(s, t, w) || starts_with_field(s, t, w) || glued(s, t, w) ||
        fault_layout(s, t) || second_server(s, t, w, expected))
        return;
    unknown(s, t, w, expected);
}
