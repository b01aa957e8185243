/* What may be read by many threads is read by many threads; and files of each thread's own are written meanwhile. Run under a race detector. */
#include <dryfit.h>

#include <pthread.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

#define THREADS 4

static dryfit_assembly *boards;
static dryfit_parts *parts;
static dryfit_report *report;
static dryfit_layout *layout;

struct digest {
    uint64_t sum;
    int failed;
};

static int32_t add(void *user, const char *bytes, size_t length)
{
    struct digest *digest = user;
    for (size_t at = 0; at < length; at++) {
        digest->sum = digest->sum * 1099511628211u + (unsigned char)bytes[at];
    }
    return 0;
}

static void want(struct digest *digest, const char *what, dryfit_status status)
{
    if (status != DRYFIT_OK) {
        fprintf(stderr, "%s: %d\n", what, (int)status);
        digest->failed++;
    }
}

static void *reads(void *user)
{
    struct digest *digest = user;
    dryfit_vertex vertices[400];
    dryfit_step steps[20];
    dryfit_placement placements[20];
    dryfit_findings findings;
    dryfit_part part;
    dryfit_report *mine = NULL;
    dryfit_parts *again = NULL;
    dryfit_error error;
    dryfit_file file;
    size_t needed;
    const dryfit_cut cut = {.cutter = {.tool = DRYFIT_TOOL_BEAM, .width = DRYFIT_MM / 5}};
    const dryfit_motion motion = {.cutter = {.tool = DRYFIT_TOOL_BEAM, .width = DRYFIT_MM / 5}};
    const dryfit_edge edge = {.run = 100 * DRYFIT_MM, .thickness = 3 * DRYFIT_MM, .depth = 3 * DRYFIT_MM};

#if defined(RACE)
    /* What the contract forbids: the detector must see it. */
    const dryfit_board board = {.at = {DRYFIT_INCH * 10, 0, 0}, .size = {DRYFIT_INCH, DRYFIT_INCH}, .thickness = DRYFIT_MM};
    dryfit_assembly_add(boards, "shelf", 5, &board, NULL);
    return NULL;
#endif
    want(digest, "order", dryfit_assembly_order(boards, steps, 20, &needed, &error));
    want(digest, "cut", dryfit_parts_cut(boards, &cut, &again, &error));
    want(digest, "part", dryfit_parts_part(parts, 0, &part, &error));
    want(digest, "vertices", dryfit_parts_vertices(parts, 0, DRYFIT_OUTLINE_PATH, 0, vertices, 400, &needed, &error));
    add(digest, (const char *)&vertices[0].at, sizeof vertices[0].at);
    want(digest, "svg", dryfit_parts_svg(parts, 1, DRYFIT_OUTLINE_FINISHED, add, digest, &error));
    want(digest, "dry fit", dryfit_parts_dry_fit(again, &mine, &error));
    want(digest, "findings", dryfit_report_findings(report, &findings, &error));
    want(digest, "placements", dryfit_layout_placements(layout, 0, placements, 20, &needed, &error));
    want(digest, "gcode", dryfit_layout_gcode(layout, 0, &motion, "Box", 3, add, digest, &error));
    want(digest, "begin", dryfit_path_begin(&file, DRYFIT_MM, 1, NULL, add, digest, &error));
    want(digest, "moves", dryfit_edge_moves(&edge, dryfit_path_cut, &file, &error));
    want(digest, "end", dryfit_path_end(&file, &error));
    dryfit_report_free(&mine);
    dryfit_parts_free(&again);
    return NULL;
}

int main(void)
{
    const dryfit_box spec = {.size = {110 * DRYFIT_MM, 85 * DRYFIT_MM, 60 * DRYFIT_MM}, .thickness = 3 * DRYFIT_MM};
    const dryfit_cut cut = {.cutter = {.tool = DRYFIT_TOOL_BEAM, .width = DRYFIT_MM / 5}};
    const dryfit_stock sheet = {.thickness = 3 * DRYFIT_MM, .width = 500 * DRYFIT_MM, .height = 350 * DRYFIT_MM};
    struct digest digests[THREADS];
    pthread_t threads[THREADS];
    int failed = 0;

    memset(digests, 0, sizeof digests);
    if (dryfit_assembly_of_box(&spec, &boards, NULL) != DRYFIT_OK || dryfit_parts_cut(boards, &cut, &parts, NULL) != DRYFIT_OK ||
        dryfit_parts_dry_fit(parts, &report, NULL) != DRYFIT_OK || dryfit_layout_new(parts, &sheet, 1, NULL, NULL, NULL, &layout, NULL) != DRYFIT_OK) {
        return 2;
    }
    for (int at = 0; at < THREADS; at++) {
        if (pthread_create(&threads[at], NULL, reads, &digests[at]) != 0) {
            return 2;
        }
    }
    for (int at = 0; at < THREADS; at++) {
        pthread_join(threads[at], NULL);
        failed += digests[at].failed + (digests[at].sum != digests[0].sum);
    }
    dryfit_layout_free(&layout);
    dryfit_report_free(&report);
    dryfit_parts_free(&parts);
    dryfit_assembly_free(&boards);
    printf("%d\n", failed);
    return failed;
}
