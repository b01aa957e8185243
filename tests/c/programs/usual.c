/* 0 is the usual value, the same one everywhere. */
#include "samples.h"

enum { MOVES = 4000 };
struct way {
    dryfit_move moves[MOVES];
    size_t count;
};

static int32_t keep(void *user, const dryfit_move *move)
{
    struct way *way = user;
    return way->count < MOVES ? (way->moves[way->count++] = *move, 0) : -1;
}

static int same(const struct way *one, const struct way *other)
{
    return one->count == other->count && memcmp(one->moves, other->moves, one->count * sizeof *one->moves) == 0;
}

/* A box about which no more is said than its sizes is the same box in both layers: a closed one. */
static void a_box_is_closed(void)
{
    const dryfit_flat_box flat = {.outside = {110 * DRYFIT_MM, 85 * DRYFIT_MM, 60 * DRYFIT_MM}, .thickness = 3 * DRYFIT_MM};
    dryfit_assembly *boards = NULL;
    dryfit_parts *parts = NULL;
    size_t count = 0;
    const dryfit_cut cut = {.web = 0};
    CHECK(dryfit_assembly_of_box(&sample_box, &boards, NULL) == DRYFIT_OK && dryfit_parts_cut(boards, &cut, &parts, NULL) == DRYFIT_OK);
    CHECK(dryfit_parts_count(parts, &count, NULL) == DRYFIT_OK && count == DRYFIT_FACE_COUNT);
    for (uint32_t face = 0; face < DRYFIT_FACE_COUNT; face++) {
        dryfit_vertex bare[500], host[500];
        size_t number = 0, vertices = 0, others = 0;
        const char *const name = dryfit_face_name(face);
        CHECK(dryfit_panel_vertices(&flat, face, bare, 500, &vertices, NULL) == DRYFIT_OK && vertices > 20);
        CHECK(dryfit_parts_find(parts, name, strlen(name), &number, NULL) == DRYFIT_OK);
        CHECK(dryfit_parts_vertices(parts, number, DRYFIT_OUTLINE_PATH, 0, host, 500, &others, NULL) == DRYFIT_OK && others == vertices);
        for (size_t i = 0; i < vertices; i++) {
            CHECK(bare[i].at.x == host[i].at.x && bare[i].at.y == host[i].at.y && bare[i].role == host[i].role);
        }
    }
    CHECK(dryfit_parts_free(&parts) == DRYFIT_OK && dryfit_assembly_free(&boards) == DRYFIT_OK);

    dryfit_flat_box open = flat;
    dryfit_error error;
    size_t needed = 0;
    open.top = DRYFIT_TOP_OPEN;
    CHECK_REFUSED(dryfit_panel_vertices(&open, DRYFIT_FACE_TOP, NULL, 0, &needed, &error), DRYFIT_NO_SUCH_BOARD, "top");
    open.top = 2;
    CHECK_REFUSED(dryfit_panel_vertices(&open, DRYFIT_FACE_FRONT, NULL, 0, &needed, &error), DRYFIT_OUT_OF_RANGE, "top");
}

static void drag(dryfit_knife knife, struct way *way)
{
    way->count = 0;
    CHECK(dryfit_panel_drag(&sample_flat_box, DRYFIT_FACE_BASE, &knife, NULL, keep, way, NULL) == DRYFIT_OK && way->count > 50);
}

static void a_knife_has_usual_numbers(void)
{
    static struct way usual, said, never, turning;
    drag((dryfit_knife){.trail = 250000}, &usual);
    drag((dryfit_knife){.trail = 250000, .swivel_above = 10 * DRYFIT_DEGREE, .overcut = DRYFIT_MM / 2}, &said);
    CHECK(same(&usual, &said));
    drag((dryfit_knife){.trail = 250000, .overcut = DRYFIT_NONE}, &never);
    CHECK(!same(&usual, &never));
    /* Without overcut the axis ends below the corner; with it, it turns there, so that it stands before the tip, and goes on. */
    CHECK(usual.moves[usual.count - 1].to.x - never.moves[never.count - 1].to.x == 250000 + DRYFIT_MM / 2);

    /* A corner of one degree is turned in passing, unless every corner is to be turned at. */
    static const dryfit_move bent[] = {{.to = {100 * DRYFIT_MM, 0}}, {.from = {100 * DRYFIT_MM, 0}, .to = {200 * DRYFIT_MM, 2 * DRYFIT_MM}}};
    for (int none = 0; none < 2; none++) {
        const dryfit_knife knife = {.trail = 250000, .swivel_above = none ? DRYFIT_NONE : 0};
        size_t swivels = 0;
        turning.count = 0;
        CHECK(dryfit_moves_drag(bent, 2, 0, &knife, NULL, keep, &turning, NULL) == DRYFIT_OK);
        for (size_t i = 0; i < turning.count; i++) {
            swivels += turning.moves[i].swivel;
        }
        CHECK(swivels == (size_t)none);
    }
    dryfit_error error;
    const dryfit_knife wrong = {.trail = 250000, .swivel_above = -2};
    CHECK_REFUSED(dryfit_moves_drag(bent, 2, 0, &wrong, NULL, keep, &turning, &error), DRYFIT_OUT_OF_RANGE, "swivel above");
    CHECK(error.given == -2);
}

struct text {
    char bytes[60000];
    size_t length;
};

static int32_t gather(void *user, const char *bytes, size_t length)
{
    struct text *text = user;
    if (length > sizeof text->bytes - text->length) {
        return -1;
    }
    memcpy(text->bytes + text->length, bytes, length);
    text->length += length;
    return 0;
}

/* A sheet is cut with the tool for which its parts were made, unless another one is named. */
static void the_tool_is_that_of_the_parts(void)
{
    static struct text usual, said;
    const dryfit_motion none = {.power = 0};
    dryfit_motion beam = none;
    beam.cutter = sample_cut.cutter;
    CHECK(dryfit_layout_gcode(good_layout(), 0, &none, "x", 1, gather, &usual, NULL) == DRYFIT_OK);
    CHECK(dryfit_layout_gcode(good_layout(), 0, &beam, "x", 1, gather, &said, NULL) == DRYFIT_OK);
    CHECK(usual.length > 1000 && usual.length == said.length && memcmp(usual.bytes, said.bytes, said.length) == 0);

    /* Of several it has to be named. */
    const dryfit_cut blade = {.cutter = {.tool = DRYFIT_TOOL_BLADE, .trail = 250000}};
    dryfit_parts *others = NULL, *both = NULL;
    dryfit_layout *layout = NULL;
    dryfit_error error;
    CHECK(dryfit_parts_cut(good_assembly(), &blade, &others, NULL) == DRYFIT_OK && dryfit_parts_join(good_parts(), others, &both, NULL) == DRYFIT_OK);
    CHECK(dryfit_layout_new(both, &sample_stock, 1, NULL, NULL, NULL, &layout, NULL) == DRYFIT_OK);
    CHECK_REFUSED(dryfit_layout_gcode(layout, 0, &none, "x", 1, gather, &usual, &error), DRYFIT_MISSING_KEY, "cutter");
    said.length = 0;
    CHECK(dryfit_layout_gcode(layout, 0, &beam, "x", 1, gather, &said, &error) == DRYFIT_OK);
    CHECK(dryfit_layout_free(&layout) == DRYFIT_OK && dryfit_parts_free(&both) == DRYFIT_OK && dryfit_parts_free(&others) == DRYFIT_OK);
    let_go();
}

int main(void)
{
    a_box_is_closed();
    a_knife_has_usual_numbers();
    the_tool_is_that_of_the_parts();
    return checked();
}
