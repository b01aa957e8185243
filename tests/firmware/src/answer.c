#include "answer.h"

#include "board.h"
#include "say.h"
#include "used.h"

static const char *const faults[] = {
    [LINE_TOO_LONG] = "line too long",
    [LINE_NO_NUMBER] = "not a number",
    [LINE_NUMBER_MISSING] = "number missing",
    [LINE_NUMBER_TOO_LARGE] = "number too large or too small",
    [LINE_TOO_MUCH] = "more than was asked for, after number",
};

bool answer_read(line *line) {
    if (line_done(line)) return true;
    say("refused ");
    say(faults[line->fault]);
    if (line->fault != LINE_TOO_LONG) {
        say(" ");
        say_number(line->number);
    }
    say("\n");
    return false;
}

void answer_end(dryfit_status status, const dryfit_error *error) {
    if (status == 0) {
        say("ok\n");
        return;
    }
    say("error ");
    say_number(status);
    say(" \"");
    say(error->parameter);
    say("\" ");
    say_number(error->given);
    say(" ");
    say_number(error->least);
    say(" ");
    say_number(error->most);
    static char message[256];
    size_t needed;
    if (dryfit_error_message(error, message, sizeof message, &needed) == 0) {
        say(" ");
        say(message);
    }
    say("\n");
}

int32_t answer_write(void *user, const char *bytes, size_t length) {
    (void)user;
    uint32_t since = used_pause();
    board_write(bytes, length);
    used_go_on(since);
    return 0;
}
