/* A plugin that makes the front of a box of a selection: built as a shared object, opened by an editor with dlopen.
 *
 *     cc -shared -fPIC -fvisibility=hidden plugin.c $(pkg-config --cflags --libs dryfit) -o plugin.so
 *
 * With lib/libdryfit.a in place of -ldryfit, and -Wl,--gc-sections,--exclude-libs,ALL -s, it is one file of some 76 KB that needs the C library alone.
 * It keeps nothing between two calls, so it may be called by any thread and unloaded at any time. */
#include "plugin.h"

#include <dryfit.h>

#include <stdio.h>
#include <string.h>

/* A unit of a document as a ratio of nanometres, which is exact. */
static const struct unit {
    const char *name;
    int64_t nanometres, parts;
} units[] = {{"px", DRYFIT_INCH, 96}, {"pt", DRYFIT_INCH, 72}, {"pc", DRYFIT_INCH, 6}, {"in", DRYFIT_INCH, 1}, {"cm", 10 * DRYFIT_MM, 1}, {"mm", DRYFIT_MM, 1}};

/* Text that goes to the host's memory, or is only counted where there is none. */
struct text {
    char *bytes;
    size_t length;
};

static int32_t append(void *user, const char *bytes, size_t length)
{
    struct text *text = user;
    if (text->bytes != NULL) {
        memcpy(text->bytes + text->length, bytes, length);
    }
    text->length += length;
    return 0;
}

static dryfit_status draw(const dryfit_flat_box *box, const struct unit *unit, struct text *text, dryfit_error *error)
{
    /* The library's y points up, from the panel's lower edge; the document's points down, from its upper one. */
    const dryfit_point corner = {0, box->outside[2]};
    dryfit_file file;
    dryfit_status status = dryfit_path_begin(&file, unit->nanometres, unit->parts, &corner, append, text, error);
    if (status == DRYFIT_OK) {
        status = dryfit_panel_moves(box, DRYFIT_FACE_FRONT, dryfit_path_cut, &file, error);
    }
    if (status == DRYFIT_OK) {
        status = dryfit_path_close(&file, error);
    }
    return status == DRYFIT_OK ? dryfit_path_end(&file, error) : status;
}

/* Says what is wrong, as far as there is room. */
static int32_t refuse(int32_t status, const char *what, char *words, size_t cap)
{
    if (words != NULL && cap > 0) {
        snprintf(words, cap, "%s", what);
    }
    return status;
}

static int32_t refuse_error(const dryfit_error *error, char *words, size_t cap)
{
    char sentence[400];
    size_t needed;
    const dryfit_status status = dryfit_error_message(error, sentence, sizeof sentence, &needed);
    return refuse(error->status, status == DRYFIT_OK ? sentence : dryfit_status_text(error->status), words, cap);
}

static int32_t front(const plugin_request *request, char *path, size_t cap, size_t *needed, char *words, size_t words_cap)
{
    if (request == NULL || request->unit == NULL || needed == NULL || (path == NULL && cap > 0)) {
        return refuse(DRYFIT_NULL_POINTER, "the editor forgot to say what is asked, in which unit, or where the answer goes", words, words_cap);
    }
    const struct unit *unit = NULL;
    for (size_t i = 0; i < sizeof units / sizeof *units && unit == NULL; i++) {
        unit = strcmp(request->unit, units[i].name) == 0 ? &units[i] : NULL;
    }
    if (unit == NULL) {
        return refuse(DRYFIT_OUT_OF_RANGE, "the document's unit must be px, pt, pc, in, cm or mm", words, words_cap);
    }

    /* The library takes millimetres, and refuses what is no number and what is too far away. */
    const double millimetres = (double)unit->nanometres / (double)unit->parts / (double)DRYFIT_MM;
    dryfit_flat_box box = {.top = DRYFIT_TOP_CLOSED};
    const struct {
        const char *name;
        double given;
        dryfit_nm *length;
    } lengths[] = {
        {"width", request->width, &box.outside[0]},   {"depth", request->depth, &box.outside[1]}, {"height", request->height, &box.outside[2]},
        {"thickness", request->thickness, &box.thickness}, {"kerf", request->kerf, &box.kerf},
    };
    dryfit_error error;
    for (size_t i = 0; i < sizeof lengths / sizeof *lengths; i++) {
        if (dryfit_length_from_mm(lengths[i].given * millimetres, lengths[i].length, &error) != DRYFIT_OK) {
            snprintf(error.parameter, sizeof error.parameter, "%s", lengths[i].name);
            return refuse_error(&error, words, words_cap);
        }
    }

    struct text text = {NULL, 0};
    if (draw(&box, unit, &text, &error) != DRYFIT_OK) {
        return refuse_error(&error, words, words_cap);
    }
    *needed = text.length + 1;
    if (path == NULL) {
        return 0;
    }
    if (*needed > cap) {
        return refuse(DRYFIT_BUFFER_TOO_SMALL, "the editor's buffer is too small", words, words_cap);
    }
    text = (struct text){path, 0};
    draw(&box, unit, &text, &error);
    path[text.length] = '\0';
    return 0;
}

#if defined(__GNUC__)
__attribute__((visibility("default")))
#endif
extern const plugin_interface panel_plugin;
const plugin_interface panel_plugin = {PLUGIN_ABI, "Front of a box", front};
