/* Writes lifelike notes from a seed: one file on standard output, or a tree of
 * seasons of a given size. For benchmarks and by hand; see --help. */
#include "kit/lifelike.h"

#include <getopt.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

static const char help[] =
    "usage: lifelike [--seed N] [--detail bare|usual|rich] [--ours] [--rare]\n"
    "                [--clubs N | --one-squad] match | practice SERVES | tree SERVES DIR\n"
    "\n"
    "match     one match on standard output\n"
    "practice  one practice with at least SERVES lines of serves\n"
    "tree      seasons of matches and practices below DIR, SERVES serves in all\n"
    "\n"
    "--detail  how much a line says; a tree mixes all three when it is left out\n"
    "--ours    only our serves are written\n"
    "--rare    also wrong servers, gaps, forfeits and turns as numbers\n"
    "--clubs   the seasons of a tree go round among so many clubs, a folder each\n"
    "--one-squad  every season of a tree has the same people\n";

struct wanted {
    struct life_style style;
    bool mixed, one_squad;
    unsigned club_n;             /* 0: no folders of clubs, and one team name */
    uint64_t seed;
};

static void failed(size_t bytes) {
    fprintf(stderr, "lifelike: no memory for %zu bytes\n", bytes);
    exit(3);
}

static void usage(void) {
    fputs(help, stderr);
    exit(2);
}

static unsigned number(const char *word) {
    char *end;
    unsigned long n = strtoul(word, &end, 10);

    if (*word == '\0' || *end || n > 100000000)
        usage();
    return (unsigned)n;
}

static void save(const char *path, const struct buf *b) {
    FILE *f = fopen(path, "wb");

    if (!f || fwrite(b->at, 1, b->n, f) != b->n || fclose(f) != 0) {
        perror(path);
        exit(3);
    }
}

static void make_dir(const char *path) {
    struct stat s;

    if (mkdir(path, 0777) != 0 && stat(path, &s) != 0) {
        perror(path);
        exit(3);
    }
}

static struct life_style style_draw(struct dice *d, const struct wanted *w) {
    static const uint16_t details[] = {150, 600, 250};
    struct life_style s = w->style;

    if (w->mixed) {
        s.detail = (enum life_detail)dice_pick(d, details, 3);
        s.ours_only = s.ours_only || dice_in(d, 150);
    }
    return s;
}

enum { DAYS_A_YEAR = 365 };

/* One season: a squad file, 24 matches and a practice after every second, `year` years
 * after the first. */
static unsigned season(const char *dir, const char *name, unsigned year, const struct wanted *w,
                       struct dice *d, struct arena *a, unsigned most) {
    struct life_team ours;
    struct buf b;
    char path[4096];
    unsigned written = 0;
    uint64_t people = dice_next(d);

    make_dir(dir);
    life_team_draw(&ours, 'H', w->one_squad ? w->seed : people);
    if (name)
        ours.name = name;
    buf_init(&b, a);
    life_squad(&b, &ours);
    snprintf(path, sizeof path, "%s/squad.9m", dir);
    save(path, &b);
    for (unsigned i = 0; i < 36 && written < most; i++) {
        bool practice = i % 3 == 2;
        struct life_style s = style_draw(d, w);
        unsigned day = year * DAYS_A_YEAR + i * 5;
        arena_reset(a);
        buf_init(&b, a);
        written += practice ? life_practice(&b, &ours, 120, s, day, dice_next(d))
                            : life_match(&b, &ours, s, day, dice_next(d)).written;
        snprintf(path, sizeof path, "%s/%02u-%s.9m", dir, i + 1, practice ? "practice" : "match");
        save(path, &b);
    }
    arena_reset(a);
    return written;
}

enum { PATH_ROOM = 4000, NAME_ROOM = 40 };

/* The folder of a season, within that of its club if there are clubs; gives the
 * club's name then, else NULL. */
static const char *place(const char *dir, unsigned i, unsigned club_n, char path[PATH_ROOM],
                         char name[NAME_ROOM]) {
    unsigned club = club_n ? i % club_n + 1 : 0;

    if (!club) {
        snprintf(path, PATH_ROOM, "%s/season%03u", dir, i + 1);
        return NULL;
    }
    snprintf(path, PATH_ROOM, "%s/club%03u", dir, club);
    make_dir(path);
    snprintf(path, PATH_ROOM, "%s/club%03u/season%03u", dir, club, i + 1);
    snprintf(name, NAME_ROOM, "Club %u", club);
    return name;
}

static void tree(const char *dir, unsigned serve_n, const struct wanted *w, struct arena *a) {
    struct dice d = {w->seed};
    unsigned written = 0;
    char path[PATH_ROOM], name[NAME_ROOM];

    make_dir(dir);
    for (unsigned i = 0; written < serve_n; i++) {
        const char *club = place(dir, i, w->club_n, path, name);
        written += season(path, club, i / (w->club_n ? w->club_n : 1), w, &d, a,
                          serve_n - written);
    }
    fprintf(stderr, "%u serves\n", written);
}

static void one(bool practice, unsigned serve_n, const struct wanted *w, struct arena *a) {
    struct life_style s = w->style;
    struct life_team ours;
    struct buf b;

    s.whole = true;
    buf_init(&b, a);
    life_team_draw(&ours, 'H', w->seed);
    if (practice)
        life_practice(&b, &ours, serve_n, s, 0, w->seed);
    else
        life_match(&b, &ours, s, 0, w->seed);
    if (fwrite(b.at, 1, b.n, stdout) != b.n || fflush(stdout) != 0) {
        perror("standard output");
        exit(3);
    }
}

static void detail(struct wanted *w, const char *word) {
    static const char *const words[] = {"bare", "usual", "rich"};
    unsigned i = 0;

    while (i < 3 && strcmp(word, words[i]) != 0)
        i++;
    if (i == 3)
        usage();
    w->style.detail = (enum life_detail)i;
    w->mixed = false;
}

static void options(int argc, char **argv, struct wanted *w) {
    static const struct option all[] = {
        {"seed", required_argument, NULL, 's'}, {"detail", required_argument, NULL, 'd'},
        {"ours", no_argument, NULL, 'o'},       {"rare", no_argument, NULL, 'r'},
        {"clubs", required_argument, NULL, 'c'}, {"one-squad", no_argument, NULL, 'q'},
        {"help", no_argument, NULL, 'h'},       {NULL, 0, NULL, 0}
    };

    for (int c; (c = getopt_long(argc, argv, "", all, NULL)) != -1;) {
        switch (c) {
        case 's': w->seed = number(optarg); break;
        case 'd': detail(w, optarg); break;
        case 'o': w->style.ours_only = true; break;
        case 'r': w->style.rare = true; break;
        case 'c': w->club_n = number(optarg); break;
        case 'q': w->one_squad = true; break;
        case 'h': fputs(help, stdout); exit(0);
        default: usage();
        }
    }
}

int main(int argc, char **argv) {
    struct wanted w = {.style = {.detail = LIFE_USUAL}, .mixed = true, .seed = 1};
    struct arena *a = arena_new(failed);

    options(argc, argv, &w);
    argc -= optind;
    argv += optind;
    if (argc == 1 && strcmp(argv[0], "match") == 0)
        one(false, 0, &w, a);
    else if (argc == 2 && strcmp(argv[0], "practice") == 0)
        one(true, number(argv[1]), &w, a);
    else if (argc == 3 && strcmp(argv[0], "tree") == 0)
        tree(argv[2], number(argv[1]), &w, a);
    else
        usage();
    arena_free(a);
    return 0;
}
