/* Numbers without the locale. */
#include <string.h>

#include "export/table.h"

char *put_whole(char *at, int n) {
    char digits[NUMBER_MAX_BYTES];
    unsigned left = n < 0 ? 0u - (unsigned)n : (unsigned)n, i = sizeof digits;
    do {
        digits[--i] = (char)('0' + left % 10);
    } while (left /= 10);
    if (n < 0)
        digits[--i] = '-';
    memcpy(at, digits + i, sizeof digits - i);
    return at + (sizeof digits - i);
}

char *put_hundredths(char *at, int n, char decimal) {
    unsigned left = n < 0 ? 0u - (unsigned)n : (unsigned)n;
    if (n < 0)
        *at++ = '-';
    at = put_whole(at, (int)(left / 100));
    if (left % 100 == 0)
        return at;
    *at++ = decimal;
    *at++ = (char)('0' + left / 10 % 10);
    if (left % 10)
        *at++ = (char)('0' + left % 10);
    return at;
}
