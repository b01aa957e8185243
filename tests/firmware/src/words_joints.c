/* Lengths, patterns and vertices: whole nanometres. */
#include "answer.h"
#include "read.h"
#include "say.h"
#include "used.h"
#include "words.h"

/* What a request leaves in memory; one buffer for all. More than this is refused by the library, with no harm done. */
enum { ROOM = 128 };
static union {
    dryfit_nm boundaries[ROOM];
    dryfit_vertex vertices[ROOM];
} room;
static dryfit_error error;

void answer_length(line *line) {
    size_t length;
    const char *text = line_rest(line, &length);
    static dryfit_nm nm;
    USED_BEGIN();
    dryfit_status status = dryfit_length_parse(text, length, &nm, &error);
    used_end();
    if (status == 0) {
        say_number(nm);
        say("\n");
    }
    answer_end(status, &error);
}

void answer_pattern(line *line) {
    static dryfit_joint joint;
    read_joint(line, &joint);
    dryfit_nm run = line_number(line), thickness = line_number(line);
    if (!answer_read(line)) return;
    uint32_t first;
    size_t needed;
    USED_BEGIN();
    dryfit_status status = dryfit_pattern(&joint, run, thickness, &first, room.boundaries, ROOM, &needed, &error);
    used_end();
    if (status == 0) {
        say_number(first);
        say("\n");
        for (size_t i = 0; i < needed; i++) {
            say_number(room.boundaries[i]);
            say("\n");
        }
    }
    answer_end(status, &error);
}

static void say_vertices(size_t count) {
    for (const dryfit_vertex *vertex = room.vertices; vertex < room.vertices + count; vertex++) {
        say_number(vertex->at.x);
        say(" ");
        say_number(vertex->at.y);
        say(" ");
        say_number(vertex->role);
        say("\n");
    }
}

void answer_vertices(line *line) {
    static dryfit_edge edge;
    read_edge(line, &edge);
    if (!answer_read(line)) return;
    size_t needed;
    USED_BEGIN();
    dryfit_status status = dryfit_edge_vertices(&edge, room.vertices, ROOM, &needed, &error);
    used_end();
    if (status == 0) say_vertices(needed);
    answer_end(status, &error);
}

void answer_panel(line *line) {
    static dryfit_flat_box box;
    uint32_t face = line_count(line);
    read_box(line, &box);
    if (!answer_read(line)) return;
    size_t needed;
    USED_BEGIN();
    dryfit_status status = dryfit_panel_vertices(&box, face, room.vertices, ROOM, &needed, &error);
    used_end();
    if (status == 0) say_vertices(needed);
    answer_end(status, &error);
}
