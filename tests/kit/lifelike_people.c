/* Invented teams and people, and the head of their files. */
#include "lifelike_parts.h"

static const char *const first_names[] = {
    "Mira", "Ana", "Elif", "Zofia", "Inês", "Nora", "Rosa", "Tess", "Léa", "Yuna",
    "Agnieszka", "Şule", "Žofie", "Ngọc", "Thảo", "Beatriz", "Ελπίδα", "Оксана", "Søl",
    "Þóra", "Ioana", "Łucja", "Çiğdem", "Noëlle", "Ágnes", "Brânda", "Ōka", "Kateřina"
};

static const char *const last_names[] = {
    "Havelin", "Lindbro", "Aykın", "Brązel", "Dourado", "Haldane", "Klimová", "Okoro",
    "Marsan", "Shirato", "Wiśnik", "Çelenoğlu", "Řezbová", "Vũ-Lam", "Trầm", "Falcão Reis",
    "Θαλασσινού", "Гайворонь", "Østervåg", "Hrafndal", "Țărnea", "Żabicka", "Özdamla",
    "d’Aubrière", "Szélvári", "Gonçalo-Paz", "Umino", "Dvořáčková-Nová", "Quill", "Tarn"
};

static const char *const clubs[26] = {
    ['A'- 'A'] = "Aldermoor Owls", ['B'- 'A'] = "Birch Hill Martens",
    ['C'- 'A'] = "Cobble Street Choughs", ['F'- 'A'] = "Ferry Lane Finches",
    ['G'- 'A'] = "Granite Foxes", ['H'- 'A'] = "Harbour Herons",
    ['L'- 'A'] = "Lantern Hares", ['M'- 'A'] = "Millrace Otters",
    ['Q'- 'A'] = "Quarry Larks", ['S'- 'A'] = "Saltmarsh Wrens",
    ['T'- 'A'] = "Tidewater Swifts"
};

static const char *const type_words[LIFE_TYPES] = {"topspin", "jumpfloat", "float"};

/* A permutation of 0 to n - 1 (Fisher-Yates). */
static void shuffle(struct dice *d, uint8_t *all, unsigned n) {
    for (unsigned i = 0; i < n; i++)
        all[i] = (uint8_t)i;
    for (unsigned i = n; i > 1; i--) {
        unsigned k = dice_below(d, i);
        uint8_t last = all[i - 1];
        all[i - 1] = all[k];
        all[k] = last;
    }
}

static void player_draw(struct dice *d, struct life_player *p) {
    static const uint16_t types[LIFE_TYPES] = {40, 40, 20};
    static const unsigned ace[LIFE_TYPES] = {80, 60, 40}, error[LIFE_TYPES] = {175, 110, 70};

    p->type = (enum life_type)dice_pick(d, types, LIFE_TYPES);
    p->third = "rml"[dice_below(d, 3)];
    p->paces = p->type == LIFE_FLOAT ? 1 : 3 + dice_below(d, 2);
    p->steps = p->type == LIFE_FLOAT ? 0 : p->type == LIFE_TOPSPIN ? 3 + dice_below(d, 2) : 3;
    p->toss_cm = p->type == LIFE_TOPSPIN ? 520 : p->type == LIFE_JUMPFLOAT ? 360 : 320;
    p->ace = ace[p->type] * (unsigned)dice_between(d, 70, 130) / 100;
    p->error = error[p->type] * (unsigned)dice_between(d, 75, 125) / 100;
    p->habit = dice_below(d, LIFE_MARKS);
    p->lefthanded = dice_in(d, 100);
}

void life_team_draw(struct life_team *t, char letter, uint64_t seed) {
    enum { FIRST_N = sizeof first_names / sizeof first_names[0] };
    enum { LAST_N = sizeof last_names / sizeof last_names[0] };
    uint8_t firsts[FIRST_N], lasts[LAST_N], shirts[24];
    struct dice d = {seed};

    *t = (struct life_team){.letter = letter, .name = clubs[letter - 'A']};
    shuffle(&d, firsts, FIRST_N);
    shuffle(&d, lasts, LAST_N);
    shuffle(&d, shirts, 24);
    for (unsigned i = 0; i <= LIFE_PLAYERS; i++) {
        player_draw(&d, &t->players[i]);
        t->players[i].first = first_names[firsts[i]];
        t->players[i].last = last_names[lasts[i]];
        t->players[i].shirt = shirts[i] + 1u;
    }
}

void life_players_put(struct buf *out, const struct life_team *t) {
    for (unsigned i = 0; i <= LIFE_PLAYERS; i++) {
        const struct life_player *p = &t->players[i];
        buf_printf(out, "player %c%u \"%s %s\"", t->letter, p->shirt, p->first, p->last);
        if (i < LIFE_PLAYERS) {
            buf_printf(out, " %s %c%u", type_words[p->type], p->third, p->paces);
            if (p->steps)
                buf_printf(out, "/%u", p->steps);
        }
        buf_add(out, p->lefthanded ? STR(" lefthanded\n") : STR("\n"));
    }
    buf_printf(out, "libero %c %u\n", t->letter, t->players[LIFE_PLAYERS].shirt);
}

void life_squad(struct buf *out, const struct life_team *t) {
    buf_printf(out, "notation 1\nteam %c \"%s\" women\n", t->letter, t->name);
    life_players_put(out, t);
}

void life_date_put(struct buf *out, unsigned day) {
    static const unsigned lengths[] = {30, 31, 30, 31, 31, 28, 31, 30, 31, 30, 31, 31};
    unsigned month = 9, year = 2026;

    for (unsigned i = 0; day >= lengths[i]; i = (i + 1) % 12) {
        day -= lengths[i];
        month = month % 12 + 1;
        year += month == 1;
    }
    buf_printf(out, "%u-%02u-%02u", year, month, day + 1);
}

const char *life_remark(struct dice *d) {
    static const char *const all[] = {
        "long rally", "net cord", "ball slipped", "whistle late", "hall lights in her eyes",
        "receivers changed sides", "mop on court", "bench loud", "shirt hard to read",
        "touched by two", "libero far out"
    };
    return all[dice_below(d, sizeof all / sizeof all[0])];
}
