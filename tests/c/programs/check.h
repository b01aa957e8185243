/* A test program's way to say what is wrong: it goes on, and ends with status 1. */
#ifndef CHECK_H
#define CHECK_H

#include <dryfit.h>

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static int check_failures = 0;

#define CHECK(what)                                                    \
    do {                                                               \
        if (!(what)) {                                                 \
            fprintf(stderr, "%s:%d: %s\n", __FILE__, __LINE__, #what); \
            check_failures++;                                          \
        }                                                              \
    } while (0)

/* A status, and the parameter that `error` names. */
#define CHECK_REFUSED(call, expected, name)                                                                                      \
    do {                                                                                                                         \
        memset(&error, 0xAA, sizeof error);                                                                                      \
        const dryfit_status status_ = (call);                                                                                    \
        if (status_ != (expected) || error.status != status_ || strcmp(error.parameter, (name)) != 0) {                          \
            fprintf(stderr, "%s:%d: %s gives %d for %.48s\n", __FILE__, __LINE__, #call, (int)status_, error.status == status_ ? error.parameter : "?");         \
            check_failures++;                                                                                                    \
        }                                                                                                                        \
    } while (0)

/* Memory of exactly this size on the heap, where every byte beyond it is watched. */
static inline void *exactly(size_t size)
{
    void *block = malloc(size > 0 ? size : 1);
    if (block == NULL) {
        exit(3);
    }
    memset(block, 0xAA, size);
    return block;
}

static inline int checked(void)
{
    return check_failures > 0;
}

#endif
