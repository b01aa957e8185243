/* An edge as a drawing: HP-GL, SVG, DXF, path data. */
#include "answer.h"
#include "read.h"
#include "used.h"
#include "words.h"

static dryfit_edge edge;
static dryfit_file file;
static dryfit_error error;

/* Begins, draws and ends one kind of file. */
typedef dryfit_status (*drawing)(void);

static void answer_drawing(line *line, drawing draw) {
    read_edge(line, &edge);
    if (!answer_read(line)) return;
    size_t needed;
    USED_BEGIN();
    /* Asked first, so that what cannot be made is not begun. */
    dryfit_status status = dryfit_edge_vertices(&edge, NULL, 0, &needed, &error);
    if (status == 0) status = draw();
    used_end();
    answer_end(status, &error);
}

static dryfit_status hpgl(void) {
    dryfit_status status = dryfit_hpgl_begin(&file, answer_write, NULL, &error);
    if (status == 0) status = dryfit_hpgl_line(&file, DRYFIT_LINE_CUT_OUTER, &error);
    if (status == 0) status = dryfit_edge_moves(&edge, dryfit_hpgl_cut, &file, &error);
    if (status == 0) status = dryfit_hpgl_end(&file, &error);
    return status;
}

static dryfit_status svg(void) {
    dryfit_status status = dryfit_svg_begin(&file, edge.run, edge.run, "edge", 4, "", 0, answer_write, NULL, &error);
    if (status == 0) status = dryfit_svg_line(&file, DRYFIT_LINE_CUT_OUTER, 0, &error);
    if (status == 0) status = dryfit_edge_moves(&edge, dryfit_svg_cut, &file, &error);
    if (status == 0) status = dryfit_svg_end(&file, &error);
    return status;
}

static dryfit_status dxf(void) {
    dryfit_status status = dryfit_dxf_begin(&file, "edge", 4, answer_write, NULL, &error);
    if (status == 0) status = dryfit_dxf_line(&file, DRYFIT_LINE_CUT_OUTER, 0, &error);
    if (status == 0) status = dryfit_edge_moves(&edge, dryfit_dxf_cut, &file, &error);
    if (status == 0) status = dryfit_dxf_end(&file, &error);
    return status;
}

/* In pixels of 96 to the inch. */
static dryfit_status path(void) {
    dryfit_status status = dryfit_path_begin(&file, DRYFIT_INCH, 96, NULL, answer_write, NULL, &error);
    if (status == 0) status = dryfit_edge_moves(&edge, dryfit_path_cut, &file, &error);
    if (status == 0) status = dryfit_path_end(&file, &error);
    /* Path data has no line feed of its own. */
    if (status == 0) answer_write(NULL, "\n", 1);
    return status;
}

void answer_hpgl(line *line) { answer_drawing(line, hpgl); }
void answer_svg(line *line) { answer_drawing(line, svg); }
void answer_dxf(line *line) { answer_drawing(line, dxf); }
void answer_path(line *line) { answer_drawing(line, path); }
