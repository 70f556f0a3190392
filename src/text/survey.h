/* The one look at a file's bytes. Private to the text room. */
#ifndef NINEMETRE_TEXT_SURVEY_H
#define NINEMETRE_TEXT_SURVEY_H

#include "text.h"

/* Reports bytes that must not stand in notes and lists the lines they spoil. */
void text_survey(struct text *t, struct arena *a, struct diags *d);

#endif
