/* One request line: a word, then numbers or text. */
#ifndef LINE_H
#define LINE_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

enum { LINE_ROOM = 320 };

/* What is wrong with a line; the first fault counts. */
typedef enum line_fault { LINE_FINE, LINE_TOO_LONG, LINE_NO_NUMBER, LINE_NUMBER_MISSING, LINE_NUMBER_TOO_LARGE, LINE_TOO_MUCH } line_fault;

typedef struct line {
    char bytes[LINE_ROOM];
    size_t length;
    size_t at;
    line_fault fault;
    /* The number that a fault is about, from 1. */
    unsigned number;
} line;

/* Reads up to the next line feed, whatever bytes come; false where there is no more. */
bool line_read(line *into);

/* Whether the line's next word is this one; if so it is passed. */
bool line_word(line *line, const char *word);

/* The next number; 0 once there is a fault. */
int64_t line_number(line *line);
uint32_t line_count(line *line);

/* The rest of the line without the blanks around it. */
const char *line_rest(line *line, size_t *length);

/* Whether all was read and nothing is left. */
bool line_done(line *line);

#endif
