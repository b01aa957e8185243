/* Files that were never begun, that are of another format, that have ended, and that move about in memory. */
#include "samples.h"

typedef dryfit_status (*cut)(void *, const dryfit_move *);
typedef dryfit_status (*end)(dryfit_file *, dryfit_error *);

static const struct format {
    dryfit_file *(*begin)(void);
    cut cut;
    end end;
} formats[] = {
    {begun_gcode, dryfit_gcode_cut, dryfit_gcode_end}, {begun_hpgl, dryfit_hpgl_cut, dryfit_hpgl_end}, {begun_svg, dryfit_svg_cut, dryfit_svg_end},
    {begun_dxf, dryfit_dxf_cut, dryfit_dxf_end},       {begun_path, dryfit_path_cut, dryfit_path_end},
};
enum { FORMATS = sizeof formats / sizeof *formats };

struct text {
    char bytes[20000];
    size_t length;
};

static int32_t gather(void *user, const char *bytes, size_t length)
{
    struct text *text = user;
    CHECK(length <= sizeof text->bytes - text->length);
    memcpy(text->bytes + text->length, bytes, length);
    text->length += length;
    return 0;
}

static int32_t cut_and_move(void *user, const dryfit_move *move)
{
    /* Between two calls the file goes to another place, and what it leaves is spoiled. */
    dryfit_file **place = user;
    dryfit_file *moved = malloc(sizeof *moved);
    if (moved == NULL) {
        return -1;
    }
    memcpy(moved, *place, sizeof *moved);
    memset(*place, 0xAA, sizeof **place);
    free(*place);
    *place = moved;
    return dryfit_gcode_cut(moved, move);
}

static void same_wherever_it_stands(void)
{
    static struct text still, moving;
    dryfit_file here;
    dryfit_file *there = malloc(sizeof *there);
    CHECK(there != NULL && dryfit_gcode_begin(&here, &sample_machine, "x", 1, gather, &still, NULL) == DRYFIT_OK);
    CHECK(dryfit_gcode_begin(there, &sample_machine, "x", 1, gather, &moving, NULL) == DRYFIT_OK);
    CHECK(dryfit_panel_moves(&sample_flat_box, DRYFIT_FACE_FRONT, dryfit_gcode_cut, &here, NULL) == DRYFIT_OK);
    CHECK(dryfit_panel_moves(&sample_flat_box, DRYFIT_FACE_FRONT, cut_and_move, &there, NULL) == DRYFIT_OK);
    CHECK(dryfit_gcode_end(&here, NULL) == DRYFIT_OK && dryfit_gcode_end(there, NULL) == DRYFIT_OK);
    free(there);
    CHECK(still.length > 500 && still.length == moving.length && memcmp(still.bytes, moving.bytes, still.length) == 0);
}

int main(void)
{
    dryfit_error error;
    static dryfit_file zeros;
    for (size_t i = 0; i < FORMATS; i++) {
        calls_left = ROOM;
        CHECK(formats[i].cut(&zeros, &sample_move) == DRYFIT_WRONG_HANDLE);
        CHECK_REFUSED(formats[i].end(&zeros, &error), DRYFIT_WRONG_HANDLE, "file");
        for (size_t other = 0; other < FORMATS; other++) {
            dryfit_file *begun = formats[i].begin();
            CHECK(formats[other].cut(begun, &sample_move) == (i == other ? DRYFIT_OK : DRYFIT_WRONG_HANDLE));
            if (i != other) {
                CHECK_REFUSED(formats[other].end(begun, &error), DRYFIT_WRONG_HANDLE, "file");
            }
            /* It is not the worse for that. */
            CHECK(formats[i].cut(begun, &sample_move) == DRYFIT_OK && formats[i].end(begun, &error) == DRYFIT_OK && error.status == DRYFIT_OK);
            CHECK(formats[i].cut(begun, &sample_move) == DRYFIT_WRONG_HANDLE);
            CHECK_REFUSED(formats[i].end(begun, &error), DRYFIT_WRONG_HANDLE, "file");
        }
    }

    /* What was not begun well was not begun, even where a file stood before. */
    dryfit_file *begun = begun_gcode();
    const dryfit_machine deep = {.tool = DRYFIT_TOOL_BLADE, .depth = -1};
    CHECK(dryfit_gcode_begin(begun, &deep, "x", 1, write_nowhere, NULL, &error) == DRYFIT_OUT_OF_RANGE && strcmp(error.parameter, "depth") == 0);
    CHECK(dryfit_gcode_cut(begun, &sample_move) == DRYFIT_WRONG_HANDLE);

    /* Moves with something wrong with them are refused, and change nothing. */
    begun = begun_gcode();
    dryfit_move move = sample_move;
    move.bend = 3;
    CHECK(dryfit_gcode_cut(begun, &move) == DRYFIT_OUT_OF_RANGE);
    move = sample_move, move.swivel = UINT32_MAX;
    CHECK(dryfit_gcode_cut(begun, &move) == DRYFIT_OUT_OF_RANGE);
    move = sample_move, move.to.x = INT64_MAX;
    CHECK(dryfit_gcode_cut(begun, &move) == DRYFIT_OUT_OF_RANGE);
    move.to.x = INT64_MIN;
    CHECK(dryfit_gcode_cut(begun, &move) == DRYFIT_OUT_OF_RANGE);
    CHECK(dryfit_gcode_cut(begun, &sample_move) == DRYFIT_OK && dryfit_gcode_end(begun, NULL) == DRYFIT_OK);

    same_wherever_it_stands();
    return checked();
}
