// What dryfit.hpp promises of exceptions, callables and handles; a check that fails is said, and the status.
#include <dryfit.hpp>

#include <cstdio>

static int failed = 0;

#define CHECK(what)                                                         \
    do {                                                                    \
        if (!(what)) {                                                      \
            std::fprintf(stderr, "%s:%d: %s\n", __FILE__, __LINE__, #what); \
            failed++;                                                       \
        }                                                                   \
    } while (0)

template <class Exception, class Work> static bool throws(Work work)
{
    try {
        work();
    } catch (const Exception &) {
        return true;
    }
    return false;
}

// Neither copied nor moved by accident: a callable may hold what only moves.
struct Once {
    std::unique_ptr<int> kept = std::make_unique<int>(0);
    std::size_t *bytes;
    explicit Once(std::size_t *to) : bytes(to) {}
    void operator()(std::string_view text) { *bytes += text.size(); ++*kept; }
};

static dryfit_edge edge()
{
    dryfit_edge made{};
    made.run = 100 * DRYFIT_MM;
    made.thickness = made.depth = 3 * DRYFIT_MM;
    return made;
}

static void errors()
{
    dryfit_nm out = 7;
    dryfit::call(dryfit_length_parse, "3/32 in", &out);
    CHECK(out == 2381250);
    dryfit::call(dryfit_length_parse, std::string("1 mm and more").substr(0, 4), &out);
    CHECK(out == DRYFIT_MM);
    try {
        dryfit::call(dryfit_length_from_mm, 10001.0, &out);
        CHECK(false);
    } catch (const dryfit::Error &error) {
        CHECK(error.status() == DRYFIT_OUT_OF_RANGE);
        CHECK(std::string(error.what()) == "length: 10001 mm given, allowed -10000 mm to 10000 mm");
        CHECK(error.details().given == 10001 * DRYFIT_MM && error.details().given_unit == DRYFIT_UNIT_LENGTH);
    }
    CHECK(throws<std::runtime_error>([] { dryfit::call(dryfit_length_from_mm, 1.0, nullptr); }));
    CHECK(out == DRYFIT_MM);
}

static void buffers()
{
    dryfit_joint joint{};
    uint32_t first = 7;
    joint.count = 5;
    const std::vector<dryfit_nm> five = dryfit::all<dryfit_nm>(dryfit_pattern, &joint, 100 * DRYFIT_MM, 3 * DRYFIT_MM, &first);
    CHECK((five == std::vector<dryfit_nm>{20 * DRYFIT_MM, 40 * DRYFIT_MM, 60 * DRYFIT_MM, 80 * DRYFIT_MM}) && first == DRYFIT_SIDE_A);
    joint = dryfit_joint{};
    joint.kind = DRYFIT_JOINT_WHOLE;
    CHECK(dryfit::all<dryfit_nm>(dryfit_pattern, &joint, 100 * DRYFIT_MM, 3 * DRYFIT_MM, &first).empty());
}

static void callables()
{
    const dryfit_edge made = edge();
    const std::size_t vertices = dryfit::all<dryfit_vertex>(dryfit_edge_vertices, &made).size();
    std::size_t moves = 0;
    CHECK(dryfit::each_move([&](const dryfit_move &) { moves++; }, dryfit_edge_moves, &made));
    CHECK(moves == vertices - 1);
    moves = 0;
    CHECK(!dryfit::each_move([&](const dryfit_move &) { return ++moves < 3; }, dryfit_edge_moves, &made));
    CHECK(moves == 3);
    moves = 0;
    CHECK(throws<std::out_of_range>([&] {
        dryfit::each_move(
            [&](const dryfit_move &) {
                if (++moves == 2) {
                    throw std::out_of_range("enough");
                }
            },
            dryfit_edge_moves, &made);
    }));
    CHECK(moves == 2);
    const dryfit_edge none{};
    CHECK(throws<dryfit::Error>([&] { dryfit::each_move([](const dryfit_move &) {}, dryfit_edge_moves, &none); }));
}

template <class Format, class... Arguments> static std::size_t written(const Arguments &...arguments)
{
    std::size_t bytes = 0;
    auto file = dryfit::begin<Format>(Once(&bytes), arguments...);
    const dryfit_edge made = edge();
    file.cut(dryfit_edge_moves, &made);
    const std::size_t before = bytes;
    file.end();
    CHECK(bytes >= before && before > 0);
    CHECK(throws<dryfit::Error>([&] { file.end(); }));
    CHECK(throws<dryfit::Error>([&] { file.cut(dryfit_edge_moves, &made); }));
    return bytes;
}

/* A file says what it refused, not only that it did. */
static void refusals()
{
    std::size_t bytes = 0;
    auto file = dryfit::begin<dryfit::Path>(Once(&bytes), DRYFIT_MM, 1, nullptr);
    dryfit_edge far = edge();
    far.at.x = 9999 * DRYFIT_MM;
    try {
        file.cut(dryfit_edge_moves, &far);
        CHECK(false);
    } catch (const dryfit::Error &error) {
        CHECK(std::string(error.what()).find("x: 100") == 0 && error.details().most == 10000 * DRYFIT_MM);
    }
}

static void files()
{
    dryfit_machine machine{};
    machine.depth = 3 * DRYFIT_MM;
    CHECK(written<dryfit::Gcode>(&machine, "Edge") > 100);
    CHECK(written<dryfit::Hpgl>() > 100);
    CHECK(written<dryfit::Svg>(100 * DRYFIT_MM, 50 * DRYFIT_MM, "Edge", std::string_view()) > 100);
    CHECK(written<dryfit::Dxf>("Edge") > 100);
    CHECK(written<dryfit::Path>(DRYFIT_INCH, 96, nullptr) > 20);

    int left = 3;
    const auto full = [&](std::string_view) {
        if (left-- == 0) {
            throw std::length_error("the disk is full");
        }
    };
    CHECK(throws<std::length_error>([&] {
        auto file = dryfit::begin<dryfit::Gcode>(full, &machine, "Edge");
        CHECK(false);
        file.end();
    }));
}

#if defined(DRYFIT_HOST)
static void handles()
{
    auto boards = dryfit::make<dryfit::Assembly>(dryfit_assembly_new);
    dryfit_board board{};
    board.size[0] = board.size[1] = 100 * DRYFIT_MM;
    board.thickness = 3 * DRYFIT_MM;
    dryfit::call(dryfit_assembly_add, boards.get(), "shelf", &board);
    CHECK(throws<dryfit::Error>([&] { dryfit::call(dryfit_assembly_add, boards.get(), "shelf", &board); }));
    CHECK(dryfit::text(dryfit_assembly_name, boards.get(), 0u) == "shelf");
    // What would be ignored is refused.
    board.turn = 30 * DRYFIT_DEGREE;
    try {
        dryfit::call(dryfit_assembly_add, boards.get(), "another", &board);
        CHECK(false);
    } catch (const dryfit::Error &error) {
        CHECK(std::string(error.what()).find("turn: 30") == 0);
    }
    dryfit::Assembly moved = std::move(boards);
    CHECK(!boards && moved);
    // What is assigned over is freed: valgrind and the sanitizers look on.
    moved = dryfit::make<dryfit::Assembly>(dryfit_assembly_new);
    CHECK(throws<dryfit::Error>([&] { dryfit::make<dryfit::Report>(dryfit_assembly_dry_fit, moved.get()); }));
}
#endif

int main()
{
    CHECK(dryfit::fits_library());
    errors();
    buffers();
    callables();
    refusals();
    files();
#if defined(DRYFIT_HOST)
    handles();
#endif
    return failed == 0 ? 0 : 1;
}
