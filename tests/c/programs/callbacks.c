/* Callbacks that stop the work, at every call there is, and callbacks that call the library again. */
#include "samples.h"

struct script {
    int calls, stop_at;
    int32_t with;
    dryfit_file *again;
    char text[20000];
    size_t length;
};

static int32_t move_by_script(void *user, const dryfit_move *move)
{
    struct script *script = user;
    CHECK(move->from.x != move->to.x || move->from.y != move->to.y);
    return script->calls++ == script->stop_at ? script->with : 0;
}

static int32_t write_by_script(void *user, const char *bytes, size_t length)
{
    struct script *script = user;
    if (script->again != NULL) {
        /* The file is in use, whatever is tried with it; another one is not. */
        dryfit_error error;
        CHECK(dryfit_gcode_cut(script->again, &sample_move) == DRYFIT_WRONG_HANDLE);
        CHECK_REFUSED(dryfit_gcode_lift(script->again, &error), DRYFIT_WRONG_HANDLE, "file");
        CHECK_REFUSED(dryfit_gcode_end(script->again, &error), DRYFIT_WRONG_HANDLE, "file");
        CHECK(dryfit_svg_cut(script->again, &sample_move) == DRYFIT_WRONG_HANDLE);
        dryfit_file other;
        size_t needed = 0;
        CHECK(dryfit_path_begin(&other, DRYFIT_MM, 1, NULL, write_nowhere, NULL, NULL) == DRYFIT_OK);
        CHECK(dryfit_panel_moves(&sample_flat_box, DRYFIT_FACE_LEFT, dryfit_path_cut, &other, NULL) == DRYFIT_OK);
        CHECK(dryfit_edge_vertices(&sample_edge, NULL, 0, &needed, NULL) == DRYFIT_OK && needed > 4);
        CHECK(dryfit_path_end(&other, NULL) == DRYFIT_OK);
        calls_left = ROOM;
    }
    if (script->length + length <= sizeof script->text) {
        memcpy(script->text + script->length, bytes, length);
    }
    script->length += length;
    return script->calls++ == script->stop_at ? script->with : 0;
}

/* A panel as G-code; the status of the first call that does not end well. */
static dryfit_status panel(struct script *script, dryfit_error *error)
{
    dryfit_file gcode;
    dryfit_status status = dryfit_gcode_begin(&gcode, &sample_machine, "panel", 5, write_by_script, script, error);
    if (status == DRYFIT_OK) {
        dryfit_file *const again = script->again;
        script->again = again != NULL ? &gcode : NULL;
        status = dryfit_panel_moves(&sample_flat_box, DRYFIT_FACE_FRONT, dryfit_gcode_cut, &gcode, error);
        script->again = NULL;
        /* Once it was refused bytes, a file is none any more, and asks for nothing again. */
        const int calls = script->calls;
        const dryfit_status end = dryfit_gcode_end(&gcode, status == DRYFIT_OK ? error : NULL);
        CHECK(status == DRYFIT_OK || (end == DRYFIT_WRONG_HANDLE && script->calls == calls));
        status = status == DRYFIT_OK ? end : status;
        CHECK(dryfit_gcode_end(&gcode, NULL) == DRYFIT_WRONG_HANDLE);
    }
    return status;
}

static void stops(const struct script *script, dryfit_status status, const dryfit_error *error)
{
    CHECK(status == script->with && error->status == script->with && strcmp(error->parameter, "callback") == 0);
}

int main(void)
{
    dryfit_error error;
    static struct script all, some, nested;
    static const int32_t numbers[] = {-1, 1, 42, INT32_MIN, INT32_MAX, DRYFIT_OUT_OF_RANGE, DRYFIT_SINK_FULL};
    const size_t count = sizeof numbers / sizeof *numbers;

    /* Moves of every source, stopped at every one. */
    all.stop_at = -1;
    CHECK(dryfit_panel_moves(&sample_flat_box, DRYFIT_FACE_BASE, move_by_script, &all, &error) == DRYFIT_OK && all.calls > 20);
    for (int at = 0; at < all.calls; at++) {
        some = (struct script){.stop_at = at, .with = numbers[(size_t)at % count]};
        const dryfit_status status = dryfit_panel_moves(&sample_flat_box, DRYFIT_FACE_BASE, move_by_script, &some, &error);
        stops(&some, status, &error);
        CHECK(some.calls == at + 1);
    }
    some = (struct script){.stop_at = 3, .with = -5};
    stops(&some, dryfit_edge_moves(&sample_edge, move_by_script, &some, &error), &error);
    some = (struct script){.stop_at = 3, .with = -5};
    stops(&some, dryfit_edge_drag(&sample_edge, &sample_knife, NULL, move_by_script, &some, &error), &error);
    some = (struct script){.stop_at = 3, .with = -5};
    stops(&some, dryfit_panel_drag(&sample_flat_box, DRYFIT_FACE_TOP, &sample_knife, NULL, move_by_script, &some, &error), &error);
    some = (struct script){.stop_at = 0, .with = -5};
    stops(&some, dryfit_moves_drag(&sample_move, 1, 0, &sample_knife, NULL, move_by_script, &some, &error), &error);

    /* The number of a callback is no status of ours: the words say so. */
    size_t needed = 0;
    char words[40];
    CHECK(dryfit_error_message(&error, words, sizeof words, &needed) == DRYFIT_OK && strcmp(words, "a callback returned -5") == 0 && needed == strlen(words) + 1);
    error.status = INT32_MIN;
    CHECK(dryfit_error_message(&error, words, sizeof words, &needed) == DRYFIT_OK && strcmp(words, "a callback returned -2147483648") == 0);
    error.status = DRYFIT_OK;
    CHECK(dryfit_error_message(&error, words, sizeof words, &needed) == DRYFIT_OK && needed == 1 && words[0] == '\0');

    /* Bytes, refused at every call. */
    all = (struct script){.stop_at = -1};
    CHECK(panel(&all, &error) == DRYFIT_OK && all.length > 500 && all.length < sizeof all.text);
    for (int at = 0; at < all.calls; at++) {
        some = (struct script){.stop_at = at, .with = numbers[(size_t)at % count]};
        stops(&some, panel(&some, &error), &error);
        CHECK(some.calls == at + 1 && some.length <= all.length && memcmp(all.text, some.text, some.length) == 0);
    }

    /* Calls within a call change nothing. */
    nested = (struct script){.stop_at = -1, .again = &file};
    CHECK(panel(&nested, &error) == DRYFIT_OK && nested.length == all.length && memcmp(nested.text, all.text, all.length) == 0);
    return checked();
}
