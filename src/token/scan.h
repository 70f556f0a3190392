/* The values of tokens: what the patterns of grammar/tokens.re have matched,
 * read as numbers and words. Private to the token room. Each call takes the
 * first byte of the match (and the byte behind it where the length matters),
 * fills the token and gives its terminal. */
#ifndef NINEMETRE_TOKEN_SCAN_H
#define NINEMETRE_TOKEN_SCAN_H

#include "token.h"

int scan_server(const unsigned char *at, const unsigned char *end, struct token *out);
int scan_person(const unsigned char *at, struct token *out);
int scan_number(const unsigned char *at, struct token *out);
int scan_decimal(const unsigned char *at, struct token *out);
int scan_pair(const unsigned char *at, int code, struct token *out);
int scan_start(const unsigned char *at, const unsigned char *end, struct token *out);
int scan_start_p(const unsigned char *at, const unsigned char *end, struct token *out);
int scan_spot(const unsigned char *at, const unsigned char *end, int code, struct token *out);
int scan_measure(const unsigned char *at, const unsigned char *end, struct token *out);
int scan_by(const unsigned char *at, struct token *out);
int scan_repeat(const unsigned char *at, struct token *out);
int scan_mark_count(const unsigned char *at, const unsigned char *end, struct token *out);
int scan_miss(const unsigned char *at, const unsigned char *end, struct token *out);
int scan_date(const unsigned char *at, struct token *out);
int scan_time(const unsigned char *at, const unsigned char *end, struct token *out);

/* The letter in upper case. */
int16_t scan_letter(const unsigned char *at);

/* The word's row: of a statement, or of a field; NULL if it is none. */
const struct word_info *scan_word(const unsigned char *at, const unsigned char *end,
                                  bool statement);

/* Starts the expansion if the word is one of the scorer's own. */
bool scan_short(struct lexer *lx, const unsigned char *at, const unsigned char *end,
                const struct token *where);

/* The next token of an expansion; it stands where the short word stands. */
int scan_expansion(struct lexer *lx, struct token *out);

#endif
