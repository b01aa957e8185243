/* The host as a board: the reference that the emulated ones are compared with. */
#include <stdio.h>
#include <stdlib.h>

#include "board.h"

int board_read(void) { return getchar(); }

void board_write(const char *bytes, size_t length) { fwrite(bytes, 1, length, stdout); }

_Noreturn void board_end(int status) { exit(status); }

uint32_t board_ticks(void) { return 0; }

/* The host's arithmetic helpers were compiled for unwinding and name this; nothing calls it, as nothing unwinds here. */
__attribute__((weak)) void rust_eh_personality(void) {}
