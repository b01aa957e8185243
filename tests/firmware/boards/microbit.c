/* The UART of Nordic's nRF51, as on the BBC micro:bit. */
#include "board.h"

#define UART(offset) (*(volatile uint32_t *)(0x40002000 + (offset)))
#define START_RX UART(0x000)
#define START_TX UART(0x008)
#define RX_READY UART(0x108)
#define TX_READY UART(0x11C)
#define ENABLE UART(0x500)
#define RXD UART(0x518)
#define TXD UART(0x51C)
#define BAUDRATE UART(0x524)

enum { ENABLED = 4, BAUD_1M = 0x10000000 };

void board_begin(void) {
    BAUDRATE = BAUD_1M;
    ENABLE = ENABLED;
    START_RX = 1;
    START_TX = 1;
}

int board_read(void) {
    while (!RX_READY) {
    }
    RX_READY = 0;
    return (int)(RXD & 0xFF);
}

void board_write(const char *bytes, size_t length) {
    for (; length > 0; length--) {
        TX_READY = 0;
        TXD = (uint8_t)*bytes++;
        while (!TX_READY) {
        }
    }
}
