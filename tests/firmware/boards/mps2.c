/* The UART of ARM's MPS2 board (CMSDK). */
#include "board.h"

#define DATA (*(volatile uint32_t *)0x40004000)
#define STATE (*(volatile uint32_t *)0x40004004)
#define CTRL (*(volatile uint32_t *)0x40004008)
#define BAUDDIV (*(volatile uint32_t *)0x40004010)

enum { TX_FULL = 1, RX_FULL = 2, TX_RX_ENABLE = 3, LEAST_DIVISOR = 16 };

void board_begin(void) {
    BAUDDIV = LEAST_DIVISOR;
    CTRL = TX_RX_ENABLE;
}

int board_read(void) {
    while (!(STATE & RX_FULL)) {
    }
    return (int)(DATA & 0xFF);
}

void board_write(const char *bytes, size_t length) {
    for (; length > 0; length--) {
        while (STATE & TX_FULL) {
        }
        DATA = (uint8_t)*bytes++;
    }
}
