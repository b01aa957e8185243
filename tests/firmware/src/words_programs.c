/* G-code: of an edge, of a whole box panel after panel, of both for a trailing blade. Nothing is kept but the file in the making. */
#include "answer.h"
#include "read.h"
#include "used.h"
#include "words.h"

/* What the programs are for, until a request tells otherwise. */
static dryfit_machine machine = {.tool = DRYFIT_TOOL_BEAM, .feed = 20 * DRYFIT_MM, .power = 800 * DRYFIT_MM};
static dryfit_edge edge;
static dryfit_fingers fingers;
static dryfit_flat_box box;
static dryfit_knife knife;
static dryfit_file file;
static dryfit_error error;

void answer_machine(line *line) {
    static dryfit_machine asked;
    read_machine(line, &asked);
    if (!answer_read(line)) return;
    machine = asked;
    answer_end(DRYFIT_OK, &error);
}

/* Sources of moves; what has no faces is asked for face 0. */
typedef dryfit_status (*source)(uint32_t face, dryfit_each_move each);

static dryfit_status edge_moves(uint32_t face, dryfit_each_move each) {
    (void)face;
    return dryfit_edge_moves(&edge, each, &file, &error);
}

static dryfit_status edge_drag(uint32_t face, dryfit_each_move each) {
    (void)face;
    return dryfit_edge_drag(&edge, &knife, NULL, each, &file, &error);
}

static dryfit_status box_moves(uint32_t face, dryfit_each_move each) { return dryfit_panel_moves(&box, face, each, &file, &error); }

static dryfit_status box_drag(uint32_t face, dryfit_each_move each) { return dryfit_panel_drag(&box, face, &knife, NULL, each, &file, &error); }

/* Any number that is no status: the source was willing. */
enum { WILLING = 1 };

static int32_t stop(void *user, const dryfit_move *move) {
    (void)user, (void)move;
    return WILLING;
}

static dryfit_status begin(const char *title) {
    size_t length = 0;
    while (title[length] != 0) length++;
    return dryfit_gcode_begin(&file, &machine, title, length, answer_write, NULL, &error);
}

/* One program. The source is tried first, so that of what cannot be made no machine hears a word. */
static dryfit_status program(const char *title, source moves, uint32_t face) {
    dryfit_status status = moves(face, stop);
    if (status != WILLING) return status;
    status = begin(title);
    if (status == 0) status = moves(face, dryfit_gcode_cut);
    if (status == 0) status = dryfit_gcode_end(&file, &error);
    return status;
}

static void answer_program(line *line, source moves) {
    read_edge(line, &edge);
    if (!answer_read(line)) return;
    USED_BEGIN();
    dryfit_status status = program("edge", moves, 0);
    used_end();
    answer_end(status, &error);
}

void answer_edge(line *line) { answer_program(line, edge_moves); }

/* The program of fingers, move by move: for the smallest of stacks. */
static dryfit_status finger_program(void) {
    dryfit_status status = dryfit_fingers_begin(&fingers, &edge, &error);
    if (status == 0) status = begin("edge");
    uint32_t more = status == 0;
    while (more) {
        static dryfit_move move;
        status = dryfit_fingers_next(&fingers, &move, &more, &error);
        if (status == 0 && more) status = dryfit_gcode_cut(&file, &move);
        if (status != 0) return status;
    }
    return status == 0 ? dryfit_gcode_end(&file, &error) : status;
}

void answer_fingers(line *line) {
    read_edge(line, &edge);
    if (!answer_read(line)) return;
    USED_BEGIN();
    dryfit_status status = finger_program();
    used_end();
    answer_end(status, &error);
}

void answer_drag(line *line) {
    read_knife(line, &knife);
    answer_program(line, edge_drag);
}

/* All panels, one after the other; an open box has no top. */
static void answer_programs(line *line, source moves) {
    read_box(line, &box);
    if (!answer_read(line)) return;
    dryfit_status status = 0;
    USED_BEGIN();
    for (uint32_t face = 0; face < DRYFIT_FACE_COUNT && status == 0; face++) {
        if (face != DRYFIT_FACE_TOP || box.top == DRYFIT_TOP_CLOSED) status = program(dryfit_face_name(face), moves, face);
    }
    used_end();
    answer_end(status, &error);
}

void answer_box(line *line) { answer_programs(line, box_moves); }

void answer_dragbox(line *line) {
    read_knife(line, &knife);
    answer_programs(line, box_drag);
}
