/* What calls of the library use: stack by painting it, instructions by the board's clock. */
#ifndef USED_H
#define USED_H

#include "board.h"

/* Just before the first call of a request: paints the free stack and starts the clock. A macro, so that the stack pointer is the caller's. */
#if defined(__arm__) || defined(__riscv)
#define USED_BEGIN() used_begin(board_stack())
#else
#define USED_BEGIN() used_begin(NULL)
#endif
void used_begin(uint32_t *stack);

/* Just after the last call: keeps the deepest stack, and the instructions of this request. */
void used_end(void);

/* Around what is the service's own: these instructions do not count. */
uint32_t used_pause(void);
void used_go_on(uint32_t since);

/* Says both, and forgets them. */
void used_say(void);

#endif
