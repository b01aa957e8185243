/* Lengths from text without an end, and from floats that are no amounts. */
#include "check.h"

#include <math.h>

/* Parses a copy that ends where the text ends: not even a zero stands behind it. */
static dryfit_status parse(const char *text, size_t size, dryfit_nm *out, dryfit_error *error)
{
    char *copy = exactly(size);
    memcpy(copy, text, size);
    const dryfit_status status = dryfit_length_parse(copy, size, out, error);
    free(copy);
    return status;
}

static void good(const char *text, dryfit_nm expected)
{
    dryfit_nm out = 1;
    CHECK(parse(text, strlen(text), &out, NULL) == DRYFIT_OK);
    CHECK(out == expected);
}

static void bad(const char *text, size_t size, dryfit_status expected)
{
    dryfit_nm out = 77;
    dryfit_error error;
    const dryfit_status status = parse(text, size, &out, &error);
    if (status != expected || error.status != status) {
        fprintf(stderr, "%.*s: %d, expected %d\n", (int)size, text, (int)status, (int)expected);
        check_failures++;
    }
    CHECK(out == 77); /* nothing is written on failure */
    char *words;
    size_t needed = 0;
    CHECK(dryfit_error_message(&error, NULL, 0, &needed) == DRYFIT_OK && needed > 10);
    words = exactly(needed);
    CHECK(dryfit_error_message(&error, words, needed, &needed) == DRYFIT_OK && strlen(words) + 1 == needed);
    CHECK(strstr(words, error.parameter) == words);
    free(words);
}

int main(void)
{
    good("80", 80 * DRYFIT_MM);
    good("3/32 in", 2381250);
    good(" 2.5mm ", 2500000);
    good("10 m", 10000 * DRYFIT_MM);
    good("-1 1/2 in", -38100000);

    bad("", 0, DRYFIT_NOT_A_LENGTH);
    bad("mm", 2, DRYFIT_NOT_A_LENGTH);
    bad("1\0mm", 4, DRYFIT_NOT_A_LENGTH);
    bad("nan", 3, DRYFIT_NOT_A_LENGTH);
    bad("1e3", 3, DRYFIT_NOT_A_LENGTH);
    bad("1/0", 3, DRYFIT_NOT_A_LENGTH);
    bad("10.1 m", 6, DRYFIT_OUT_OF_RANGE);
    bad("99999999999999999999999999999999999999999999", 44, DRYFIT_NOT_A_LENGTH); /* longer than any number is written */
    bad("\xff mm", 4, DRYFIT_NOT_TEXT);
    bad("1 \xce", 3, DRYFIT_NOT_TEXT); /* half a letter */

    dryfit_nm out = 77;
    dryfit_error error;
    CHECK_REFUSED(dryfit_length_parse(NULL, 1, &out, &error), DRYFIT_NULL_POINTER, "text");
    CHECK_REFUSED(dryfit_length_parse("1", SIZE_MAX, &out, &error), DRYFIT_OUT_OF_RANGE, "text");
    CHECK(dryfit_length_parse(NULL, 0, &out, NULL) == DRYFIT_NOT_A_LENGTH);

    const double none[] = {NAN, -NAN, INFINITY, -INFINITY};
    for (size_t i = 0; i < sizeof none / sizeof *none; i++) {
        CHECK(dryfit_length_from_mm(none[i], &out, NULL) == DRYFIT_NOT_FINITE);
    }
    const double far[] = {10000.0000006, -10001, 1e300, -1e300};
    for (size_t i = 0; i < sizeof far / sizeof *far; i++) {
        CHECK(dryfit_length_from_mm(far[i], &out, NULL) == DRYFIT_OUT_OF_RANGE);
    }
    CHECK(out == 77);
    CHECK(dryfit_length_from_mm(2.5, &out, NULL) == DRYFIT_OK && out == 2500000);
    CHECK(dryfit_length_from_mm(-0.0, &out, NULL) == DRYFIT_OK && out == 0);
    CHECK(dryfit_length_from_mm(5e-324, &out, NULL) == DRYFIT_OK && out == 0);
    CHECK(dryfit_length_to_mm(INT64_MIN) < -9e12 && dryfit_length_to_mm(2500000) == 2.5);
    return checked();
}
