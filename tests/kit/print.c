#include "kit/print.h"

#include <stdlib.h>

#define LIBERATION "/usr/share/fonts/truetype/liberation/LiberationSans-"

struct pdf *print_open(struct arena *a) {
    struct pdf *p = pdf_new(a);
    if (!p || pdf_add_font(p, FACE_REGULAR, LIBERATION "Regular.ttf", 0) != PDF_WRITTEN ||
        pdf_add_font(p, FACE_BOLD, LIBERATION "Bold.ttf", 0) != PDF_WRITTEN)
        abort();
    return p;
}
