#include "cmd/data.h"

struct cmd_column cmd_column(struct str line, unsigned at) {
    struct str before = str_part(line, 0, at);

    return (struct cmd_column){str_cells(before, 0) + 1, (unsigned)before.n + 1,
                               (unsigned)str_chars(before) + 1, (unsigned)str_utf16(before) + 1};
}

json_t *data_text(struct cmd_data *data, struct str s) {
    struct buf b;
    unsigned code_point;

    buf_init(&b, data->arena);
    for (size_t at = 0; at < s.n;) {
        size_t n = str_code_point(s, at, &code_point);

        buf_add(&b, n ? str_part(s, at, n) : STR("\xEF\xBF\xBD")); /* U+FFFD */
        at += n ? n : 1;
    }
    return json_stringn(b.n ? b.at : "", b.n);
}

void data_put(struct cmd_data *data, json_t *object, const char *key, struct str s) {
    if (s.n)
        json_object_set_new(object, key, data_text(data, s));
}

struct str data_line(const struct text *t, const struct diag *diag, unsigned line) {
    return line == diag->place.line ? diag->place.text : text_line(t, line);
}

static json_t *column(struct str line, unsigned at) {
    struct cmd_column c = cmd_column(line, at);

    return json_pack("{s:i, s:i, s:i, s:i}", "display", (int)c.display, "byte", (int)c.byte,
                     "character", (int)c.character, "utf16", (int)c.utf16);
}

/* Line 0, the file as a whole, has no columns. */
static json_t *place(struct cmd_data *data, struct place p) {
    json_t *out = json_object();

    json_object_set_new(out, "file", data_text(data, p.file));
    if (!p.line)
        return out;
    json_object_set_new(out, "line", json_integer(p.line));
    json_object_set_new(out, "start", column(p.text, p.at));
    json_object_set_new(out, "end", column(p.text, p.at + p.n));
    json_object_set_new(out, "source", data_text(data, p.text));
    return out;
}

static json_t *sees(struct cmd_data *data, const struct diag *diag) {
    json_t *out = json_array();

    for (unsigned i = 0; i < diag->see_n; i++) {
        const struct see *see = &diag->sees[i];
        json_t *one = see->place.line ? place(data, see->place) : json_object();

        data_put(data, one, "text", see->text);
        json_array_append_new(out, one);
    }
    return out;
}

static json_t *fix(struct cmd_data *data, const struct text *t, const struct diag *diag) {
    json_t *edits = json_array();

    for (unsigned i = 0; i < diag->edit_n; i++) {
        const struct edit *e = &diag->edits[i];
        struct str line = data_line(t, diag, e->line);
        json_t *one = json_pack("{s:i, s:o, s:o}", "line", (int)e->line, "start",
                                column(line, e->at), "end", column(line, e->at + e->n));

        json_object_set_new(one, "text", data_text(data, e->text));
        json_array_append_new(edits, one);
    }
    return json_pack("{s:b, s:o}", "safe", diag->safe, "edits", edits);
}

static json_t *message(struct cmd_data *data, const struct text *t, const struct diag *diag) {
    const struct diag_info *info = diag_info(diag->id);
    json_t *out = place(data, diag->place);
    char code[6];

    diag_code(info, code);
    json_object_set_new(out, "severity", json_string(cmd_severity(info->severity)));
    json_object_set_new(out, "code", json_string(code));
    json_object_set_new(out, "message", data_text(data, diag->text));
    data_put(data, out, "expected", diag->expected);
    data_put(data, out, "try", diag->attempt);
    data_put(data, out, "likely", diag->likely);
    data_put(data, out, "done", diag->done);
    data_put(data, out, "hint", diag->hint);
    data_put(data, out, "rule", diag->rule);
    if (diag->see_n)
        json_object_set_new(out, "see", sees(data, diag));
    if (diag->edit_n)
        json_object_set_new(out, "fix", fix(data, t, diag));
    return out;
}

struct cmd_data *cmd_data_new(struct arena *a, enum cmd_form form, struct cmd_show *how) {
    struct cmd_data *data = arena_alloc(a, 1, sizeof *data);

    *data = (struct cmd_data){.arena = arena_new(cmd_no_memory),
                              .how = how,
                              .form = form,
                              .messages = json_array(),
                              .failures = json_array(),
                              .rules = json_array()};
    return data;
}

/* A line of its own for each message: readable while the run goes on. */
static void put_line(struct cmd_data *data, json_t *one) {
    json_object_set_new(one, "schema", json_integer(DATA_SCHEMA));
    json_dumpf(one, data->how->to, JSON_COMPACT);
    putc('\n', data->how->to);
    json_decref(one);
}

void cmd_data_add(struct cmd_data *data, const struct text *t, struct diags *d) {
    diags_sort(d);
    for (size_t i = 0; i < d->n; i++) {
        if (!cmd_show_takes(data->how, &d->at[i]))
            continue;
        if (data->form == CMD_JSONL)
            put_line(data, message(data, t, &d->at[i]));
        else if (data->form == CMD_SARIF)
            json_array_append_new(data->messages, sarif_result(data, t, &d->at[i]));
        else
            json_array_append_new(data->messages, message(data, t, &d->at[i]));
        arena_reset(data->arena);
    }
    data->how->omitted += cmd_uncounted(d);
}

void cmd_data_failed(struct cmd_data *data, const char *path, const char *why) {
    json_t *one;

    if (data->form == CMD_SARIF) {
        one = sarif_failure(data, path, why);
    } else {
        one = json_object();
        json_object_set_new(one, "file", data_text(data, str_of(path)));
        json_object_set_new(one, "reason", data_text(data, str_of(why)));
    }
    json_array_append_new(data->failures, one);
}

static json_t *summary(const struct cmd_data *data, const struct cmd_total *total) {
    return json_pack("{s:I, s:I, s:I, s:I, s:I, s:I, s:I}", "files", (json_int_t)total->files,
                     "errors", (json_int_t)total->errors, "warnings", (json_int_t)total->warnings,
                     "reviews", (json_int_t)total->reviews, "lines", (json_int_t)total->lines,
                     "unread", (json_int_t)total->unread, "omitted",
                     (json_int_t)data->how->omitted);
}

static json_t *document(struct cmd_data *data, const struct cmd_total *total) {
    return json_pack("{s:i, s:s, s:s, s:O, s:O, s:o}", "schema", DATA_SCHEMA, "program", "9m",
                     "version", NINEMETRE_VERSION, "messages", data->messages, "failures",
                     data->failures, "summary", summary(data, total));
}

void cmd_data_end(struct cmd_data *data, const struct cmd_total *total) {
    json_t *out = NULL;

    if (data->form == CMD_SARIF)
        out = sarif_document(data, total);
    else if (data->form == CMD_JSON)
        out = document(data, total);
    if (out) {
        json_dumpf(out, data->how->to, JSON_INDENT(2));
        putc('\n', data->how->to);
    }
    json_decref(out);
    json_decref(data->messages);
    json_decref(data->failures);
    json_decref(data->rules);
    arena_free(data->arena);
}
