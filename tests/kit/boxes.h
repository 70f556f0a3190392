/* Words on a page in their real widths: whether they meet. The test fails with
 * the words and their place; `what` says which page it was. */
#ifndef NINEMETRE_TESTS_BOXES_H
#define NINEMETRE_TESTS_BOXES_H

#include "page.h"

/* No words lie over others, or leave the layout block. */
void boxes_apart(const struct page *page, const struct page_font *font, const char *what);

/* Marks of serves keep clear of what is to be read, but for the faint numbers of
 * the zones. The ticks of starts are no places of serves. */
void boxes_clear_of_marks(const struct page *page, const struct page_font *font,
                          const char *what);

#endif
