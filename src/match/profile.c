/* Rule profiles: the numbers of the rule books as data, each with its source.
 * `fivb` is complete; the others say only where they differ. */
#include "match.h"

#include <string.h>

static const struct rule_info rules[] = {
#define RULE(name, least, most, meaning) {#name, meaning, offsetof(struct profile, name), least, most}
    RULE(set_points, 1, 99, "points that win a set"),
    RULE(decider_points, 1, 99, "points that win the deciding set"),
    RULE(lead, 1, 9, "points ahead that a set needs"),
    RULE(sets_to_win, 1, 3, "sets that win the match"),
    RULE(change_points, 0, 99, "points of the leader at which the decider changes courts; 0: never"),
    RULE(substitutions, 0, 99, "substitutions in a set"),
    RULE(reentry, 0, 1, "yes: any number of times to her place; no: once, for the same player"),
    RULE(timeouts, 0, 9, "time-outs in a set"),
    RULE(libero_serves, 0, 1, "yes: in one place of the order; no: never"),
    RULE(retoss, 0, 2, "a second toss: 0 never, 1 one a service, 2 one a turn"),
    RULE(service_s, 1, 99, "seconds from the whistle to the hit"),
    RULE(net_women_cm, 1, 999, "height of a women's net, cm"),
    RULE(net_men_cm, 1, 999, "height of a men's net, cm"),
#undef RULE
};

#define VALUE(rule, value, source, mark) \
    {#rule, offsetof(struct profile, rule), value, source, mark}

static const struct rule_value fivb[] = {
    VALUE(set_points, 25, "6.2", RULE_READ),
    VALUE(decider_points, 15, "6.3.2", RULE_READ),
    VALUE(lead, 2, "6.2", RULE_READ),
    VALUE(sets_to_win, 3, "6.3.1", RULE_READ),
    VALUE(change_points, 8, "18.2.2", RULE_READ),
    VALUE(substitutions, 6, "15.1", RULE_READ),
    VALUE(reentry, 0, "15.6", RULE_READ),
    VALUE(timeouts, 2, "15.1", RULE_READ),
    VALUE(libero_serves, 0, "19.3.1.3", RULE_READ),
    VALUE(retoss, 0, "12.4.2; that a dropped toss is a fault", RULE_FROM_MEMORY),
    VALUE(service_s, 8, "12.4.4", RULE_READ),
    VALUE(net_women_cm, 224, "2.1.1", RULE_READ),
    VALUE(net_men_cm, 243, "2.1.1", RULE_READ),
};

static const struct rule_value ncaa[] = {
    VALUE(substitutions, 15, "11.3.2 (memo on the changes for 2012-13)", RULE_READ),
    VALUE(reentry, 1, "11.3.2", RULE_READ),
    VALUE(libero_serves, 1, "12.1.1 (trade press, 2024)", RULE_SECOND_HAND),
    VALUE(service_s, 8, "13.1.3.3 (2012-13)", RULE_READ),
    VALUE(retoss, 0, "13.1.3.4 (2012-13)", RULE_READ),
    VALUE(set_points, 25, "league pages", RULE_SECOND_HAND),
    VALUE(decider_points, 15, "league pages", RULE_SECOND_HAND),
    VALUE(change_points, 8, "league pages", RULE_SECOND_HAND),
    VALUE(timeouts, 2, "league pages", RULE_SECOND_HAND),
    VALUE(net_women_cm, 224, "league pages", RULE_SECOND_HAND),
};

static const struct rule_value usav[] = {
    VALUE(substitutions, 12, "a club's page; newer editions may say 15", RULE_SECOND_HAND),
    VALUE(reentry, 1, "a club's page", RULE_SECOND_HAND),
    VALUE(libero_serves, 1, "19.3.1.3, 7.7.1 (quoted by a club)", RULE_SECOND_HAND),
    VALUE(sets_to_win, 2, "a club's page", RULE_SECOND_HAND),
    VALUE(service_s, 8, "juniors over 14", RULE_READ),
    VALUE(change_points, 8, "not seen", RULE_FROM_MEMORY),
    VALUE(timeouts, 2, "not seen", RULE_FROM_MEMORY),
};

static const struct rule_value usav14[] = {
    VALUE(substitutions, 12, "a club's page; newer editions may say 15", RULE_SECOND_HAND),
    VALUE(reentry, 1, "a club's page", RULE_SECOND_HAND),
    VALUE(libero_serves, 1, "19.3.1.3, 7.7.1 (quoted by a club)", RULE_SECOND_HAND),
    VALUE(sets_to_win, 2, "a club's page", RULE_SECOND_HAND),
    VALUE(service_s, 5, "12.4.4.d", RULE_READ),
    VALUE(retoss, 1, "12.4.4.d", RULE_READ),
    VALUE(net_men_cm, 224, "not seen", RULE_FROM_MEMORY),
    VALUE(timeouts, 2, "not seen", RULE_FROM_MEMORY),
};

static const struct rule_value nfhs[] = {
    VALUE(substitutions, 18, "10-3-2 (changes of 2001-02)", RULE_READ),
    VALUE(reentry, 1, "10-3-3 (a newspaper's column)", RULE_SECOND_HAND),
    VALUE(libero_serves, 1, "10-4-5a (interpretation of 2007)", RULE_READ),
    VALUE(retoss, 2, "8-2-5 (an officials' association)", RULE_READ),
    VALUE(service_s, 5, "not seen", RULE_FROM_MEMORY),
    VALUE(set_points, 25, "not seen", RULE_FROM_MEMORY),
    VALUE(decider_points, 15, "not seen", RULE_FROM_MEMORY),
    VALUE(change_points, 0, "not seen", RULE_FROM_MEMORY),
    VALUE(timeouts, 2, "a regional page", RULE_SECOND_HAND),
};

static const struct rule_value u18[] = {
    VALUE(net_women_cm, 224, "German youth rules, U18", RULE_READ),
    VALUE(net_men_cm, 235, "German youth rules, U18", RULE_READ),
};

static const struct rule_value u16[] = {
    VALUE(net_women_cm, 220, "German youth rules, U16", RULE_READ),
    VALUE(net_men_cm, 224, "German youth rules, U16", RULE_READ),
};

#undef VALUE

#define ROWS(table) table, sizeof(table) / sizeof *(table)
static const struct profile_info profiles[] = {
    {"fivb", "FIVB Official Volleyball Rules 2025-2028", NULL, ROWS(fivb)},
    {"ncaa", "NCAA women (United States, colleges)", NULL, ROWS(ncaa)},
    {"usav", "USA Volleyball, juniors", NULL, ROWS(usav)},
    {"usav14", "USA Volleyball, 14 and under", NULL, ROWS(usav14)},
    {"nfhs", "NFHS (United States, schools)", NULL, ROWS(nfhs)},
    {"u18", "German youth rules, U18", NULL, ROWS(u18)},
    {"u16", "German youth rules, U16", NULL, ROWS(u16)},
    {"u14", "German youth rules, U15 and U14", "4 players on 14 x 7 m", NULL, 0},
    {"u13", "German youth rules, U13", "3 players on 12 x 6 m", NULL, 0},
    {"u12", "German youth rules, U12", "2 players on 9 x 4.5 m", NULL, 0},
};

const struct profile_info *profile_info(size_t ix) {
    return ix < sizeof profiles / sizeof *profiles ? &profiles[ix] : NULL;
}

const struct profile_info *profile_find(struct str name) {
    for (size_t i = 0; profile_info(i); i++)
        if (str_same(name, str_of(profiles[i].name)))
            return &profiles[i];
    return NULL;
}

const struct rule_info *rule_info(size_t ix) {
    return ix < sizeof rules / sizeof *rules ? &rules[ix] : NULL;
}

const struct rule_info *rule_find(struct str name) {
    for (size_t i = 0; rule_info(i); i++)
        if (str_same(name, str_of(rules[i].name)))
            return &rules[i];
    return NULL;
}

static void put(struct profile *p, size_t offset, unsigned value) {
    memcpy((unsigned char *)p + offset, &value, sizeof value);
}

void profile_set(struct profile *p, const struct rule_info *rule, unsigned value) {
    put(p, rule->offset, value);
}

unsigned profile_get(const struct profile *p, const struct rule_info *rule) {
    unsigned value;
    memcpy(&value, (const unsigned char *)p + rule->offset, sizeof value);
    return value;
}

static void apply(struct profile *p, const struct rule_value *values, size_t n) {
    for (size_t i = 0; i < n; i++)
        put(p, values[i].offset, values[i].value);
}

void profile_fill(struct profile *p, const struct profile_info *info) {
    *p = (struct profile){.name = info->name};
    apply(p, ROWS(fivb));
    apply(p, info->values, info->n);
}
