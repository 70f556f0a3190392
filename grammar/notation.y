/* The grammar of a line of notes. One statement a line; a bad line costs one
 * message and the rest of the file goes on. Actions are one call each
 * (src/syntax/build.h); they stand on what ends before NL, since Lemon runs the
 * action of a rule that ends in NL only with the next token. */

%name notation_parse
%token_prefix T_
%token_type {struct token}
%extra_context {struct syn *s}
%start_symbol file
%stack_size 32

%include {
#include "syntax/build.h"
#include "syntax/fault.h"
}

/* Codes of the terminals, in the order in which messages name them. */
%token NL WORD OPENTEXT.
%token NOTATION MATCH PRACTICE VENUE SCORER NOTE TEAM PLAYER LIBERO SQUAD RULES RULE
       NETHEIGHT RECORD OBSERVE SHORT FOCUS PLAN SET END LINEUP SUB TIMEOUT SCORE POINT
       CANCEL GAP TURN FORFEIT DRILL RING TOSS TRIES JUMPS.
%token SERVER.
%token OUTCOME MISS OVERLAP.
%token TYPE START AIM INTENT MEASURE MARK.
%token GOING NUMBER PAIR DEEP COORD BY RALLY CLOCKTIME REPEAT REVIEW.
%token TEXT DATE DECIMAL RATIO NAME LETTER PERSON MARKCOUNT EQUALS SIDE LEFTHANDED PHASE
       WHOSE FOR EXTRA.

%syntax_error {
    fault_line(s, yymajor, yyminor);
}

file ::= lines.
lines ::= .
lines ::= lines line.

line ::= NL.
line ::= serve NL.
line ::= statement NL.
/* Each bad line is told: Lemon would else stay silent until three tokens went well. */
line ::= error NL.  { yypParser->yyerrcnt = -1; }

/* 9 m4/3 ad5 v78 tl in1 d5 by8 won 18:42 ? */
serve ::= before OUTCOME(T).        { build_outcome(s, T); }
serve ::= before MISS(T).           { build_miss(s, T); }
serve ::= before OVERLAP(T).        { build_overlap_alone(s, T); }
serve ::= serve GOING(T).           { build_going(s, T); }
serve ::= serve OVERLAP(T).         { build_overlap(s, T); }
serve ::= serve NUMBER(T).          { build_zone(s, T); }
serve ::= serve PAIR(T).            { build_spot(s, T); }
serve ::= serve DEEP(T).            { build_spot(s, T); }
serve ::= serve COORD(T).           { build_spot(s, T); }
serve ::= serve BY(T).              { build_by(s, T); }
serve ::= serve RALLY(T).           { build_rally(s, T); }
serve ::= serve CLOCKTIME(T).       { build_time(s, T); }
serve ::= serve REPEAT(T).          { build_repeat(s, T); }
serve ::= serve REVIEW(T).          { build_review(s, T); }

before ::= SERVER(T).               { build_server(s, T); }
before ::= before TYPE(T).          { build_type(s, T); }
before ::= before START(T).         { build_start(s, T); }
before ::= before AIM(T).           { build_aim(s, T); }
before ::= before INTENT(T).        { build_intent(s, T); }
before ::= before MEASURE(T).       { build_measure(s, T); }
before ::= before MARK(T).          { build_mark(s, T); }

/* notation 1 */
statement ::= NOTATION NUMBER(T).   { build_notation(s, T); }

/* match 2026-10-03 18:30 "Harbour League, round 2" */
statement ::= occasion.
statement ::= occasion TEXT(T).     { build_title(s, T); }
occasion ::= MATCH day.             { build_kind(s, STMT_MATCH); }
occasion ::= PRACTICE day.          { build_kind(s, STMT_PRACTICE); }
day ::= DATE(D).                    { build_date(s, D); }
day ::= DATE(D) CLOCKTIME(T).       { build_date(s, D); build_day_time(s, T); }

/* venue "Quay Street Hall" */
statement ::= VENUE TEXT(T).        { build_text(s, STMT_VENUE, T); }
statement ::= SCORER TEXT(T).       { build_text(s, STMT_SCORER, T); }
statement ::= NOTE TEXT(T).         { build_text(s, STMT_NOTE, T); }
statement ::= SQUAD TEXT(T).        { build_text(s, STMT_SQUAD, T); }

/* team H "Harbour Herons" women */
statement ::= TEAM LETTER(L) TEXT(N).          { build_team(s, L, N); }
statement ::= TEAM LETTER(L) TEXT(N) SIDE(W).  { build_team(s, L, N); build_net(s, W); }

/* player H7 "Mira Havelin" topspin m4/3 */
statement ::= player.
player ::= PLAYER PERSON(P) TEXT(N).  { build_player(s, P, N); }
player ::= player TYPE(T).            { build_type(s, T); }
player ::= player START(T).           { build_start(s, T); }
player ::= player MEASURE(T).         { build_measure(s, T); }
player ::= player LEFTHANDED(T).      { build_lefthanded(s, T); }

/* libero H 5 6 */
statement ::= LIBERO LETTER(L) NUMBER(A).            { build_libero(s, L, A); }
statement ::= LIBERO LETTER(L) NUMBER(A) NUMBER(B).  { build_libero(s, L, A); build_second(s, B); }

/* rule substitutions 8 */
statement ::= RULES NAME(N).                   { build_rules(s, N); }
statement ::= RULE NAME(N) NUMBER(V).          { build_rule(s, N, V); }
statement ::= RULE NAME(N) NAME(V).            { build_rule(s, N, V); }

/* netheight 2.35 */
statement ::= NETHEIGHT DECIMAL(T).            { build_netheight(s, T); }

/* record ours */
statement ::= RECORD WHOSE(T).                 { build_record(s, T); }

/* observe toss nerve */
statement ::= observe.
observe ::= OBSERVE PHASE(T).                  { build_observe(s, T); }
observe ::= observe PHASE(T).                  { build_phase(s, T); }

/* short lo = td je */
statement ::= short.
short ::= SHORT NAME(N) EQUALS field(F).       { build_short(s, N); build_short_field(s, F); }
short ::= short field(F).                      { build_short_field(s, F); }
%type field {struct token}
field(A) ::= OUTCOME(T).    { A = T; }
field(A) ::= MISS(T).       { A = T; }
field(A) ::= OVERLAP(T).    { A = T; }
field(A) ::= TYPE(T).       { A = T; }
field(A) ::= START(T).      { A = T; }
field(A) ::= AIM(T).        { A = T; }
field(A) ::= INTENT(T).     { A = T; }
field(A) ::= MEASURE(T).    { A = T; }
field(A) ::= MARK(T).       { A = T; }
field(A) ::= GOING(T).      { A = T; }
field(A) ::= NUMBER(T).     { A = T; }
field(A) ::= PAIR(T).       { A = T; }
field(A) ::= DEEP(T).       { A = T; }
field(A) ::= COORD(T).      { A = T; }
field(A) ::= BY(T).         { A = T; }
field(A) ::= RALLY(T).      { A = T; }
field(A) ::= REPEAT(T).     { A = T; }
field(A) ::= REVIEW(T).     { A = T; }

/* focus 7 td "Ring toss" 14/20 */
statement ::= FOCUS who treats(W) TEXT(D).            { build_focus(s, W, D); }
statement ::= FOCUS who treats(W) TEXT(D) RATIO(G).   { build_focus(s, W, D); build_goal(s, G); }
%type treats {struct token}
treats(A) ::= MARK(T).      { A = T; }
treats(A) ::= OUTCOME(T).   { A = T; }

/* plan by11 */
statement ::= PLAN BY(T).       { build_plan_by(s, T); }
statement ::= PLAN NUMBER(T).   { build_plan_zone(s, T); }
statement ::= PLAN PAIR(T).     { build_plan_spot(s, T); }
statement ::= PLAN DEEP(T).     { build_plan_spot(s, T); }

/* set 1 G */
statement ::= SET NUMBER(N).               { build_set(s, N); }
statement ::= SET NUMBER(N) LETTER(L).     { build_set(s, N); build_set_first(s, L); }
statement ::= END.                         { build_end(s); }
statement ::= END PAIR(P).                 { build_score(s, STMT_END, P); }

/* lineup H 7 12 3 9 4 10 */
statement ::= LINEUP LETTER(L) NUMBER(A) NUMBER(B) NUMBER(C) NUMBER(D) NUMBER(E) NUMBER(F).
    { build_lineup(s, L, (const struct token[6]){A, B, C, D, E, F}); }

/* sub H 14 for 3 */
statement ::= sub.
statement ::= sub EXTRA.                                   { build_extra(s); }
sub ::= SUB LETTER(L) NUMBER(I) FOR NUMBER(O).             { build_sub(s, L, I, O); }
statement ::= TIMEOUT LETTER(L).           { build_letter(s, STMT_TIMEOUT, L); }
statement ::= FORFEIT LETTER(L).           { build_letter(s, STMT_FORFEIT, L); }

/* 2-3 */
statement ::= PAIR(P).                     { build_score(s, STMT_SCORE, P); }
statement ::= SCORE PAIR(P).               { build_score(s, STMT_SCORE, P); }
statement ::= GAP PAIR(P) LETTER(L).       { build_gap(s, P, L); }

/* point G "red card" */
statement ::= POINT LETTER(L).             { build_point(s, L); }
statement ::= POINT LETTER(L) TEXT(W).     { build_point(s, L); build_why(s, W); }
statement ::= CANCEL LETTER(L) NUMBER(N).  { build_points(s, STMT_CANCEL, L, N); }
statement ::= TURN LETTER(L) NUMBER(N).    { build_points(s, STMT_TURN, L, N); }

/* drill "Last metre" ad6 */
statement ::= DRILL TEXT(N).               { build_drill(s, N); }
statement ::= DRILL TEXT(N) AIM(T).        { build_drill(s, N); build_drill_aim(s, T); }

/* ring 1.0 */
statement ::= RING DECIMAL(T).             { build_ring(s, T); }

/* toss 7 6/10 tn3 tl1 */
statement ::= toss.
toss ::= TOSS who RATIO(R).                { build_toss(s, R); }
toss ::= toss MARKCOUNT(M).                { build_toss_miss(s, M); }
statement ::= TRIES who RATIO(R).          { build_tries(s, R); }
statement ::= JUMPS who NUMBER(N).         { build_jumps(s, N); }

who ::= NUMBER(T).                         { build_who(s, T); }
who ::= PERSON(T).                         { build_who(s, T); }

%code {
#include <string.h>

/* Stack of states alone: the line's tokens are replayed through the tables
 * without actions. Looking at the failed parser's own state would not do, since
 * default reductions have already popped what could have gone on. */
struct replay {
    YYACTIONTYPE states[YYSTACKDEPTH * 2];
    int top;
};

static int replay_step(struct replay *r, int code) {
    for (;;) {
        YYACTIONTYPE act = yy_find_shift_action((YYCODETYPE)code, r->states[r->top]);
        if (act <= YY_MAX_SHIFTREDUCE) {
            if (act > YY_MAX_SHIFT)
                act = (YYACTIONTYPE)(act + YY_MIN_REDUCE - YY_MIN_SHIFTREDUCE);
            if (r->top + 1 >= (int)(sizeof r->states / sizeof *r->states))
                return 0;
            r->states[++r->top] = act;
            return 1;
        }
        if (act == YY_ACCEPT_ACTION)
            return 1;
        if (act < YY_MIN_REDUCE)
            return 0;
        unsigned rule = (unsigned)(act - YY_MIN_REDUCE);
        r->top += yyRuleInfoNRhs[rule];
        YYACTIONTYPE to = yy_find_reduce_action(r->states[r->top], yyRuleInfoLhs[rule]);
        r->states[++r->top] = to;
    }
}

/* Which terminals may follow a line's first `n` tokens: expected[code]. */
void notation_expected(const unsigned char *codes, unsigned n, bool expected[T_EXTRA + 1]) {
    struct replay r = {.top = 0};
    replay_step(&r, T_NL);
    for (unsigned i = 0; i < n; i++)
        if (!replay_step(&r, codes[i]))
            break;
    for (int code = 1; code <= T_EXTRA; code++) {
        struct replay attempt = r;
        expected[code] = replay_step(&attempt, code) != 0;
    }
}

/* Feeds one line's tokens, the last of them NL; false if no line is left. */
bool notation_line(struct syn *s) {
    if (!s->grammar_only && serve_line(s))
        return true;
    struct token token;
    int code = tok_next(&s->lexer, &token);
    if (code == 0)
        return false;
    for (;;) {
        build_note_token(s, code, &token);
        notation_parse(s->parser, code, token);
        if (code == T_NL)
            return true;
        code = tok_next(&s->lexer, &token);
    }
}

size_t notation_parser_size(void) {
    return sizeof(yyParser);
}
void notation_begin(struct syn *s) {
    notation_parseInit(s->parser, s);
}
}
