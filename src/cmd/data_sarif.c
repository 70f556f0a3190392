/* Static Analysis Results Interchange Format 2.1.0, an OASIS Standard of
 * 27 March 2020; numbers in comments are its sections. */
#include <string.h>

#include "cmd/data.h"

static const char schema[] =
    "https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json";

/* 3.58.6: there is no level for a doubt of the author's own; a note is nearest. */
static const char *level(enum severity s) {
    switch (s) {
    case SEVERITY_ERROR:
        return "error";
    case SEVERITY_WARNING:
        return "warning";
    case SEVERITY_REVIEW:
        return "note";
    }
    return "none";
}

static bool plain_in_uri(unsigned char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') ||
           (c && strchr("-._~/", c));
}

/* 3.10: a path becomes a URI reference, what is not unreserved in RFC 3986 as
 * %XX of its bytes, whatever these are. */
static json_t *location_of(struct cmd_data *data, struct str file) {
    struct buf b;

    buf_init(&b, data->arena);
    if (str_starts(file, STR("/")))
        buf_add(&b, STR("file://"));
    for (size_t i = 0; i < file.n; i++) {
        unsigned char c = (unsigned char)file.at[i];

        if (plain_in_uri(c))
            buf_char(&b, (char)c);
        else
            buf_printf(&b, "%%%02X", (unsigned)c);
    }
    return json_pack("{s:o}", "uri", data_text(data, buf_str(&b)));
}

/* 3.30: columns count UTF-16 units, as columnKind of the run says; the other
 * counts are properties of ours. */
static json_t *region(unsigned line, struct str text, unsigned at, unsigned n) {
    struct cmd_column from = cmd_column(text, at), to = cmd_column(text, at + n);

    return json_pack("{s:i, s:i, s:i, s:{s:i, s:i, s:i, s:i, s:i, s:i}}", "startLine", (int)line,
                     "startColumn", (int)from.utf16, "endColumn", (int)to.utf16, "properties",
                     "startByte", (int)from.byte, "endByte", (int)to.byte, "startCharacter",
                     (int)from.character, "endCharacter", (int)to.character, "startDisplay",
                     (int)from.display, "endDisplay", (int)to.display);
}

static json_t *physical(struct cmd_data *data, struct place p) {
    json_t *out = json_pack("{s:o}", "artifactLocation", location_of(data, p.file));

    if (p.line) {
        json_t *snippet = json_pack("{s:o}", "text", data_text(data, p.text));
        json_t *where = region(p.line, p.text, p.at, p.n);

        json_object_set_new(where, "snippet", snippet);
        json_object_set_new(out, "region", where);
    }
    return json_pack("{s:o}", "physicalLocation", out);
}

static json_t *text_of(struct cmd_data *data, struct str s) {
    return json_pack("{s:o}", "text", data_text(data, s));
}

static void add_part(struct buf *b, const char *label, struct str s) {
    if (s.n)
        buf_printf(b, "\n%s: %.*s", label, STR_ARG(s));
}

/* 3.27.11: the first sentence stands alone; the rest follows for viewers that
 * show it all. */
static json_t *message_of(struct cmd_data *data, const struct diag *diag) {
    struct buf b;

    buf_init(&b, data->arena);
    buf_add(&b, diag->text);
    buf_char(&b, '.');
    add_part(&b, "expected", diag->expected);
    add_part(&b, "try", diag->attempt);
    add_part(&b, "likely", diag->likely);
    add_part(&b, "done", diag->done);
    add_part(&b, "rule", diag->rule);
    add_part(&b, "hint", diag->hint);
    for (unsigned i = 0; i < diag->see_n; i++)
        if (!diag->sees[i].place.line)
            add_part(&b, "see", diag->sees[i].text);
    return text_of(data, buf_str(&b));
}

/* 3.49; only the rules that a result refers to, each once. */
static unsigned rule_index(struct cmd_data *data, enum diag_id id, const char *code) {
    const struct diag_info *info = diag_info(id);
    json_t *rule;

    if (data->rule_ix[id])
        return data->rule_ix[id] - 1;
    rule = json_pack("{s:s, s:o, s:o, s:{s:s}}", "id", code, "shortDescription",
                     text_of(data, str_of(info->title)), "fullDescription",
                     text_of(data, str_of(info->why)), "defaultConfiguration", "level",
                     level(info->severity));
    json_array_append_new(data->rules, rule);
    data->rule_ix[id] = (unsigned)json_array_size(data->rules);
    return data->rule_ix[id] - 1;
}

static json_t *related(struct cmd_data *data, const struct diag *diag) {
    json_t *out = json_array();

    for (unsigned i = 0; i < diag->see_n; i++) {
        json_t *one;

        if (!diag->sees[i].place.line)
            continue;
        one = physical(data, diag->sees[i].place);
        if (diag->sees[i].text.n)
            json_object_set_new(one, "message", text_of(data, diag->sees[i].text));
        json_array_append_new(out, one);
    }
    return out;
}

/* 3.55: a mend, for viewers that offer one. */
static json_t *fix(struct cmd_data *data, const struct text *t, const struct diag *diag) {
    json_t *replacements = json_array(), *change, *out;

    for (unsigned i = 0; i < diag->edit_n; i++) {
        const struct edit *e = &diag->edits[i];
        json_t *deleted = region(e->line, data_line(t, diag, e->line), e->at, e->n);

        json_array_append_new(replacements, json_pack("{s:o, s:o}", "deletedRegion", deleted,
                                                      "insertedContent", text_of(data, e->text)));
    }
    change = json_pack("{s:o, s:o}", "artifactLocation", location_of(data, diag->place.file),
                       "replacements", replacements);
    out = json_pack("{s:[o]}", "artifactChanges", change);
    if (diag->attempt.n)
        json_object_set_new(out, "description", text_of(data, diag->attempt));
    return out;
}

json_t *sarif_result(struct cmd_data *data, const struct text *t, const struct diag *diag) {
    const struct diag_info *info = diag_info(diag->id);
    json_t *out, *also = related(data, diag);
    char code[6];

    diag_code(info, code);
    out = json_pack("{s:s, s:i, s:s, s:o, s:[o]}", "ruleId", code, "ruleIndex",
                    (int)rule_index(data, diag->id, code), "level", level(info->severity),
                    "message", message_of(data, diag), "locations", physical(data, diag->place));
    if (json_array_size(also))
        json_object_set(out, "relatedLocations", also);
    json_decref(also);
    if (diag->edit_n)
        json_object_set_new(out, "fixes", json_pack("[o]", fix(data, t, diag)));
    return out;
}

/* 3.58: what went wrong with the run itself. */
json_t *sarif_failure(struct cmd_data *data, const char *path, const char *why) {
    struct place whole = {.file = str_of(path)};

    return json_pack("{s:s, s:o, s:[o]}", "level", "error", "message", text_of(data, str_of(why)),
                     "locations", physical(data, whole));
}

json_t *sarif_document(struct cmd_data *data, const struct cmd_total *total) {
    bool good = json_array_size(data->failures) == 0;
    json_t *driver = json_pack("{s:s, s:s, s:O}", "name", "9m", "version", NINEMETRE_VERSION,
                               "rules", data->rules);
    json_t *invocation = json_pack("{s:b, s:O}", "executionSuccessful", good,
                                   "toolExecutionNotifications", data->failures);
    json_t *counts = json_pack("{s:I, s:I, s:I, s:I}", "files", (json_int_t)total->files, "lines",
                               (json_int_t)total->lines, "unread", (json_int_t)total->unread,
                               "omitted", (json_int_t)data->how->omitted);
    json_t *run = json_pack("{s:{s:o}, s:[o], s:s, s:O, s:o}", "tool", "driver", driver,
                            "invocations", invocation, "columnKind", "utf16CodeUnits", "results",
                            data->messages, "properties", counts);

    return json_pack("{s:s, s:s, s:[o]}", "$schema", schema, "version", "2.1.0", "runs", run);
}
