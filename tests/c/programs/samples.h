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
static const dryfit_flat_box sample_flat_box = {
    .outside = {110 * DRYFIT_MM, 85 * DRYFIT_MM, 60 * DRYFIT_MM}, .thickness = 3 * DRYFIT_MM, .kerf = 160000};
static const dryfit_knife sample_knife = {.trail = 250000, .swivel_above = 10000000, .overcut = 500000};
static const dryfit_move sample_move = {.from = {0, 0}, .to = {10 * DRYFIT_MM, 0}};
static const dryfit_point sample_point = {DRYFIT_MM, DRYFIT_MM};
static const dryfit_machine sample_machine = {.tool = DRYFIT_TOOL_BLADE, .depth = 3 * DRYFIT_MM};
static const dryfit_error sample_error = {
    .status = DRYFIT_OUT_OF_RANGE, .given_unit = DRYFIT_UNIT_COUNT, .range_unit = DRYFIT_UNIT_COUNT, .given = 9, .least = 1, .most = 5, .parameter = "fingers"};

static const dryfit_nm sample_lengths = 3 * DRYFIT_MM;
static const dryfit_board sample_board = {.normal = DRYFIT_AXIS_Z, .at = {0, 0, 30 * DRYFIT_MM}, .size = {110 * DRYFIT_MM, 85 * DRYFIT_MM}, .thickness = 3 * DRYFIT_MM};
static const dryfit_opening sample_opening = {
    .kind = DRYFIT_OPENING_ROUND, .centre = {55 * DRYFIT_MM, 30 * DRYFIT_MM}, .width = 10 * DRYFIT_MM};
static const dryfit_box sample_box = {.size = {110 * DRYFIT_MM, 85 * DRYFIT_MM, 60 * DRYFIT_MM}, .thickness = 3 * DRYFIT_MM};
static const dryfit_cut sample_cut = {.cutter = {.tool = DRYFIT_TOOL_BEAM, .width = 180000}, .fit = {.flank = -200000}};
static const dryfit_stock sample_stock = {.thickness = 3 * DRYFIT_MM, .width = 400 * DRYFIT_MM, .height = 300 * DRYFIT_MM, .border = 8 * DRYFIT_MM, .gap = DRYFIT_MM};
static const dryfit_layout_spec sample_layout_spec = {.seed = 1};
static const dryfit_motion sample_motion = {.cutter = {.tool = DRYFIT_TOOL_BEAM, .width = 180000}, .power = 100000000};
static const dryfit_motion sample_blade = {.cutter = {.tool = DRYFIT_TOOL_BLADE, .trail = 250000}};

/* An error that is looked at before it is completed. */
static inline dryfit_error *known_error(void)
{
    static dryfit_error known;
    known = (dryfit_error){.status = DRYFIT_OUT_OF_RANGE, .parameter = "callback"};
    return &known;
}

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

static inline int32_t go_on(void *user, double done)
{
    (void)user;
    CHECK(done >= 0 && done <= 1);
    return calls_left-- > 0 ? 0 : (calls_left = 0, STOPPED);
}

/* What a call was given or gave, which goes after it. */
static void *held[64];
static size_t held_count = 0;
static struct {
    dryfit_assembly *assembly;
    dryfit_parts *parts;
    dryfit_layout *layout;
    dryfit_report *report;
} made, lent;

static inline void *hold(void *block)
{
    return held[held_count++] = block;
}

static inline void stage(void)
{
    calls_left = ROOM;
}

static inline void let_go(void)
{
    while (held_count > 0) {
        free(held[--held_count]);
    }
    CHECK(dryfit_report_free(&made.report) == DRYFIT_OK && dryfit_report_free(&lent.report) == DRYFIT_OK);
    CHECK(dryfit_layout_free(&made.layout) == DRYFIT_OK && dryfit_layout_free(&lent.layout) == DRYFIT_OK);
    CHECK(dryfit_parts_free(&made.parts) == DRYFIT_OK && dryfit_parts_free(&lent.parts) == DRYFIT_OK);
    CHECK(dryfit_assembly_free(&made.assembly) == DRYFIT_OK && dryfit_assembly_free(&lent.assembly) == DRYFIT_OK);
    CHECK(made.assembly == NULL && made.parts == NULL && made.layout == NULL && made.report == NULL);
}

/* Handles that are good until then. */
static inline dryfit_assembly *good_assembly(void)
{
    if (lent.assembly == NULL) {
        CHECK(dryfit_assembly_of_box(&sample_box, &lent.assembly, NULL) == DRYFIT_OK);
    }
    return lent.assembly;
}
static inline dryfit_parts *good_parts(void)
{
    if (lent.parts == NULL) {
        CHECK(dryfit_parts_cut(good_assembly(), &sample_cut, &lent.parts, NULL) == DRYFIT_OK);
    }
    return lent.parts;
}
static inline dryfit_layout *good_layout(void)
{
    if (lent.layout == NULL) {
        CHECK(dryfit_layout_new(good_parts(), &sample_stock, 1, NULL, NULL, NULL, &lent.layout, NULL) == DRYFIT_OK);
    }
    return lent.layout;
}
static inline dryfit_report *good_report(void)
{
    if (lent.report == NULL) {
        CHECK(dryfit_parts_dry_fit(good_parts(), &lent.report, NULL) == DRYFIT_OK);
    }
    return lent.report;
}

/* Files that have been begun. */
static dryfit_file file;

static dryfit_fingers fingers;

static inline dryfit_fingers *begun_fingers(void)
{
    CHECK(dryfit_fingers_begin(&fingers, &sample_edge, NULL) == DRYFIT_OK);
    return &fingers;
}

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
static inline dryfit_file *begun_file(void)
{
    return begun_svg();
}
static inline dryfit_file *begun_path(void)
{
    CHECK(dryfit_path_begin(&file, DRYFIT_MM, 1, NULL, write_nowhere, NULL, NULL) == DRYFIT_OK);
    return &file;
}

#endif
