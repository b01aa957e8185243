#include "used.h"

#include "say.h"

static uint32_t stack, began, own, ticks;

#if defined(__arm__) || defined(__riscv)
static uint32_t *base;

/* No repeated byte, and volatile: else the compiler makes a call of memset of it, whose own frame would be painted over. */
enum { PAINT = 0x5EEDFACE, MARGIN = 16 };

static void paint(uint32_t *from) {
    base = from;
    for (volatile uint32_t *word = &stack_limit; word < from - MARGIN; word++) *word = PAINT;
}

static uint32_t deepest(void) {
    const volatile uint32_t *word = &stack_limit;
    while (word < base && *word == PAINT) word++;
    return (uint32_t)((const char *)base - (const char *)word);
}
#else
static void paint(uint32_t *from) { (void)from; }

static uint32_t deepest(void) { return 0; }
#endif

void used_begin(uint32_t *from) {
    paint(from);
    own = 0;
    began = board_ticks();
}

void used_end(void) {
    ticks = (board_ticks() - began - own) & BOARD_TICKS;
    uint32_t depth = deepest();
    if (depth > stack) stack = depth;
}

uint32_t used_pause(void) { return board_ticks(); }

void used_go_on(uint32_t since) { own += board_ticks() - since; }

void used_say(void) {
    say("used ");
    say_number(stack);
    say(" ");
    say_number(ticks);
    say("\n");
    stack = ticks = 0;
}
