/* A pool as a JSON file and back: the files it counts, and rows that name the server,
 * the receiver, the way of serving in the words of the notation, and how often it
 * occurred. */
#include <errno.h>
#include <jansson.h>
#include <limits.h>
#include <string.h>

#include "cmd/span.h"
#include "cmd/tally.h"

enum { PARTS_SCHEMA = 2, FIELDS = 9, SUM_DIGITS = 64 };

static const char what[] = "counts of 9m tally";
static const char key[] = "outcome rally start aim zone set rotation type situations";

/* ---- writing --------------------------------------------------------------- */

static void put_word(struct buf *b, struct str word) {
    buf_char(b, ' ');
    buf_add(b, word.n ? word : STR("-"));
}

static void put_number(struct buf *b, unsigned value) {
    buf_printf(b, " %u", value);
}

static void put_situations(struct buf *b, unsigned set) {
    const char *between = " ";

    for (unsigned s = 0; s < SITUATION_N; s++)
        if (set & 1u << s) {
            buf_printf(b, "%s%.*s", between, STR_ARG(tally_situation_word(s)));
            between = "+";
        }
    if (!set)
        put_word(b, STR_NONE);
}

static struct str rally_word(unsigned rally) {
    return rally == RALLY_WON ? STR("won") : rally == RALLY_LOST ? STR("lost") : STR_NONE;
}

/* No blank before the first field. */
static void put_way(struct buf *b, const struct pooled *w) {
    buf_add(b, tally_outcome_word(w->outcome));
    put_word(b, rally_word(w->rally));
    put_word(b, tally_third_word(w->third));
    put_number(b, w->aim);
    put_number(b, w->zone);
    put_number(b, w->set);
    put_number(b, w->rotation);
    put_word(b, tally_type_word(w->type));
    put_situations(b, w->situations);
}

static void put_person(struct buf *b, const struct person *who) {
    buf_add(b, STR("{\"team\": "));
    tally_quoted(b, who->team);
    if (who->shirt == SHIRT_NONE)
        buf_add(b, STR(", \"shirt\": null"));
    else
        buf_printf(b, ", \"shirt\": %u", who->shirt);
    buf_add(b, STR(", \"name\": "));
    tally_quoted(b, who->name);
    if (who->shirt_on.year)
        buf_printf(b, ", \"shirt_on\": \"%04d-%02d-%02d\"", who->shirt_on.year,
                   who->shirt_on.month, who->shirt_on.day);
    if (who->by_shirt)
        buf_add(b, STR(", \"by_shirt\": true"));
    buf_printf(b, ", \"ours\": %s}", who->ours ? "true" : "false");
}

static void put_serve(struct buf *b, const struct pooled *w) {
    buf_printf(b, "[%d, ", w->server);
    if (w->receiver == PERSON_NONE)
        buf_add(b, STR("null"));
    else
        buf_printf(b, "%d", w->receiver);
    buf_add(b, STR(", \""));
    put_way(b, w);
    buf_printf(b, "\", %u]", w->n);
}

static void put_file(struct buf *b, const struct pool_file *file) {
    buf_printf(b, "[\"%.*s\", ", STR_ARG(file->sum));
    tally_quoted(b, file->name);
    buf_char(b, ']');
}

struct str tally_parts(const struct pool *p, struct arena *a) {
    struct buf b;

    buf_init(&b, a);
    buf_printf(&b, "{\"schema\": %d, \"what\": \"%s\",\n", PARTS_SCHEMA, what);
    buf_printf(&b, " \"matches\": %u, \"practices\": %u, \"incomplete\": %u,\n", p->matches,
               p->practices, p->incomplete);
    buf_add(&b, STR(" \"files\": ["));
    for (size_t i = 0; i < p->file_n; i++) {
        buf_add(&b, i ? STR(",\n  ") : STR("\n  "));
        put_file(&b, &p->files[i]);
    }
    buf_add(&b, STR("],\n \"people\": ["));
    for (size_t i = 0; i < p->person_n; i++) {
        buf_add(&b, i ? STR(",\n  ") : STR("\n  "));
        put_person(&b, &p->people[i]);
    }
    buf_printf(&b, "],\n \"key\": \"%s\",\n \"serves\": [", key);
    for (size_t i = 0; i < p->pooled_n; i++) {
        buf_add(&b, i ? STR(",\n  ") : STR("\n  "));
        put_serve(&b, &p->pooled[i]);
    }
    buf_add(&b, STR("]}\n"));
    return buf_str(&b);
}

/* ---- reading --------------------------------------------------------------- */

/* The value that has this word, or `most`; "-" is 0. */
static unsigned value_of(struct str word, struct str (*word_of)(unsigned), unsigned most) {
    for (unsigned v = 0; v < most; v++)
        if (str_eq(word, word_of(v).n ? word_of(v) : STR("-")))
            return v;
    return most;
}

static bool read_word(struct str word, struct str (*word_of)(unsigned), unsigned most,
                      unsigned *out) {
    *out = value_of(word, word_of, most);
    return *out < most;
}

static bool read_number(struct str word, unsigned most, unsigned *out) {
    *out = word.n == 1 ? (unsigned)(unsigned char)word.at[0] - '0' : UINT_MAX;
    return *out <= most;
}

static struct str until(struct str s, char end) {
    const char *at = s.n ? memchr(s.at, end, s.n) : NULL;

    return at ? str_part(s, 0, (size_t)(at - s.at)) : s;
}

static bool read_situations(struct str words, unsigned *out) {
    *out = 0;
    if (str_is(words, "-"))
        return true;
    while (words.n) {
        struct str one = until(words, '+');
        unsigned s = value_of(one, tally_situation_word, SITUATION_N);

        if (s == SITUATION_N)
            return false;
        *out |= 1u << s;
        words = str_part(words, one.n + 1, words.n);
    }
    return *out != 0;
}

/* Retoss and replay are no attempts, so no file of counts has them. */
static bool is_attempt(unsigned outcome) {
    return outcome >= OUTCOME_ACE && outcome <= OUTCOME_SCREEN;
}

static bool read_way(struct str text, struct pooled *w) {
    struct str field[FIELDS] = {STR_NONE};
    unsigned v[FIELDS];
    unsigned n = 0;

    for (; n < FIELDS && text.n; n++) {
        field[n] = until(text, ' ');
        text = str_part(text, field[n].n + 1, text.n);
    }
    if (n < FIELDS || text.n || !read_word(field[0], tally_outcome_word, OUTCOME_N, &v[0]) ||
        !is_attempt(v[0]) || !read_word(field[1], rally_word, RALLY_LOST + 1, &v[1]) ||
        !read_word(field[2], tally_third_word, THIRD_LEFT + 1, &v[2]) ||
        !read_number(field[3], ZONE_SEAM, &v[3]) || !read_number(field[4], ZONE_SEAM, &v[4]) ||
        !read_number(field[5], SETS_MAX, &v[5]) || !read_number(field[6], 6, &v[6]) ||
        !read_word(field[7], tally_type_word, TYPE_UNDERHAND + 1, &v[7]) ||
        !read_situations(field[8], &v[8]))
        return false;
    *w = (struct pooled){
        .server = w->server, .receiver = w->receiver, .n = w->n,
        .outcome = v[0] & 31u, .rally = v[1] & 3u, .third = v[2] & 3u, .aim = v[3] & 7u,
        .zone = v[4] & 7u, .set = v[5] & 15u, .rotation = v[6] & 7u, .type = v[7] & 7u,
        .situations = v[8] & 31u,
    };
    return true;
}

/* Indexes of this file's people in the pool. */
struct people {
    int32_t *at;
    size_t n;
};

static struct str text_of(const json_t *string) {
    return (struct str){json_string_value(string), json_string_length(string)};
}

/* Counts of an earlier form have none. */
static bool read_day(const json_t *day, struct date *out) {
    return !day || (json_is_string(day) && cmd_day(json_string_value(day), out));
}

static bool read_person(const json_t *one, struct person *who) {
    const json_t *team = json_object_get(one, "team"), *name = json_object_get(one, "name");
    const json_t *shirt = json_object_get(one, "shirt"), *ours = json_object_get(one, "ours");
    json_int_t number = json_is_null(shirt) ? SHIRT_NONE : json_integer_value(shirt);

    if (!json_is_string(team) || !json_is_string(name) || !json_is_boolean(ours) ||
        !(json_is_null(shirt) || (json_is_integer(shirt) && number >= 0 && number <= SHIRT_MAX)))
        return false;
    *who = (struct person){.team = text_of(team), .name = text_of(name), .shirt = (uint8_t)number,
                           .by_shirt = json_is_true(json_object_get(one, "by_shirt")),
                           .ours = json_is_true(ours)};
    return read_day(json_object_get(one, "shirt_on"), &who->shirt_on);
}

static bool index_of(const json_t *number, const struct people *people, int32_t *out) {
    json_int_t at = json_integer_value(number);

    if (!json_is_integer(number) || at < 0 || (size_t)at >= people->n)
        return false;
    *out = people->at[at];
    return true;
}

/* What is wrong with the row, or NULL. */
static const char *read_serve(struct pool *p, const struct people *people, const json_t *row) {
    const json_t *by = json_array_get(row, 1), *way = json_array_get(row, 2);
    json_int_t n = json_integer_value(json_array_get(row, 3));
    struct pooled w = {.receiver = PERSON_NONE};

    if (json_array_size(row) != 4 || !json_is_string(way) || n < 1 || n > UINT32_MAX)
        return "is no [server, receiver, way, count]";
    if (!index_of(json_array_get(row, 0), people, &w.server) ||
        (!json_is_null(by) && !index_of(by, people, &w.receiver)))
        return "names somebody who is not among its people";
    if (!read_way(text_of(way), &w))
        return "has a way of serving that can't be read";
    w.n = (uint32_t)n;
    return pool_put(p, w) ? NULL : "brings more serves than one table can hold";
}

static bool count_of(const json_t *document, const char *name, unsigned *out) {
    const json_t *number = json_object_get(document, name);
    json_int_t n = json_integer_value(number);

    if (!json_is_integer(number) || n < 0 || n > POOL_SERVES_MOST)
        return false;
    *out += (unsigned)n;
    return true;
}

static bool is_counts(const json_t *document) {
    const char *is = json_string_value(json_object_get(document, "what"));

    return is && strcmp(is, what) == 0;
}

static json_int_t schema_of(const json_t *document) {
    return json_integer_value(json_object_get(document, "schema"));
}

/* Form 1 did not name its files, so that nobody can tell when they are counted twice. */
static bool has_files(const json_t *document) {
    const json_t *files = json_object_get(document, "files");

    return schema_of(document) == 1 ? !files
                                    : schema_of(document) == PARTS_SCHEMA && json_is_array(files);
}

static bool read_head(struct pool *p, const json_t *document) {
    const char *has = json_string_value(json_object_get(document, "key"));

    return is_counts(document) && has && strcmp(has, key) == 0 && has_files(document) &&
           json_is_array(json_object_get(document, "people")) &&
           json_is_array(json_object_get(document, "serves")) &&
           count_of(document, "matches", &p->matches) &&
           count_of(document, "practices", &p->practices) &&
           count_of(document, "incomplete", &p->incomplete);
}

static bool refuse(const char *path, const char *why) {
    cmd_say("%s: %s", path, why);
    return false;
}

static bool is_sum(const json_t *sum) {
    return json_is_string(sum) && json_string_length(sum) == SUM_DIGITS &&
           strspn(json_string_value(sum), "0123456789abcdef") == SUM_DIGITS;
}

static bool read_files(struct pool *p, const json_t *document, const char *path, unsigned part) {
    const json_t *files = json_object_get(document, "files");

    for (size_t i = 0; i < json_array_size(files); i++) {
        const json_t *one = json_array_get(files, i);
        const json_t *sum = json_array_get(one, 0), *name = json_array_get(one, 1);

        if (!is_sum(sum) || !json_is_string(name)) {
            cmd_say("%s: file %zu of its files is no [SHA-256, name]", path, i + 1);
            return false;
        }
        pool_file(p, (struct pool_file){text_of(sum), text_of(name), part});
    }
    return true;
}

static bool read_rows(struct pool *p, const json_t *document, const char *path) {
    const json_t *people = json_object_get(document, "people");
    const json_t *serves = json_object_get(document, "serves");
    struct people known = {.n = json_array_size(people)};
    struct person who;

    known.at = arena_alloc(p->arena, known.n + 1, sizeof *known.at);
    for (size_t i = 0; i < known.n; i++) {
        if (!read_person(json_array_get(people, i), &who)) {
            cmd_say("%s: person %zu of its people can't be read", path, i + 1);
            return false;
        }
        known.at[i] = pool_person(p, who);
    }
    for (size_t i = 0; i < json_array_size(serves); i++) {
        const char *why = read_serve(p, &known, json_array_get(serves, i));

        if (why) {
            cmd_say("%s: row %zu of its serves %s", path, i + 1, why);
            return false;
        }
    }
    return true;
}

static bool refuse_head(const json_t *document, const char *path) {
    if (is_counts(document) && schema_of(document) > PARTS_SCHEMA) {
        cmd_say("%s: counts of form %lld, from a newer 9m; this one adds form %d. Take the newer "
                "one, or count with this one",
                path, (long long)schema_of(document), PARTS_SCHEMA);
        return false;
    }
    return refuse(path, "no file of counts that this 9m can add; 9m tally --partial writes them");
}

bool tally_parts_read(struct pool *p, const char *path, unsigned part) {
    json_error_t error;
    FILE *from = strcmp(path, "-") == 0 ? stdin : fopen(path, "rb");
    json_t *document;
    bool good;

    if (!from)
        return refuse(path, strerror(errno));
    document = json_loadf(from, JSON_REJECT_DUPLICATES, &error);
    if (from != stdin)
        fclose(from);
    if (!document) {
        cmd_say("%s:%d: no JSON: %s", path, error.line, error.text);
        return false;
    }
    good = read_head(p, document)
               ? read_files(p, document, path, part) && read_rows(p, document, path)
               : refuse_head(document, path);
    json_decref(document);
    return good;
}
