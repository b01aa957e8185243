/* Text and numbers to the board, without a C library. */
#ifndef SAY_H
#define SAY_H

#include <stddef.h>
#include <stdint.h>

void say(const char *text);
void say_number(int64_t value);

#endif
