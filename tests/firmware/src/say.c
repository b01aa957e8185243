#include "say.h"

#include "board.h"

void say(const char *text) {
    size_t length = 0;
    while (text[length] != 0) length++;
    board_write(text, length);
}

/* Digits by subtraction: a small chip has no division of 64 bits, and the library's own stays out if it needs none. */
static const uint64_t tens[] = {
    10000000000000000000u, 1000000000000000000u, 100000000000000000u, 10000000000000000u, 1000000000000000u, 100000000000000u, 10000000000000u,
    1000000000000u, 100000000000u, 10000000000u, 1000000000u, 100000000u, 10000000u, 1000000u, 100000u, 10000u, 1000u, 100u, 10u, 1u,
};

void say_number(int64_t value) {
    uint64_t rest = value < 0 ? 0 - (uint64_t)value : (uint64_t)value;
    char digits[21];
    size_t length = 0;
    if (value < 0) digits[length++] = '-';
    size_t sign = length;
    for (size_t place = 0; place < sizeof tens / sizeof *tens; place++) {
        char digit = '0';
        for (; rest >= tens[place]; rest -= tens[place]) digit++;
        if (digit != '0' || length > sign || tens[place] == 1) digits[length++] = digit;
    }
    board_write(digits, length);
}
