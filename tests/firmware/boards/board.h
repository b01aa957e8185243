/* What the service needs of a board: bytes in, bytes out, an end, and a look at what a call used. */
#ifndef BOARD_H
#define BOARD_H

#include <stddef.h>
#include <stdint.h>

/* Waits for one byte; below 0 where there can be no more. */
int board_read(void);

void board_write(const char *bytes, size_t length);

/* 0: all went well. */
_Noreturn void board_end(int status);

/* Grows with the instructions that ran, and starts again at 0 beyond BOARD_TICKS; always 0 on the host. */
uint32_t board_ticks(void);
#define BOARD_TICKS 0xFFFFFFu

#if defined(__arm__) || defined(__riscv)
/* From the linker script. */
extern uint32_t stack_limit, stack_top;

static inline uint32_t *board_stack(void) {
    register uint32_t *sp __asm("sp");
    return sp;
}
#endif

#endif
