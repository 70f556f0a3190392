/* `9m explain ncaa`, `9m explain substitutions`: rule profiles and rules, each
 * value with its source, and marked where nobody has verified it. */
#include "cmd/explain.h"

static const char *mark_name(enum rule_mark mark) {
    switch (mark) {
    case RULE_READ: return "";
    case RULE_SECOND_HAND: return "; at second hand";
    case RULE_FROM_MEMORY: return "; not verified";
    }
    return "";
}

static void put_value(const struct rule_value *v, const char *name, int width) {
    printf("  %-*s %3u  %s%s\n", width, name, v->value, v->source, mark_name(v->mark));
}

static void explain_profile(const struct profile_info *info) {
    explain_head(str_of(info->name), "a rule profile", info->title);
    if (info->refused) {
        printf("\n  Not for these notes: %s.\n", info->refused);
        return;
    }
    printf("\n");
    for (size_t i = 0; i < info->n; i++)
        put_value(&info->values[i], info->values[i].rule, 15);
    if (info != profile_info(0))
        printf("\n  All else is as in %s. A club's own values stand over it: rule NAME VALUE.\n",
               profile_info(0)->name);
    printf("\nExample:\n  rules %s\n", info->name);
}

static void explain_rule(const struct rule_info *rule) {
    explain_head(str_of(rule->name), "a rule of a profile", rule->meaning);
    printf("\n");
    for (size_t i = 0; profile_info(i); i++) {
        const struct profile_info *info = profile_info(i);
        for (size_t j = 0; j < info->n; j++)
            if (str_is(str_of(rule->name), info->values[j].rule))
                put_value(&info->values[j], info->name, 7);
    }
    struct profile fivb;
    profile_fill(&fivb, profile_info(0));
    unsigned usual = profile_get(&fivb, rule);
    if (rule->most == 1)
        printf("\nExample:\n  rule %s %s\n", rule->name, usual ? "no" : "yes");
    else
        printf("\nExample:\n  rule %s %u\n", rule->name, usual);
}

size_t explain_rules(struct str word, size_t done) {
    const struct profile_info *info = profile_find(word);
    const struct rule_info *rule = rule_find(word);

    if (!info && !rule)
        return 0;
    if (done)
        putchar('\n');
    if (info)
        explain_profile(info);
    else
        explain_rule(rule);
    return 1;
}

void explain_list_rules(void) {
    for (size_t i = 0; profile_info(i); i++)
        if (!profile_info(i)->refused)
            printf("%-10s a rule profile: %s\n", profile_info(i)->name, profile_info(i)->title);
    for (size_t i = 0; rule_info(i); i++)
        printf("%-14s a rule: %s\n", rule_info(i)->name, rule_info(i)->meaning);
}
