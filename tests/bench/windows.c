/* Works out so many windows of serves, for `make bench`. */
#include <stdio.h>
#include <stdlib.h>

#include "window.h"

int main(int argc, char **argv) {
    unsigned n = argc > 1 ? (unsigned)strtoul(argv[1], NULL, 10) : 1000, open = 0;

    for (unsigned i = 0; i < n; i++) {
        struct flight_serve s = {.speed_ms = 15 + i % 18, .topspin_rev_s = i / 18 % 9,
                                 .height_m = 2.5 + i / 162 % 12 / 10.0, .x_m = 0.5};
        open += window_of(flight_model(FLIGHT_DEFAULT), s, 2.24).state == WINDOW_OPEN;
    }
    printf("%u of %u open\n", open, n);
    return 0;
}
