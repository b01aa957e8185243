/* Any Cortex-M: vectors, start, fault, the end by semihosting, and SysTick as the clock of instructions. */
#include "board.h"

extern uint32_t data_start, data_end, data_load, bss_start, bss_end;
extern int main(void);
extern void board_begin(void);

#define CPACR (*(volatile uint32_t *)0xE000ED88)
#define SYST_CSR (*(volatile uint32_t *)0xE000E010)
#define SYST_RVR (*(volatile uint32_t *)0xE000E014)
#define SYST_CVR (*(volatile uint32_t *)0xE000E018)

/* SYS_EXIT of ARM's semihosting; the emulator ends with 0 for "application exit" and 1 for anything else. */
enum { SYS_EXIT = 0x18, INTERNAL_ERROR = 0x20024, APPLICATION_EXIT = 0x20026 };

_Noreturn void board_end(int status) {
    register int operation __asm("r0") = SYS_EXIT;
    register int reason __asm("r1") = status == 0 ? APPLICATION_EXIT : INTERNAL_ERROR;
    __asm volatile("bkpt 0xAB" : : "r"(operation), "r"(reason) : "memory");
    for (;;) {
    }
}

_Noreturn void fault(void) { board_end(1); }

_Noreturn void start(void) {
#ifdef __ARM_FP
    CPACR |= 0xFu << 20;
    __asm volatile("dsb\nisb");
#endif
    for (volatile uint32_t *to = &data_start, *from = &data_load; to < &data_end;) *to++ = *from++;
    for (volatile uint32_t *to = &bss_start; to < &bss_end;) *to++ = 0;
    SYST_RVR = BOARD_TICKS;
    SYST_CVR = 0;
    SYST_CSR = 5;
    board_begin();
    board_end(main());
}

uint32_t board_ticks(void) { return BOARD_TICKS - SYST_CVR; }

/* The first entry is no function: where the stack begins. */
typedef union vector {
    void *stack;
    void (*run)(void);
} vector;

__attribute__((section(".vectors"), used)) static const vector vectors[16] = {
    {.stack = &stack_top}, {.run = start}, {.run = fault}, {.run = fault}, {.run = fault}, {.run = fault}, {.run = fault}, {.run = 0}, {.run = 0}, {.run = 0}, {.run = 0}, {.run = fault}, {.run = 0}, {.run = 0}, {.run = fault}, {.run = fault},
};
