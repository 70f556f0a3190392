/* The message for a line that stops parsing: known words in the wrong place,
 * and lines that end too early. Unknown words are in word.c. */
#include "syntax/fault.h"

bool fault_try(struct syn *s, struct diag *d, size_t at, size_t n, struct str instead, bool safe) {
    if (!d || s->trying)
        return false;
    struct str line = text_line_at(s->text, s->stmt.at);
    size_t from = at - s->stmt.at;
    struct str whole =
        str_printf(s->arena, "%.*s%.*s%.*s", (int)from, line.at, STR_ARG(instead),
                   (int)(line.n - from - n), line.at + from + n);
    if (!syn_accepts(s, whole))
        return false;
    d->attempt = str_trim(whole);
    d->safe = safe;
    diag_edit(d, s->stmt.line, (unsigned)from, (unsigned)n, instead);
    return true;
}

bool fault_split(struct syn *s, struct diag *d, size_t at, const char *head) {
    struct str line = text_line_at(s->text, s->stmt.at);
    size_t from = at - s->stmt.at;
    while (from > 0 && line.at[from - 1] == ' ')
        from--;
    return fault_try(s, d, s->stmt.at + from, at - s->stmt.at - from,
                     str_printf(s->arena, "\n%s", head), false);
}

static bool one_of(int code, const int *codes, size_t n) {
    for (size_t i = 0; i < n; i++)
        if (codes[i] == code)
            return true;
    return false;
}

static bool stands_before(int code) {
    static const int codes[] = {T_TYPE, T_START, T_AIM, T_INTENT, T_MEASURE, T_MARK};
    return one_of(code, codes, sizeof codes / sizeof *codes);
}

static bool stands_after(int code) {
    static const int codes[] = {T_GOING, T_NUMBER, T_PAIR,   T_DEEP,  T_COORD,
                                T_BY,    T_RALLY,  T_CLOCKTIME, T_REPEAT, T_REVIEW};
    return one_of(code, codes, sizeof codes / sizeof *codes);
}

static bool is_outcome(int code) {
    return code == T_OUTCOME || code == T_MISS || code == T_OVERLAP;
}

/* The line's first outcome; NULL if it has none. The tokens behind the fault
 * have not been read yet, so the line is cut again. */
static bool find_outcome(const struct syn *s, struct token *out) {
    struct lexer lx = s->lexer;
    lx.cursor = lx.line_start = s->text->bytes.at + s->stmt.at;
    tok_restart(&lx);
    for (int code; (code = tok_next(&lx, out)) != T_NL && code != 0;)
        if (is_outcome(code))
            return true;
    return false;
}

/* Moves the field to the other side of the outcome. */
static void try_other_side(struct syn *s, struct diag *d, struct token t) {
    struct token outcome;
    if (!d || s->trying || !find_outcome(s, &outcome))
        return;
    struct str line = text_line_at(s->text, s->stmt.at);
    const char *end = line.at + line.n, *field = s->text->bytes.at + t.at;
    const char *pivot = s->text->bytes.at + outcome.at;
    struct buf b;
    buf_init(&b, s->arena);
    if (field > pivot) {         /* to before the outcome */
        buf_add(&b, (struct str){line.at, (size_t)(pivot - line.at)});
        buf_printf(&b, "%.*s ", (int)t.n, field);
        buf_add(&b, str_trim((struct str){pivot, (size_t)(field - pivot)}));
        buf_add(&b, (struct str){field + t.n, (size_t)(end - field - t.n)});
    } else {                     /* to behind it */
        const char *next = field + t.n;
        while (next < pivot && *next == ' ')
            next++;
        buf_add(&b, (struct str){line.at, (size_t)(field - line.at)});
        buf_add(&b, (struct str){next, (size_t)(pivot - next) + outcome.n});
        buf_printf(&b, " %.*s", (int)t.n, field);
        buf_add(&b, (struct str){pivot + outcome.n, (size_t)(end - pivot - outcome.n)});
    }
    (void)fault_try(s, d, s->stmt.at, line.n, buf_str(&b), true);
}

/* `7 net 12 ace`: a second serve began at the number before; `7 net ace`: the
 * same server may have served again. */
static void second_outcome(struct syn *s, struct token t, const bool expected[T_EXTRA + 1]) {
    struct diag *d = FAULT(s, E_SECOND_OUTCOME, t, STR_ARG(build_spelt(s, t)));
    if (!d)
        return;
    d->expected = fault_expected(s->arena, expected, true);
    unsigned n = s->token_n - 1;
    if (n > 2 && s->codes[n - 1] == T_NUMBER && fault_split(s, d, s->tokens[n - 1].at, ""))
        return;
    (void)fault_split(s, d, t.at, ". ");
}

void fault_zone(struct syn *s, struct token t, int zone) {
    struct diag probe = {.place = build_place(s, t)};
    if (s->bad || s->trying || !fault_split(s, &probe, t.at, "")) {
        FAULT(s, E_ZONE, t, zone);
        return;
    }
    struct diag *d = FAULT(s, E_SECOND_SERVER, t, STR_ARG(build_spelt(s, t)));
    (void)fault_split(s, d, t.at, "");
}

static void stops_short(struct syn *s, struct token t, const bool expected[T_EXTRA + 1]) {
    unsigned n = s->token_n - 1;
    struct token last = n ? s->tokens[n - 1] : t;
    struct token end = {.at = last.at + last.n};
    struct diag *d;
    if (s->codes[0] == T_SERVER) {
        bool shirt = n == 1 && last.value == SERVER_SHIRT;
        struct str where = shirt ? STR("the shirt")
                                 : str_printf(s->arena, "\"%.*s\"", STR_ARG(build_spelt(s, last)));
        d = FAULT(s, E_OUTCOME_MISSING, end, STR_ARG(where));
        if (d)
            d->expected = str_printf(s->arena, "an outcome, such as: %.*s in2",
                                     (int)(last.at + last.n - s->stmt.at),
                                     s->text->bytes.at + s->stmt.at);
        return;
    }
    const char *missing = "something";
    for (int code = T_EXTRA; code > T_NL; code--)
        if (expected[code])
            missing = fault_phrase(code, false);
    d = FAULT(s, E_STOPS_SHORT, end, STR_ARG(build_spelt(s, s->tokens[0])), missing);
    if (d)
        d->expected = str_printf(s->arena, "%s; in full: %s",
                                 fault_expected(s->arena, expected, false).at,
                                 word_info(s->tokens[0].value)->example);
}

/* `7 2`: what the 2 means can't be told without an outcome before it. */
static void outcome_left_out(struct syn *s, int code, struct token t) {
    struct str before = str_part(s->text->bytes, s->stmt.at, t.at - s->stmt.at);
    struct diag *d = FAULT(s, E_OUTCOME_MISSING, t,
                           STR_ARG(str_printf(s->arena, "\"%.*s\"", STR_ARG(str_trim(before)))));
    if (!d)
        return;
    d->expected = str_printf(s->arena, "an outcome, such as: %.*sin2", STR_ARG(before));
    if (code == T_NUMBER && t.a >= 1 && t.a <= 3)
        d->likely = str_printf(s->arena, "in%d", t.a);
}

/* A mend that keeps every word: `5/6` for 5-6, or the last two exchanged. */
static void try_instead(struct syn *s, struct diag *d, int code, struct token t) {
    unsigned n = s->token_n - 1;
    if (code == T_RATIO && fault_try(s, d, t.at, t.n, str_printf(s->arena, "%d-%d", t.a, t.b), false))
        return;
    if (n < 2)
        return;
    struct token last = s->tokens[n - 1];
    struct str turned = str_printf(s->arena, "%.*s %.*s", STR_ARG(build_spelt(s, t)),
                                   STR_ARG(build_spelt(s, last)));
    (void)fault_try(s, d, last.at, t.at + t.n - last.at, turned, false);
}

static void out_of_place(struct syn *s, int code, struct token t,
                         const bool expected[T_EXTRA + 1]) {
    bool serve = s->codes[0] == T_SERVER;
    struct str word = build_spelt(s, t);
    bool behind = serve && !expected[T_OUTCOME];
    struct diag *d = NULL;
    if (behind && is_outcome(code)) {
        second_outcome(s, t, expected);
        return;
    }
    struct token outcome;
    if (serve && !behind && stands_after(code) && !find_outcome(s, &outcome)) {
        outcome_left_out(s, code, t);
        return;
    }
    if (serve && (behind ? stands_before(code) : stands_after(code))) {
        d = FAULT(s, E_WRONG_SIDE, t, STR_ARG(word), behind ? "before" : "after");
        try_other_side(s, d, t);
    } else {
        d = FAULT(s, E_LEFT_OVER, t, STR_ARG(word));
        try_instead(s, d, code, t);
    }
    if (d)
        d->expected = fault_expected(s->arena, expected, serve);
}

void fault_line(struct syn *s, int code, struct token t) {
    if (s->bad)
        return;
    bool expected[T_EXTRA + 1];
    notation_expected(s->codes, s->token_n - 1, expected);
    if (code == T_OPENTEXT)
        FAULT(s, E_TEXT_OPEN, t, 0);
    else if (code == T_WORD || code == T_NAME || (code == T_DECIMAL && expected[T_CLOCKTIME]))
        fault_word(s, t, expected);
    else if (code == T_NL)
        stops_short(s, t, expected);
    else
        out_of_place(s, code, t, expected);
}
