/* Reads requests, a line each, and answers them line by line. No request can stop it but `bye`. */
#include "board.h"
#include "answer.h"
#include "say.h"
#include "used.h"
#include "words.h"

static const word words[] = {
    {"length", answer_length},
    {"pattern", answer_pattern},
    {"vertices", answer_vertices},
    {"panel", answer_panel},
    {"machine", answer_machine},
    {"edge", answer_edge},
    {"fingers", answer_fingers},
    {"box", answer_box},
    {"drag", answer_drag},
    {"dragbox", answer_dragbox},
    {"hpgl", answer_hpgl},
    {"svg", answer_svg},
    {"dxf", answer_dxf},
    {"path", answer_path},
};

static const word *find(line *line) {
    for (const word *word = words; word < words + sizeof words / sizeof *words; word++) {
        if (line_word(line, word->name)) return word;
    }
    return NULL;
}

int main(void) {
    static line asked;
    while (line_read(&asked)) {
        const word *word = find(&asked);
        if (asked.fault != LINE_FINE) {
            answer_read(&asked);
        } else if (word) {
            word->answer(&asked);
        } else if (line_word(&asked, "used") && line_done(&asked)) {
            used_say();
        } else if (line_word(&asked, "bye") && line_done(&asked)) {
            break;
        } else {
            say("refused unknown word\n");
        }
    }
    return 0;
}
