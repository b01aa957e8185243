/* How every answer ends, and where the library's text goes. */
#ifndef ANSWER_H
#define ANSWER_H

#include "dryfit.h"
#include "line.h"

/* Whether the line was read well; says what is wrong with it if not. */
bool answer_read(line *line);

/* The last line of an answer: "ok", or the number of the error, the parameter, what was given, the least and the most, and a sentence. */
void answer_end(dryfit_status status, const dryfit_error *error);

/* The write callback of all files: straight to the board. */
int32_t answer_write(void *user, const char *bytes, size_t length);

#endif
