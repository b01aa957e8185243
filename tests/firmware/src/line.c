#include "line.h"

#include "board.h"

static bool blank(char byte) { return byte == ' ' || byte == '\t' || byte == '\r'; }

bool line_read(line *into) {
    into->length = into->at = 0;
    into->fault = LINE_FINE;
    into->number = 0;
    for (;;) {
        int byte = board_read();
        if (byte < 0 && into->length == 0) return false;
        if (byte < 0 || byte == '\n') return true;
        if (into->length < LINE_ROOM) {
            into->bytes[into->length++] = (char)byte;
        } else {
            into->fault = LINE_TOO_LONG;
        }
    }
}

static void pass_blanks(line *line) {
    while (line->at < line->length && blank(line->bytes[line->at])) line->at++;
}

bool line_word(line *line, const char *word) {
    pass_blanks(line);
    size_t at = line->at;
    for (; *word; word++, at++) {
        if (at >= line->length || line->bytes[at] != *word) return false;
    }
    if (at < line->length && !blank(line->bytes[at])) return false;
    line->at = at;
    return true;
}

static int64_t fail(line *line, line_fault fault) {
    if (line->fault == LINE_FINE) line->fault = fault;
    return 0;
}

int64_t line_number(line *line) {
    if (line->fault != LINE_FINE) return 0;
    line->number++;
    pass_blanks(line);
    if (line->at == line->length) return fail(line, LINE_NUMBER_MISSING);
    bool negative = line->bytes[line->at] == '-';
    if (negative || line->bytes[line->at] == '+') line->at++;
    uint64_t value = 0;
    size_t first = line->at;
    for (; line->at < line->length && !blank(line->bytes[line->at]); line->at++) {
        unsigned digit = (unsigned char)line->bytes[line->at] - (unsigned)'0';
        if (digit > 9) return fail(line, LINE_NO_NUMBER);
        /* The range of both signs but for the least number of all, so that the sign can always be turned. */
        if (value > (uint64_t)INT64_MAX / 10) return fail(line, LINE_NUMBER_TOO_LARGE);
        value = value * 10 + digit;
        if (value > (uint64_t)INT64_MAX) return fail(line, LINE_NUMBER_TOO_LARGE);
    }
    if (line->at == first) return fail(line, LINE_NO_NUMBER);
    return negative ? -(int64_t)value : (int64_t)value;
}

uint32_t line_count(line *line) {
    int64_t value = line_number(line);
    if (value < 0 || value > (int64_t)UINT32_MAX) {
        fail(line, LINE_NUMBER_TOO_LARGE);
        return 0;
    }
    return (uint32_t)value;
}

const char *line_rest(line *line, size_t *length) {
    pass_blanks(line);
    size_t end = line->length;
    while (end > line->at && blank(line->bytes[end - 1])) end--;
    const char *rest = line->bytes + line->at;
    *length = end - line->at;
    line->at = line->length;
    return rest;
}

bool line_done(line *line) {
    pass_blanks(line);
    if (line->at < line->length) fail(line, LINE_TOO_MUCH);
    return line->fault == LINE_FINE;
}
