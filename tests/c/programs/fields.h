/* A number that nothing can be was refused, and the error says which and why. */
#ifndef FIELDS_H
#define FIELDS_H

#include "samples.h"

#include <math.h>

static inline void refused(const char *what, dryfit_status status, const dryfit_error *error)
{
    char words[400];
    size_t needed = 0;
    const int told = dryfit_error_message(error, words, sizeof words, &needed) == DRYFIT_OK && needed > 8;
    if (status == DRYFIT_OK || status == DRYFIT_PANICKED || dryfit_status_name(status) == NULL || error->status != status || error->parameter[0] == '\0' || !told) {
        fprintf(stderr, "%s: status %d, parameter '%.48s'\n", what, (int)status, error->parameter);
        check_failures++;
    }
}

#endif
