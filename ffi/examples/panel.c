/* The front of a box of 110 x 85 x 60 mm in board of 3 mm, as an SVG file on standard output:
 *     cc panel.c $(pkg-config --cflags --libs dryfit) -o panel && ./panel > front.svg */
#include <dryfit.h>

#include <stdio.h>

static int32_t to_file(void *user, const char *bytes, size_t length)
{
    return fwrite(bytes, 1, length, user) == length ? 0 : -1;
}

int main(void)
{
    const dryfit_flat_box box = {
        .outside = {110 * DRYFIT_MM, 85 * DRYFIT_MM, 60 * DRYFIT_MM}, .thickness = 3 * DRYFIT_MM, .kerf = DRYFIT_MM / 5, .at = {5 * DRYFIT_MM, 5 * DRYFIT_MM}};
    dryfit_file file;
    dryfit_error error;

    if (dryfit_svg_begin(&file, 120 * DRYFIT_MM, 70 * DRYFIT_MM, "Front", 5, NULL, 0, to_file, stdout, &error) != DRYFIT_OK ||
        dryfit_svg_line(&file, DRYFIT_LINE_CUT_OUTER, 1, &error) != DRYFIT_OK ||
        dryfit_panel_moves(&box, DRYFIT_FACE_FRONT, dryfit_svg_cut, &file, &error) != DRYFIT_OK || dryfit_svg_end(&file, &error) != DRYFIT_OK) {
        char words[300];
        size_t needed;
        dryfit_error_message(&error, words, sizeof words, &needed);
        fprintf(stderr, "%s\n", words);
        return 1;
    }
    return 0;
}
