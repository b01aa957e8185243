/* A good argument for every function: what the generated programs call them with, and then spoil one at a time. */
#ifndef SAMPLES_H
#define SAMPLES_H

#include "check.h"

enum { ROOM = 4096 };
/* No status, so that it can only have come from a callback. */
static const dryfit_status STOPPED = -4242;

static const dryfit_joint sample_joint = {.kind = DRYFIT_JOINT_FINGERS, .count = 9};
static const dryfit_edge sample_edge = {
    .joint = {.kind = DRYFIT_JOINT_FINGERS, .count = 9}, .run = 100 * DRYFIT_MM, .thickness = 3 * DRYFIT_MM, .depth = 3 * DRYFIT_MM, .kerf = 160000};
static const dryfit_flat_box sample_box = {
    .outside = {110 * DRYFIT_MM, 85 * DRYFIT_MM, 60 * DRYFIT_MM}, .thickness = 3 * DRYFIT_MM, .kerf = 160000, .closed = 1};
static const dryfit_knife sample_knife = {.trail = 250000, .swivel_above = 10000000, .overcut = 500000};
static const dryfit_move sample_move = {.from = {0, 0}, .to = {10 * DRYFIT_MM, 0}};
static const dryfit_point sample_point = {DRYFIT_MM, DRYFIT_MM};
static const dryfit_machine sample_machine = {.tool = DRYFIT_TOOL_BLADE, .depth = 3 * DRYFIT_MM};
static const dryfit_error sample_error = {
    .status = DRYFIT_OUT_OF_RANGE, .given_unit = DRYFIT_UNIT_COUNT, .range_unit = DRYFIT_UNIT_COUNT, .given = 9, .least = 1, .most = 5, .parameter = "fingers"};

/* Callbacks stop the work after so many calls. */
static unsigned long calls_left = ROOM;

static inline int32_t each_move(void *user, const dryfit_move *move)
{
    (void)user;
    CHECK(move != NULL && move->bend <= DRYFIT_COUNTERCLOCKWISE && move->swivel <= 1);
    return calls_left-- > 0 ? 0 : (calls_left = 0, STOPPED);
}

static inline int32_t write_nowhere(void *user, const char *bytes, size_t length)
{
    (void)user;
    CHECK(bytes != NULL && length > 0 && memchr(bytes, '\0', length) == NULL);
    return calls_left-- > 0 ? 0 : (calls_left = 0, STOPPED);
}

/* Files that have been begun. */
static dryfit_file file;

static inline dryfit_file *begun_gcode(void)
{
    CHECK(dryfit_gcode_begin(&file, &sample_machine, "title", 5, write_nowhere, NULL, NULL) == DRYFIT_OK);
    return &file;
}
static inline dryfit_file *begun_hpgl(void)
{
    CHECK(dryfit_hpgl_begin(&file, write_nowhere, NULL, NULL) == DRYFIT_OK);
    return &file;
}
static inline dryfit_file *begun_svg(void)
{
    CHECK(dryfit_svg_begin(&file, 100 * DRYFIT_MM, 100 * DRYFIT_MM, "title", 5, "words", 5, write_nowhere, NULL, NULL) == DRYFIT_OK);
    return &file;
}
static inline dryfit_file *begun_dxf(void)
{
    CHECK(dryfit_dxf_begin(&file, "title", 5, write_nowhere, NULL, NULL) == DRYFIT_OK);
    return &file;
}
static inline dryfit_file *begun_path(void)
{
    CHECK(dryfit_path_begin(&file, DRYFIT_MM, 1, NULL, write_nowhere, NULL, NULL) == DRYFIT_OK);
    return &file;
}

#endif
