/* One edge of a board with fingers, in C: by the installed library into a buffer, and by GEOS through its own C functions, in the same run.
 *
 * GEOS gets the board and the notches for nothing, as geometries that are there; it has to cut and to hand over the coordinates. Times are the best of many
 * rounds, in seconds, as JSON. */
#define _POSIX_C_SOURCE 199309L
#include <dryfit.h>
#include <geos_c.h>
#include <stdio.h>
#include <stdlib.h>
#include <time.h>

enum { MOST = 10000 };

static dryfit_vertex vertices[2 * MOST + 8];
static double xs[2 * MOST + 8], ys[2 * MOST + 8];
static volatile int64_t sum;

static double now(void) {
    struct timespec time;
    clock_gettime(CLOCK_MONOTONIC, &time);
    return (double)time.tv_sec + (double)time.tv_nsec * 1e-9;
}

/* The shortest of all rounds in about a second; short work is timed many times over in one round. */
static double best(void (*work)(void *), void *with) {
    double start = now();
    work(with);
    double once = now() - start, shortest = 1e9;
    int repeat = once > 2e-3 ? 1 : (int)(2e-3 / (once > 1e-9 ? once : 1e-9)) + 1;
    for (double end = now() + 1.0; now() < end;) {
        start = now();
        for (int i = 0; i < repeat; i++) work(with);
        double each = (now() - start) / repeat;
        if (each < shortest) shortest = each;
    }
    return shortest;
}

static void ours(void *with) {
    size_t needed = 0;
    dryfit_status status = dryfit_edge_vertices(with, vertices, sizeof vertices / sizeof *vertices, &needed, NULL);
    if (status != DRYFIT_OK) exit(2);
    sum += vertices[needed - 1].at.x;
}

static int32_t count(void *user, const dryfit_move *move) {
    *(int64_t *)user += move->to.x;
    return 0;
}

static void handed_over(void *with) {
    int64_t all = 0;
    if (dryfit_edge_moves(with, count, &all, NULL) != DRYFIT_OK) exit(2);
    sum += all;
}

/* What costs nothing but the call: a number that is asked for. */
static void call(void *with) {
    (void)with;
    sum += dryfit_abi_version();
}

struct cut {
    GEOSContextHandle_t geos;
    GEOSGeometry *board, *notches;
    unsigned count;
};

static void theirs(void *with) {
    struct cut *cut = with;
    GEOSGeometry *part = GEOSDifference_r(cut->geos, cut->board, cut->notches);
    const GEOSGeometry *ring = GEOSGetExteriorRing_r(cut->geos, part);
    const GEOSCoordSequence *points = GEOSGeom_getCoordSeq_r(cut->geos, ring);
    unsigned size = 0;
    GEOSCoordSeq_getSize_r(cut->geos, points, &size);
    if (size > sizeof xs / sizeof *xs || size < cut->count) exit(3);
    GEOSCoordSeq_copyToArrays_r(cut->geos, points, xs, ys, NULL, NULL);
    sum += (int64_t)xs[size / 2];
    GEOSGeom_destroy_r(cut->geos, part);
}

static GEOSGeometry *rectangle(GEOSContextHandle_t geos, double x0, double y0, double x1, double y1) {
    double corners[] = {x0, y0, x1, y0, x1, y1, x0, y1, x0, y0};
    GEOSGeometry *ring = GEOSGeom_createLinearRing_r(geos, GEOSCoordSeq_copyFromBuffer_r(geos, corners, 5, 0, 0));
    return GEOSGeom_createPolygon_r(geos, ring, NULL, 0);
}

int main(void) {
    GEOSContextHandle_t geos = GEOS_init_r();
    printf("{\"geos\": \"%s\", \"call\": %.4g, \"edges\": {", GEOSversion(), best(call, NULL));
    for (unsigned fingers = 10; fingers <= MOST; fingers *= 10) {
        dryfit_edge edge = {.joint = {.count = fingers, .least = 1}, .run = 1000 * DRYFIT_MM, .thickness = 3 * DRYFIT_MM, .depth = 3 * DRYFIT_MM};
        double pitch = 1000.0 / fingers;
        GEOSGeometry **notches = malloc(sizeof *notches * (fingers / 2));
        for (unsigned i = 0; i < fingers / 2; i++) notches[i] = rectangle(geos, (2 * i + 1) * pitch, 0, (2 * i + 2) * pitch, 3);
        struct cut cut = {geos, rectangle(geos, 0, 0, 1000, 100), NULL, 2 * fingers};
        cut.notches = GEOSGeom_createCollection_r(geos, GEOS_MULTIPOLYGON, notches, fingers / 2);
        printf("%s\"%u\": {\"buffer\": %.4g, \"callback\": %.4g, \"geos\": %.4g}", fingers > 10 ? ", " : "", fingers, best(ours, &edge),
               best(handed_over, &edge), best(theirs, &cut));
        GEOSGeom_destroy_r(geos, cut.board);
        GEOSGeom_destroy_r(geos, cut.notches);
        free(notches);
    }
    printf("}}\n");
    GEOS_finish_r(geos);
    return 0;
}
