/* The emulator's RISC-V board: start, traps, a 16550 UART, its device that ends the emulation, and the counter of instructions. */
#include "board.h"

extern uint32_t data_start, data_end, data_load, bss_start, bss_end;
extern int main(void);

#define UART(offset) (*(volatile uint8_t *)(0x10000000 + (offset)))
#define BUFFER UART(0)
#define LINE_STATUS UART(5)
#define FINISHER (*(volatile uint32_t *)0x100000)

enum { DATA_READY = 1, TX_EMPTY = 0x20, FINISH_PASS = 0x5555, FINISH_FAIL = 0x13333 };

_Noreturn void board_end(int status) {
    FINISHER = status == 0 ? FINISH_PASS : FINISH_FAIL;
    for (;;) {
    }
}

__attribute__((aligned(4))) _Noreturn void trap(void) { board_end(1); }

_Noreturn void begin(void) {
    __asm volatile("csrw mtvec, %0" : : "r"(trap));
    for (volatile uint32_t *to = &data_start, *from = &data_load; to < &data_end;) *to++ = *from++;
    for (volatile uint32_t *to = &bss_start; to < &bss_end;) *to++ = 0;
    board_end(main());
}

/* There is no stack yet. */
__attribute__((section(".vectors"), used, naked)) void start(void) {
    __asm volatile(".option push\n.option norelax\nla gp, global_pointer\n.option pop\nla sp, stack_top\nj begin");
}

int board_read(void) {
    while (!(LINE_STATUS & DATA_READY)) {
    }
    return BUFFER;
}

void board_write(const char *bytes, size_t length) {
    for (; length > 0; length--) {
        while (!(LINE_STATUS & TX_EMPTY)) {
        }
        BUFFER = (uint8_t)*bytes++;
    }
}

uint32_t board_ticks(void) {
    uint32_t count;
    __asm volatile("csrr %0, minstret" : "=r"(count));
    return count & BOARD_TICKS;
}
