/* What a file refuses as a callback, it tells when it is asked; and what is refused says so in its own unit. */
#include "samples.h"

typedef dryfit_status (*cut)(void *, const dryfit_move *);

static const struct format {
    dryfit_file *(*begin)(void);
    cut cut;
} formats[] = {{begun_gcode, dryfit_gcode_cut}, {begun_hpgl, dryfit_hpgl_cut}, {begun_svg, dryfit_svg_cut}, {begun_dxf, dryfit_dxf_cut}, {begun_path, dryfit_path_cut}};
enum { FORMATS = sizeof formats / sizeof *formats };

static dryfit_error error;

static void says(const char *wanted)
{
    char words[300];
    size_t needed;
    CHECK(dryfit_error_message(&error, words, sizeof words, &needed) == DRYFIT_OK);
    if (strcmp(words, wanted) != 0) {
        fprintf(stderr, "expected: %s\ngot:      %s\n", wanted, words);
        check_failures++;
    }
}

/* A panel that goes beyond ten metres, half way through it. */
static void what_a_callback_refused(const struct format *format)
{
    dryfit_flat_box box = sample_flat_box;
    box.at.x = 9950 * DRYFIT_MM;
    dryfit_file *const begun = format->begin();
    CHECK_REFUSED(dryfit_panel_moves(&box, DRYFIT_FACE_LEFT, format->cut, begun, &error), DRYFIT_OUT_OF_RANGE, "callback");
    CHECK(dryfit_file_error(begun, &error) == DRYFIT_OK && error.status == DRYFIT_OUT_OF_RANGE && error.given_unit == DRYFIT_UNIT_LENGTH);
    CHECK(error.given > 10000 * DRYFIT_MM && error.least == -10000 * DRYFIT_MM && error.most == 10000 * DRYFIT_MM && strcmp(error.parameter, "x") == 0);

    /* Of a move of the caller's own. */
    static const struct {
        dryfit_move move;
        const char *words;
    } wrong[] = {
        {{.to = {DRYFIT_MM, 0}, .bend = 3}, "bend: 3 given, allowed 0 to 2"},
        {{.to = {DRYFIT_MM, 0}, .swivel = 2}, "swivel: 2 given, allowed 0 to 1"},
        {{.to = {DRYFIT_MM, -10001 * DRYFIT_MM}}, "y: -10001 mm given, allowed -10000 mm to 10000 mm"},
        {{.to = {10 * DRYFIT_MM, 0}, .centre = {100 * DRYFIT_MM, 0}, .bend = DRYFIT_CLOCKWISE}, "radius difference: 10 mm given, allowed 0 mm to 0.001024 mm"},
    };
    for (size_t i = 0; i < sizeof wrong / sizeof *wrong; i++) {
        memset(&error, 0, sizeof error);
        memcpy(error.parameter, "callback", sizeof "callback");
        error.status = format->cut(begun, &wrong[i].move);
        CHECK(error.status == DRYFIT_OUT_OF_RANGE && dryfit_file_error(begun, &error) == DRYFIT_OK);
        says(wrong[i].words);
    }

    /* Another error stays what it is: one of the call's own, one of a callback's own number, one that the file knows nothing of. */
    CHECK_REFUSED(dryfit_panel_moves(&box, 6, format->cut, begun, &error), DRYFIT_OUT_OF_RANGE, "face");
    CHECK(dryfit_file_error(begun, &error) == DRYFIT_OK && strcmp(error.parameter, "face") == 0 && error.given == 6);
    calls_left = 0;
    CHECK_REFUSED(dryfit_panel_moves(&sample_flat_box, 0, each_move, NULL, &error), STOPPED, "callback");
    CHECK(dryfit_file_error(begun, &error) == DRYFIT_OK && error.status == STOPPED && strcmp(error.parameter, "callback") == 0);
    stage();
    dryfit_file *const anew = format->begin();
    memset(&error, 0, sizeof error);
    memcpy(error.parameter, "callback", sizeof "callback");
    error.status = DRYFIT_OUT_OF_RANGE;
    CHECK(dryfit_file_error(anew, &error) == DRYFIT_OK && strcmp(error.parameter, "callback") == 0);

    /* What was refused has written nothing, and the file goes on. */
    CHECK(dryfit_panel_moves(&sample_flat_box, DRYFIT_FACE_FRONT, format->cut, anew, &error) == DRYFIT_OK);
    /* Memory that is no file knows nothing. */
    memset(anew, 0x55, sizeof *anew);
    error = (dryfit_error){.status = DRYFIT_OUT_OF_RANGE, .parameter = "callback"};
    CHECK(dryfit_file_error(anew, &error) == DRYFIT_OK && strcmp(error.parameter, "callback") == 0);
}

/* Arcs are round to a micrometre, wherever they lie; what is less so is another line to every format. */
static void arcs_are_round(void)
{
    static const dryfit_nm radii[] = {1000, DRYFIT_MM, 77777777, 4000 * DRYFIT_MM};
    for (size_t i = 0; i < sizeof radii / sizeof *radii; i++) {
        for (int turned = 0; turned < 2; turned++) {
            const dryfit_nm radius = radii[i], x = turned ? -5000 * DRYFIT_MM : 0, y = turned ? 5000 * DRYFIT_MM : 0;
            dryfit_move arc = {.from = {x + radius, y}, .to = {x, y + radius}, .centre = {x, y}, .bend = DRYFIT_COUNTERCLOCKWISE};
            dryfit_file *const path = begun_path();
            CHECK(dryfit_path_cut(path, &arc) == DRYFIT_OK);
            arc.to.y += 900;
            CHECK(dryfit_path_cut(path, &arc) == DRYFIT_OK);
            arc.to.y += 10000;
            CHECK(dryfit_path_cut(path, &arc) == DRYFIT_OUT_OF_RANGE);
            arc.to.y -= 20900;
            CHECK(dryfit_path_cut(path, &arc) == DRYFIT_OUT_OF_RANGE);
            CHECK(dryfit_path_end(path, NULL) == DRYFIT_OK);
        }
    }
}

static void letters_have_a_height(void)
{
    static const dryfit_nm wrong[] = {0, -5, 99999, 1001 * DRYFIT_MM};
    for (size_t i = 0; i < sizeof wrong / sizeof *wrong; i++) {
        CHECK_REFUSED(dryfit_svg_label(begun_svg(), "x", 1, &sample_point, wrong[i], &error), DRYFIT_OUT_OF_RANGE, "letters");
        CHECK_REFUSED(dryfit_dxf_label(begun_dxf(), "x", 1, &sample_point, wrong[i], &error), DRYFIT_OUT_OF_RANGE, "letters");
        CHECK(error.given == wrong[i] && error.least == DRYFIT_MM / 10 && error.most == 1000 * DRYFIT_MM);
    }
}

static void units_of_what_has_no_meaning(void)
{
    size_t needed;
    dryfit_flat_box box = sample_flat_box;
    box.fingers = (dryfit_joint){.count = 5, .width = 10 * DRYFIT_MM};
    CHECK(dryfit_panel_vertices(&box, 0, NULL, 0, &needed, &error) == DRYFIT_OUT_OF_RANGE);
    says("finger width beside a count: 10 mm given, allowed 0 mm to 0 mm");
    box.fingers = (dryfit_joint){.spacing = DRYFIT_MM / 2};
    CHECK(dryfit_panel_vertices(&box, 0, NULL, 0, &needed, &error) == DRYFIT_OUT_OF_RANGE);
    says("spacing: 0.5 mm given, allowed 0 mm to 0 mm");
    box.fingers = (dryfit_joint){.numerator = 3};
    CHECK(dryfit_panel_vertices(&box, 0, NULL, 0, &needed, &error) == DRYFIT_OUT_OF_RANGE);
    says("numerator: 3 given, allowed 0 to 0");

    dryfit_assembly *boards = NULL;
    dryfit_board board = sample_board;
    board.turn = 30 * DRYFIT_DEGREE;
    CHECK(dryfit_assembly_new(&boards, &error) == DRYFIT_OK && dryfit_assembly_add(boards, "a", 1, &board, &error) == DRYFIT_OUT_OF_RANGE);
    says("turn: 30 deg given, allowed 0 deg to 0 deg");
    CHECK(dryfit_assembly_free(&boards) == DRYFIT_OK);
}

int main(void)
{
    for (size_t i = 0; i < FORMATS; i++) {
        what_a_callback_refused(&formats[i]);
    }
    arcs_are_round();
    letters_have_a_height();
    units_of_what_has_no_meaning();
    return checked();
}
