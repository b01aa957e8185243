/* Arguments with one thing or another wrong with them, the same ones in every run. */
#ifndef ODD_H
#define ODD_H

#include "samples.h"

#include <math.h>

static inline uint32_t below(uint32_t end)
{
    static uint64_t state = 20240229;
    state = state * UINT64_C(6364136223846793005) + UINT64_C(1442695040888963407);
    return (uint32_t)(state >> 33) % end;
}

static inline int64_t odd_number(void)
{
    static const int64_t numbers[] = {
        0, 1, -1, 2, 3, 7, 255, 1000, 999983, 3000000, -3000000, 100000000, INT32_MAX, INT32_MIN, UINT32_MAX, 9999999999, 10000000000, 10000000001, -10000000000,
        -10000000001, INT64_MAX, INT64_MIN, INT64_MAX / 2,
    };
    return numbers[below(sizeof numbers / sizeof *numbers)];
}

static inline double odd_double(void)
{
    const double numbers[] = {0, -0.0, 1, -1, 0.5, 1e-300, 1e300, -1e300, 10000, 10000.1, NAN, INFINITY, -INFINITY};
    return numbers[below(sizeof numbers / sizeof *numbers)];
}

static inline uint32_t odd_choice(void)
{
    return below(4) > 0 ? below(8) : (uint32_t)odd_number();
}

static inline size_t odd_room(void)
{
    return below(3) == 0 ? ROOM : below(64);
}

/* Mostly the number of something that there is. */
static inline size_t odd_index(void)
{
    return below(5) > 0 ? below(4) : (size_t)odd_number();
}

static inline void *room(size_t count, size_t size)
{
    return hold(exactly(count * size));
}

/* A copy with up to three odd numbers at odd places, whatever stands there, but not in the part that says where memory is. */
static inline void *odd_copy(const void *good, size_t size, size_t from, size_t to)
{
    char *copy = room(1, size);
    memcpy(copy, good, size);
    for (uint32_t spoiled = below(4); spoiled > 0; spoiled--) {
        const int64_t number = odd_number();
        const size_t width = size >= 8 && below(2) == 0 ? 8 : 4;
        const size_t at = 4 * below((uint32_t)((size - width) / 4 + 1));
        if (at + width <= from || at >= to) {
            memcpy(copy + at, &number, width);
        }
    }
    return copy;
}

static inline const char *odd_text(size_t length)
{
    static const char *const texts[] = {"2.5 mm", "3/32 in", "1 1/2in", "-80", "title", "\xc3\xa4\xe2\x82\xac", "\xff\xfe", "(\"<&;)\n\r"};
    const char *text = texts[below(sizeof texts / sizeof *texts)];
    char *copy = room(1, length);
    for (size_t i = 0; i < length; i++) {
        copy[i] = below(20) == 0 ? (char)below(256) : text[i % strlen(text)];
    }
    return copy;
}

/* A call ends well, or with a status of the table, or as its callback said; with too little room, nothing but how much is needed was written. */
static inline void settle(const char *function, dryfit_status status, const dryfit_error *error)
{
    if (status != STOPPED && dryfit_status_name(status) == NULL) {
        fprintf(stderr, "%s: status %d\n", function, (int)status);
        check_failures++;
    }
    if (status == DRYFIT_PANICKED) {
        fprintf(stderr, "%s panicked\n", function);
        check_failures++;
    }
    if (error != NULL && error->status != status) {
        fprintf(stderr, "%s returned %d, and its error says %d\n", function, (int)status, (int)error->status);
        check_failures++;
    }
    if (error != NULL && status != DRYFIT_OK && memchr(error->parameter, '\0', sizeof error->parameter) == NULL) {
        fprintf(stderr, "%s: the name of the parameter has no end\n", function);
        check_failures++;
    }
    let_go();
}

#endif
