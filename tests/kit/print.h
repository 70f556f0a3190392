/* A document set in the type of the reports, so that words have their real
 * widths. The caller frees it with pdf_free. */
#ifndef NINEMETRE_TESTS_PRINT_H
#define NINEMETRE_TESTS_PRINT_H

#include "pdf.h"

struct pdf *print_open(struct arena *a);

#endif
