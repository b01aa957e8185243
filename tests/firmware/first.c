#include "board.h"
#include "dryfit.h"

static dryfit_file file;
static dryfit_error error;

static int32_t send(void *user, const char *bytes, size_t length) {
    (void)user;
    board_write(bytes, length);
    return 0;
}

int main(void) {
    const dryfit_edge edge = {
        .joint = {.count = 3}, .run = 60 * DRYFIT_MM, .thickness = 3 * DRYFIT_MM, .depth = 3 * DRYFIT_MM, .kerf = 200000,
    };
    const dryfit_machine machine = {.tool = DRYFIT_TOOL_BEAM, .power = 500000000};
    dryfit_status status = dryfit_gcode_begin(&file, &machine, "edge", 4, send, NULL, &error);
    if (status == DRYFIT_OK) status = dryfit_edge_moves(&edge, dryfit_gcode_cut, &file, &error);
    if (status == DRYFIT_OK) status = dryfit_gcode_end(&file, &error);
    return status != DRYFIT_OK;
}
