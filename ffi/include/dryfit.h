/* Dryfit: exact joinery arithmetic for flat-pack boxes in sheet board, and the proof that they fit.
 *
 * The contract that all functions share (pointers, results, errors, callbacks, threads, versions) is ffi/README.md. In short: lengths are whole
 * nanometres; a call returns 0 or a status, and fills in the caller's dryfit_error where one is given; results go into the caller's memory,
 * and with less room than *needed nothing else is written; NULL is a status, never a crash.
 *
 * The bare layer needs no heap and no operating system. Define DRYFIT_HOST before the header for the host layer: assemblies, parts, proofs,
 * layouts and files behind opaque handles. */

#ifndef DRYFIT_H
#define DRYFIT_H

/* Made by cbindgen from ffi/src. Do not edit: DRYFIT_WRITE=1 cargo test -p dryfit-ffi writes it anew. */

#include <stddef.h>
#include <stdint.h>

#if defined(_WIN32) && defined(DRYFIT_SHARED)
#  define DRYFIT_API __declspec(dllimport)
#elif defined(__GNUC__)
#  define DRYFIT_API __attribute__((visibility("default")))
#else
#  define DRYFIT_API
#endif

/** The version of this header, as dryfit_version tells that of the library. */
#define DRYFIT_VERSION "0.1.0"

/** One millimetre, as wide as a length, so that its multiples are lengths too. */
#define DRYFIT_MM INT64_C(1000000)

/** One inch. */
#define DRYFIT_INCH INT64_C(25400000)

/** One degree: angles are millionths of one. */
#define DRYFIT_DEGREE INT64_C(1000000)


/**
 * So many bytes hold the name of any parameter, and the zero at its end.
 */
#define DRYFIT_PARAMETER_SIZE 48

/**
 * So many bytes hold where it happened, shortened if need be, and the zero at its end.
 */
#define DRYFIT_PLACE_SIZE 144

/**
 * There is no number to show.
 */
#define DRYFIT_UNIT_NONE 0

/**
 * Nanometres.
 */
#define DRYFIT_UNIT_LENGTH 1

/**
 * A count.
 */
#define DRYFIT_UNIT_COUNT 2

/**
 * Millionths of a degree.
 */
#define DRYFIT_UNIT_ANGLE 3

/**
 * Nanometres a second.
 */
#define DRYFIT_UNIT_SPEED 4

/**
 * Nanometres a second squared.
 */
#define DRYFIT_UNIT_ACCELERATION 5

/**
 * Millionths of a second.
 */
#define DRYFIT_UNIT_SECONDS 6

/**
 * Millionths of a minute.
 */
#define DRYFIT_UNIT_MINUTES 7

/**
 * Millionths of what has no unit.
 */
#define DRYFIT_UNIT_NUMBER 8

/**
 * The wall at the lowest y.
 */
#define DRYFIT_FACE_FRONT 0

/**
 * The wall at the highest y.
 */
#define DRYFIT_FACE_BACK 1

/**
 * The wall at the lowest x.
 */
#define DRYFIT_FACE_LEFT 2

/**
 * The wall at the highest x.
 */
#define DRYFIT_FACE_RIGHT 3

/**
 * The board at the lowest z.
 */
#define DRYFIT_FACE_BASE 4

/**
 * The board at the highest z, of a closed box.
 */
#define DRYFIT_FACE_TOP 5

/**
 * So many faces there are.
 */
#define DRYFIT_FACE_COUNT 6

/**
 * A top like the base, joined to all four walls.
 */
#define DRYFIT_TOP_CLOSED 0

/**
 * No top.
 */
#define DRYFIT_TOP_OPEN 1

/**
 * A blade: it goes down into the board.
 */
#define DRYFIT_TOOL_BLADE 0

/**
 * A beam: it is turned on and off.
 */
#define DRYFIT_TOOL_BEAM 1

/**
 * A rotating bit: it goes down into the board.
 */
#define DRYFIT_TOOL_BIT 2

/**
 * Alternate spans of equal width: a finger joint. By `count`, else about `width` wide.
 */
#define DRYFIT_JOINT_FINGERS 0

/**
 * Tabs of one board through slots of the other: `width` and `spacing`, perhaps `end`.
 */
#define DRYFIT_JOINT_TABS 1

/**
 * One part of the run to each board, at `numerator` / `denominator` of it: a halving.
 */
#define DRYFIT_JOINT_HALVES 2

/**
 * Spans whose flanks lean, for two boards of one plane: `count` tails, a slope of `numerator` : `denominator`, perhaps pins of `width`.
 */
#define DRYFIT_JOINT_TAILS 3

/**
 * The whole run to one board: it passes through a closed slot of the other.
 */
#define DRYFIT_JOINT_WHOLE 4

/**
 * Fingers of a board's edge in the face of another, which keeps both ends: three spans at least.
 */
#define DRYFIT_JOINT_THROUGH_FACE 5

/**
 * The first side of a joint.
 */
#define DRYFIT_SIDE_A 0

/**
 * The second side of a joint.
 */
#define DRYFIT_SIDE_B 1

/**
 * An odd number of fingers.
 */
#define DRYFIT_PARITY_ODD 0

/**
 * An even number of fingers.
 */
#define DRYFIT_PARITY_EVEN 1

/**
 * Any number of fingers.
 */
#define DRYFIT_PARITY_ANY 2

/**
 * A row of tails begins and ends with half a pin.
 */
#define DRYFIT_ENDS_HALF_PINS 0

/**
 * A row of tails begins and ends with half a tail.
 */
#define DRYFIT_ENDS_HALF_TAILS 1

/**
 * None of it, in a field where 0 is the usual value.
 */
#define DRYFIT_NONE -1

/**
 * The edge touches a cut edge of another board.
 */
#define DRYFIT_ROLE_FLANK 0

/**
 * The edge touches a face of another board.
 */
#define DRYFIT_ROLE_CHEEK 1

/**
 * The end of a finger, flush with the other board's face.
 */
#define DRYFIT_ROLE_TIP 2

/**
 * The edge touches nothing.
 */
#define DRYFIT_ROLE_FREE 3

/**
 * A straight move.
 */
#define DRYFIT_STRAIGHT 0

/**
 * An arc about `centre`, clockwise.
 */
#define DRYFIT_CLOCKWISE 1

/**
 * An arc about `centre`, counter-clockwise.
 */
#define DRYFIT_COUNTERCLOCKWISE 2

/**
 * A mark: a name on a part, not to be cut.
 */
#define DRYFIT_LINE_MARK 0

/**
 * An inner cut: a hole.
 */
#define DRYFIT_LINE_CUT_INNER 1

/**
 * One cut for two parts.
 */
#define DRYFIT_LINE_CUT_SHARED 2

/**
 * An outline.
 */
#define DRYFIT_LINE_CUT_OUTER 3

/**
 * Waste.
 */
#define DRYFIT_LINE_TRIM 4

#if defined(DRYFIT_HOST)
/**
 * The x axis.
 */
#define DRYFIT_AXIS_X 0
#endif

#if defined(DRYFIT_HOST)
/**
 * The y axis.
 */
#define DRYFIT_AXIS_Y 1
#endif

#if defined(DRYFIT_HOST)
/**
 * The z axis.
 */
#define DRYFIT_AXIS_Z 2
#endif

#if defined(DRYFIT_HOST)
/**
 * A round hole: `width` is its diameter.
 */
#define DRYFIT_OPENING_ROUND 0
#endif

#if defined(DRYFIT_HOST)
/**
 * A slot with round ends.
 */
#define DRYFIT_OPENING_STADIUM 1
#endif

#if defined(DRYFIT_HOST)
/**
 * A rectangle.
 */
#define DRYFIT_OPENING_RECTANGLE 2
#endif

#if defined(DRYFIT_HOST)
/**
 * A lid that lies on the rim.
 */
#define DRYFIT_TOP_LIFT_OFF 2
#endif

#if defined(DRYFIT_HOST)
/**
 * A lid that slides in grooves.
 */
#define DRYFIT_TOP_SLIDING 3
#endif

#if defined(DRYFIT_HOST)
/**
 * A dog-bone: a round relief along the diagonal of the corner.
 */
#define DRYFIT_REACH_DIAGONAL 0
#endif

#if defined(DRYFIT_HOST)
/**
 * A relief into the flank.
 */
#define DRYFIT_REACH_FLANK 1
#endif

#if defined(DRYFIT_HOST)
/**
 * A relief into the cheek.
 */
#define DRYFIT_REACH_CHEEK 2
#endif

#if defined(DRYFIT_HOST)
/**
 * What is asked of a part: the line that the cutter's centre follows.
 */
#define DRYFIT_OUTLINE_PATH 0
#endif

#if defined(DRYFIT_HOST)
/**
 * What is asked of a part: the outline that is left of the board, half the width of the cut inside the path.
 */
#define DRYFIT_OUTLINE_FINISHED 1
#endif

#if defined(DRYFIT_HOST)
/**
 * No grain, or none that matters.
 */
#define DRYFIT_GRAIN_ANY 0
#endif

#if defined(DRYFIT_HOST)
/**
 * The grain runs along x.
 */
#define DRYFIT_GRAIN_X 1
#endif

#if defined(DRYFIT_HOST)
/**
 * The grain runs along y.
 */
#define DRYFIT_GRAIN_Y 2
#endif

/**
 * The first number of the version: it rises where something that worked may not work any more.
 */
#define DRYFIT_VERSION_MAJOR 0

/**
 * The second number of the version: it rises with what is new.
 */
#define DRYFIT_VERSION_MINOR 1

/**
 * The third number of the version: it rises with what is mended.
 */
#define DRYFIT_VERSION_PATCH 0

/**
 * What `dryfit_abi_version` returned when this header was made.
 */
#define DRYFIT_ABI_VERSION 1

#if defined(DRYFIT_HOST)
/**
 * Boards and their joints, in the making. To read it, any number of threads may use one at a time; to change or free it, one thread.
 */
typedef struct dryfit_assembly dryfit_assembly;
#endif

#if defined(DRYFIT_HOST)
/**
 * Parts on as many sheets as they need. It never changes: any number of threads may read it.
 */
typedef struct dryfit_layout dryfit_layout;
#endif

#if defined(DRYFIT_HOST)
/**
 * The parts of one or several pieces. They never change: any number of threads may read them.
 */
typedef struct dryfit_parts dryfit_parts;
#endif

#if defined(DRYFIT_HOST)
/**
 * What a dry fit or the proof of a layout found. It never changes: any number of threads may read it.
 */
typedef struct dryfit_report dryfit_report;
#endif

/**
 * 0 where all went well, else a number of the error table; or what a callback returned that stopped the work.
 */
typedef int32_t dryfit_status;

/**
 * A file in the making: memory of the caller, without heap. What stands in it is the library's own, and nobody else's to read.
 *
 * `..._begin` makes one of it, whatever it held before; `..._end` ends the file. A function that gets one of another format, one that was ended, one that was
 * never begun but is all zeros, one whose `write` has failed, or one that is in use (a callback of its own) returns 812. (`..._begin` alone cannot tell a file in
 * use from memory that holds anything: never begin a file anew in a callback of its own.) It may be moved in memory between two calls. There is nothing to free:
 * a file that is not ended is just incomplete.
 */
typedef struct dryfit_file {
    /**
     * The library's own.
     */
    uint64_t state[40];
} dryfit_file;

/**
 * A length: a whole number of nanometres, from -10,000,000,000 to 10,000,000,000 (10 m) unless a narrower range is stated.
 */
typedef int64_t dryfit_nm;

/**
 * A point: x to the right, y up.
 */
typedef struct dryfit_point {
    /**
     * To the right.
     */
    dryfit_nm x;
    /**
     * Up.
     */
    dryfit_nm y;
} dryfit_point;

/**
 * Takes bytes of a file, in order. It returns 0 to go on; any other number stops the work, and is what the call returns then.
 *
 * `bytes` has no zero at its end and may be used during the call only. A callback may call any function, but not with the same `dryfit_file`: that is refused.
 */
typedef int32_t (*dryfit_write)(void *user, const char *bytes, size_t length);

/**
 * A refusal: which parameter, what was given, what is allowed, and where. It belongs to the caller; nothing in it points anywhere.
 *
 * A call that goes well sets `status` to 0 and leaves the rest. `dryfit_error_message` makes a sentence of it.
 */
typedef struct dryfit_error {
    /**
     * What the call returned.
     */
    dryfit_status status;
    /**
     * The unit of `given`, one of `DRYFIT_UNIT_...`.
     */
    uint32_t given_unit;
    /**
     * The unit of `least` and `most`.
     */
    uint32_t range_unit;
    /**
     * What was given.
     */
    int64_t given;
    /**
     * The smallest allowed value.
     */
    int64_t least;
    /**
     * The largest allowed value.
     */
    int64_t most;
    /**
     * The name of the parameter, ended by a zero.
     */
    char parameter[DRYFIT_PARAMETER_SIZE];
    /**
     * Where it happened, e.g. `panel "front" near (12.5, 0) mm`, ended by a zero; empty where nothing more is known. UTF-8.
     */
    char place[DRYFIT_PLACE_SIZE];
} dryfit_error;

/**
 * A move of the cutter, straight or along an arc of less than a full circle.
 */
typedef struct dryfit_move {
    /**
     * Where it begins.
     */
    struct dryfit_point from;
    /**
     * Where it ends.
     */
    struct dryfit_point to;
    /**
     * Of an arc: its centre, as far from both ends (to a micrometre). Else 0, 0.
     */
    struct dryfit_point centre;
    /**
     * `DRYFIT_STRAIGHT`, `DRYFIT_CLOCKWISE` or `DRYFIT_COUNTERCLOCKWISE`.
     */
    uint32_t bend;
    /**
     * 1 where a blade is turned about its tip, which stays where it is; else 0.
     */
    uint32_t swivel;
} dryfit_move;

/**
 * What is asked of a joint. 0 is the usual value of every field; a field that the kind has no use for must be 0.
 *
 * `{ .kind = DRYFIT_JOINT_FINGERS, .count = 9 }` and `{ .width = 12 * DRYFIT_MM }` are whole joints.
 */
typedef struct dryfit_joint {
    /**
     * One of `DRYFIT_JOINT_...`.
     */
    uint32_t kind;
    /**
     * Fingers and gaps together, or whole tails.
     */
    uint32_t count;
    /**
     * Fingers by width: one of `DRYFIT_PARITY_...`.
     */
    uint32_t parity;
    /**
     * One of `DRYFIT_SIDE_...`: who owns the first span; of tabs and tails, whose they are; of a whole run, whose it is.
     */
    uint32_t first;
    /**
     * Halves: where the run is split, 1/2 if both are 0. Tails: rise over run of the slope, 1:8 if both are 0.
     */
    uint32_t numerator;
    /**
     * See `numerator`.
     */
    uint32_t denominator;
    /**
     * Tails: one of `DRYFIT_ENDS_...`.
     */
    uint32_t ends;
    /**
     * Fingers: about how wide, three times the thicker board if 0. Tabs: how wide, exactly. Tails: how wide a pin is at mid-depth, as wide as a tail if 0.
     */
    dryfit_nm width;
    /**
     * Tabs: from one tab to the next.
     */
    dryfit_nm spacing;
    /**
     * Tabs: least distance from an end of the run, half the spacing if 0.
     */
    dryfit_nm end;
    /**
     * Fingers: how narrow they may get, as the thicker board is thick if 0.
     */
    dryfit_nm least;
} dryfit_joint;

/**
 * Allowances: the full gap between two mates; negative is interference. Each from -10 mm to 10 mm.
 */
typedef struct dryfit_fit {
    /**
     * Cut edge against cut edge.
     */
    dryfit_nm flank;
    /**
     * Cut edge against a sheet's face: a slot is as wide as its board is thick, and this.
     */
    dryfit_nm cheek;
    /**
     * How far a finger's end stands proud (positive) or back (negative).
     */
    dryfit_nm tip;
} dryfit_fit;

/**
 * One side of a joint in the plane of its board, as the line that the cutter's centre follows.
 *
 * The run goes from `at` along x; the board lies at +y, so this is the bottom edge of a counter-clockwise outline. The side's own spans end at y = 0,
 * the mate's are notches of `depth`. The two ends of the run stay where they are.
 */
typedef struct dryfit_edge {
    /**
     * How the run is shared out.
     */
    struct dryfit_joint joint;
    /**
     * The length along which the boards meet.
     */
    dryfit_nm run;
    /**
     * Of the thicker board; of tails, how deep the boards reach into each other.
     */
    dryfit_nm thickness;
    /**
     * The mate's thickness.
     */
    dryfit_nm depth;
    /**
     * Allowances.
     */
    struct dryfit_fit fit;
    /**
     * The full width of the cut: 0 to 20 mm.
     */
    dryfit_nm kerf;
    /**
     * Where the run begins.
     */
    struct dryfit_point at;
    /**
     * One of `DRYFIT_SIDE_...`.
     */
    uint32_t side;
} dryfit_edge;

/**
 * A vertex of an outline, and the role of the edge that leaves it, one of `DRYFIT_ROLE_...`.
 */
typedef struct dryfit_vertex {
    /**
     * Where.
     */
    struct dryfit_point at;
    /**
     * What the edge that leaves it touches.
     */
    uint32_t role;
} dryfit_vertex;

/**
 * Takes a move. It returns 0 to go on; any other number stops the work, and is what the call returns then.
 *
 * `move` may be used during the call only. The library holds nothing meanwhile: a callback may call any function, but not with the same `dryfit_file`
 * or changing arguments of the call it serves.
 */
typedef int32_t (*dryfit_each_move)(void *user, const struct dryfit_move *move);

/**
 * A blade whose tip lags behind its axis, as a castor does. 0 is the usual value of every field but `trail`, `DRYFIT_NONE` none of it.
 */
typedef struct dryfit_knife {
    /**
     * How far: 0 to 20 mm.
     */
    dryfit_nm trail;
    /**
     * At corners that turn by more than this the blade is turned about its tip: millionths of a degree, up to 90 degrees; usually `10 * DRYFIT_DEGREE`,
     * `DRYFIT_NONE` at every corner.
     */
    int64_t swivel_above;
    /**
     * How far the tip goes on beyond the point where a closed line began: up to 20 mm; usually 0.5 mm.
     */
    dryfit_nm overcut;
} dryfit_knife;

/**
 * The moves along fingers, one at a time: memory of the caller, without heap. What stands in it is the library's own, and nobody else's to read.
 *
 * `dryfit_fingers_begin` makes it of whatever it held before. It may be moved in memory between two calls, and there is nothing to free.
 */
typedef struct dryfit_fingers {
    /**
     * The library's own.
     */
    uint64_t state[32];
} dryfit_fingers;

/**
 * A box of one board with finger joints: six panels, or five without the top. Panels are the lines that the cutter's centre follows. 0 is the usual value of
 * every field but sizes and thickness.
 */
typedef struct dryfit_flat_box {
    /**
     * Outside sizes along x, y and z.
     */
    dryfit_nm outside[3];
    /**
     * Of the board.
     */
    dryfit_nm thickness;
    /**
     * The fingers of every run; the kind is `DRYFIT_JOINT_FINGERS`.
     */
    struct dryfit_joint fingers;
    /**
     * Allowances.
     */
    struct dryfit_fit fit;
    /**
     * The full width of the cut: 0 to 20 mm.
     */
    dryfit_nm kerf;
    /**
     * Where the lowest corner of the panel's slab comes to lie.
     */
    struct dryfit_point at;
    /**
     * `DRYFIT_TOP_CLOSED` or `DRYFIT_TOP_OPEN`.
     */
    uint32_t top;
} dryfit_flat_box;

/**
 * What a G-code file needs to know of machine and tool. 0 is the usual value where one is stated; what a tool has no use for must be 0.
 */
typedef struct dryfit_machine {
    /**
     * One of `DRYFIT_TOOL_...`.
     */
    uint32_t tool;
    /**
     * Beam: 1 if the machine may lower the power where it goes slower.
     */
    uint32_t dynamic;
    /**
     * Speed along a cut in nanometres a second: 0.001 to 10,000 mm/s; usually 10 mm/s.
     */
    int64_t feed;
    /**
     * Blade and bit: speed downwards; usually 2 mm/s.
     */
    int64_t plunge;
    /**
     * Blade and bit: how high the tool stands above the board when it is up: 0.1 to 200 mm; usually 2 mm.
     */
    dryfit_nm height;
    /**
     * Blade and bit: how deep it cuts: above 0, to 200 mm.
     */
    dryfit_nm depth;
    /**
     * Blade: how deep it stays while it is turned about its tip; usually as deep as it cuts.
     */
    dryfit_nm turn_depth;
    /**
     * Beam: its power in millionths of the machine's own unit, 0 to 1,000,000 of them. 0 runs dry.
     */
    int64_t power;
    /**
     * Bit: turns a minute; usually 10,000.
     */
    int64_t speed;
} dryfit_machine;

#if defined(DRYFIT_HOST)
/**
 * A board: the full slab that it would be if it won every argument.
 */
typedef struct dryfit_board {
    /**
     * The axis square to its faces, one of `DRYFIT_AXIS_...`.
     */
    uint32_t normal;
    /**
     * 1 if it is turned about `turn_axis`, 0 if it stands square.
     */
    uint32_t turned;
    /**
     * Its lowest corner along x, y and z, before it is turned.
     */
    dryfit_nm at[3];
    /**
     * Its sizes along the two other axes, in x, y, z order.
     */
    dryfit_nm size[2];
    /**
     * Its thickness.
     */
    dryfit_nm thickness;
    /**
     * Turned: the angle, counter-clockwise about the line through the middle of the slab; millionths of a degree, -360 to 360 degrees.
     */
    int64_t turn;
    /**
     * Turned: the axis along which that line runs.
     */
    uint32_t turn_axis;
} dryfit_board;
#endif

#if defined(DRYFIT_HOST)
/**
 * A hole in a board.
 */
typedef struct dryfit_opening {
    /**
     * Its middle, from the slab's lowest corner.
     */
    struct dryfit_point centre;
    /**
     * Its size along the panel's first axis, or its diameter.
     */
    dryfit_nm width;
    /**
     * Its size along the panel's second axis; 0 of a round one.
     */
    dryfit_nm height;
    /**
     * One of `DRYFIT_OPENING_...`.
     */
    uint32_t kind;
} dryfit_opening;
#endif

#if defined(DRYFIT_HOST)
/**
 * One board's move when a piece is put together.
 */
typedef struct dryfit_step {
    /**
     * The number of the board, in the order of adding.
     */
    size_t board;
    /**
     * The number of the move; boards of one move go together.
     */
    size_t step;
    /**
     * One of `DRYFIT_AXIS_...`: the assembly's axis, or with `own` the panel's own (u, v and w).
     */
    uint32_t axis;
    /**
     * 1 towards higher coordinates, 0 towards lower ones.
     */
    uint32_t upwards;
    /**
     * 1 where the axis is the panel's own.
     */
    uint32_t own;
} dryfit_step;
#endif

#if defined(DRYFIT_HOST)
/**
 * A box. 0 is the usual value of every field but sizes and thickness.
 */
typedef struct dryfit_box {
    /**
     * Sizes along x, y and z: of the outside, or with `inside` of the inside.
     */
    dryfit_nm size[3];
    /**
     * Of all boards.
     */
    dryfit_nm thickness;
    /**
     * The joint of the walls, of the kind `DRYFIT_JOINT_FINGERS`.
     */
    struct dryfit_joint fingers;
    /**
     * Of a lid, to what holds it; 0.2 mm if 0.
     */
    dryfit_nm clearance;
    /**
     * So much four feet lift it; 0 without.
     */
    dryfit_nm feet;
    /**
     * Captive shelves: how far their undersides stand above the base, upwards. NULL without.
     */
    const dryfit_nm *shelves;
    /**
     * How many shelves.
     */
    size_t shelf_count;
    /**
     * Dividers across x and across y, evenly spaced.
     */
    uint32_t dividers[2];
    /**
     * 1 if dividers are tabbed into the base too.
     */
    uint32_t into_base;
    /**
     * One of `DRYFIT_TOP_...`.
     */
    uint32_t top;
    /**
     * 1 if the sizes are those of the inside.
     */
    uint32_t inside;
} dryfit_box;
#endif

#if defined(DRYFIT_HOST)
/**
 * A kind of sheet.
 */
typedef struct dryfit_stock {
    /**
     * Of the board.
     */
    dryfit_nm thickness;
    /**
     * Along x.
     */
    dryfit_nm width;
    /**
     * Along y.
     */
    dryfit_nm height;
    /**
     * On all four sides, where nothing is cut: the tape's width.
     */
    dryfit_nm border;
    /**
     * The least gap between two parts.
     */
    dryfit_nm gap;
    /**
     * How many there are; 0 for as many as needed.
     */
    uint32_t count;
    /**
     * One of `DRYFIT_GRAIN_...`.
     */
    uint32_t grain;
} dryfit_stock;
#endif

#if defined(DRYFIT_HOST)
/**
 * How parts are laid out; all zeros is usual.
 */
typedef struct dryfit_layout_spec {
    /**
     * Where the search starts: the same seed gives the same layout.
     */
    uint64_t seed;
    /**
     * 1 if parts may interlock so that one cut is the edge of two.
     */
    uint32_t share_cuts;
    /**
     * 1 if parts lie as they are drawn; 0 if they may be turned by quarters, as the grain allows.
     */
    uint32_t unturned;
    /**
     * 1 if parts may lie mirrored.
     */
    uint32_t flips;
    /**
     * 1 if the parts of a piece keep to as few sheets as they can.
     */
    uint32_t together;
    /**
     * How the grain runs on the parts as they are drawn: 0 or `DRYFIT_GRAIN_X` along x, else one of `DRYFIT_GRAIN_...`; `DRYFIT_GRAIN_Y` along y. It counts on stock that
     * has a grain.
     */
    uint32_t grain;
} dryfit_layout_spec;
#endif

#if defined(DRYFIT_HOST)
/**
 * Is told now and then what is done, 0 to 1. It returns 0 to go on; any other number ends the search, and the best so far is the layout.
 */
typedef int32_t (*dryfit_progress)(void *user, double done);
#endif

#if defined(DRYFIT_HOST)
/**
 * The numbers of a sheet.
 */
typedef struct dryfit_sheet {
    /**
     * What it is cut from.
     */
    struct dryfit_stock stock;
    /**
     * How many parts lie on it.
     */
    size_t placements;
    /**
     * The length of all cuts, what two parts share once.
     */
    dryfit_nm cut_length;
    /**
     * The length that one cut does for two parts.
     */
    dryfit_nm shared_length;
} dryfit_sheet;
#endif

#if defined(DRYFIT_HOST)
/**
 * Where a part lies.
 */
typedef struct dryfit_placement {
    /**
     * The number of the part.
     */
    size_t part;
    /**
     * Where the lower left corner of the rectangle around it lies on the sheet.
     */
    struct dryfit_point at;
    /**
     * By how many quarters it is turned counter-clockwise, after it was mirrored: 0 to 3.
     */
    uint32_t quarter_turns;
    /**
     * 1 if it is mirrored.
     */
    uint32_t flipped;
} dryfit_placement;
#endif

#if defined(DRYFIT_HOST)
/**
 * What cuts.
 */
typedef struct dryfit_cutter {
    /**
     * The full width of the cut: 0 to 20 mm; of a bit its diameter.
     */
    dryfit_nm width;
    /**
     * Blade: how far its tip lags behind its axis, 0 to 20 mm.
     */
    dryfit_nm trail;
    /**
     * One of `DRYFIT_TOOL_...`.
     */
    uint32_t tool;
} dryfit_cutter;
#endif

#if defined(DRYFIT_HOST)
/**
 * How a sheet is cut. 0 is the usual value for the tool in every field, `DRYFIT_NONE` none of it; what a tool has no use for must be 0.
 *
 * The usual values are common practice and no advice for a machine: feeds, depths and power are the machine maker's and the board's.
 */
typedef struct dryfit_motion {
    /**
     * The tool; all zeros, that for which the parts were cut. Where they were cut for several, it must be said (803).
     */
    struct dryfit_cutter cutter;
    /**
     * Speed along a cut in nanometres a second: 0.001 to 10,000 mm/s; usually 10 mm/s.
     */
    int64_t feed;
    /**
     * Speed downwards in nanometres a second; usually 2 mm/s.
     */
    int64_t plunge;
    /**
     * How high the tool stands above the board when it is up; usually 2 mm.
     */
    dryfit_nm height;
    /**
     * Blade and bit: how deep the last pass goes; usually the board's thickness, at most 5 mm more.
     */
    dryfit_nm depth;
    /**
     * Blade and bit: how much deeper a pass may go than the one before.
     */
    dryfit_nm step;
    /**
     * Blade and bit: how deep a first light pass goes.
     */
    dryfit_nm light;
    /**
     * How many passes, in place of `step`.
     */
    int64_t passes;
    /**
     * Beam: its power in millionths of the machine's own unit. 0 runs dry.
     */
    int64_t power;
    /**
     * Beam: the power of a first light pass.
     */
    int64_t light_power;
    /**
     * Bit: turns a minute; usually 10,000.
     */
    int64_t speed;
    /**
     * Bit: along what way it sinks to the depth of a pass; usually ten times what it sinks, `DRYFIT_NONE` to plunge.
     */
    dryfit_nm ramp;
    /**
     * Blade: corners that turn by more than this are taken by turning the blade about its tip; millionths of a
     * degree, usually `10 * DRYFIT_DEGREE`.
     */
    int64_t swivel_above;
    /**
     * Blade: how far it goes on beyond the point where a closed line began; usually 0.5 mm.
     */
    dryfit_nm overcut;
    /**
     * Blade: how deep it stays while it is turned; usually as deep as it cuts.
     */
    dryfit_nm turn_depth;
    /**
     * How many bridges hold each part, 1 to 100; usually none for a blade, one for a beam, two for a bit.
     */
    int64_t bridges;
    /**
     * How wide a bridge is; usually 0.5 mm, and 2 mm for a bit.
     */
    dryfit_nm bridge_width;
    /**
     * Beam and bit: the length of the way in from the waste.
     */
    dryfit_nm lead;
    /**
     * Chords in place of arcs, no farther from them than this; usually true arcs.
     */
    dryfit_nm flat;
    /**
     * Beam: 1 if the machine may lower the power where it goes slower.
     */
    uint32_t dynamic;
    /**
     * 1 if the whole sheet is cut once, then again; 0 if each line is cut through before the next begins.
     */
    uint32_t sheet_by_sheet;
    /**
     * 1 if the machine waits between two passes over the sheet.
     */
    uint32_t pause;
} dryfit_motion;
#endif

#if defined(DRYFIT_HOST)
/**
 * How boards are cut. All zeros, it is a blade without width and an exact fit: the parts are the nominal panels.
 */
typedef struct dryfit_cut {
    /**
     * The tool.
     */
    struct dryfit_cutter cutter;
    /**
     * Allowances.
     */
    struct dryfit_fit fit;
    /**
     * The least solid width that must be left; 0 for any.
     */
    dryfit_nm web;
    /**
     * The radius of the relief of inner corners that a mate must fill; 0 for none.
     */
    dryfit_nm relief;
    /**
     * One of `DRYFIT_REACH_...`.
     */
    uint32_t reach;
} dryfit_cut;
#endif

#if defined(DRYFIT_HOST)
/**
 * The numbers of a part.
 */
typedef struct dryfit_part {
    /**
     * Of its board; 0 for any.
     */
    dryfit_nm thickness;
    /**
     * The length of its path, holes and all.
     */
    dryfit_nm cut_length;
    /**
     * The area of what is left, in square millimetres.
     */
    double area;
    /**
     * From (u, v, w, 1) in millimetres, u and v in the part's plane and w across it, to the assembly: row by row. Zeros for a part of no assembly.
     */
    double frame[4][4];
    /**
     * How many loops the path has: the outline, and a hole each.
     */
    size_t loops;
    /**
     * How many the finished outline has.
     */
    size_t finished_loops;
} dryfit_part;
#endif

#if defined(DRYFIT_HOST)
/**
 * The numbers of a report.
 */
typedef struct dryfit_findings {
    /**
     * How many problems there are; 0: it fits.
     */
    size_t problems;
    /**
     * Dry fit: pieces that fall off their panels.
     */
    size_t loose_pieces;
    /**
     * Dry fit: how deep a board reaches into another at most.
     */
    dryfit_nm overlap_max;
    /**
     * The smallest gap: of all contacts, negative being interference; of a layout, between two parts that share no cut, 0 without such.
     */
    dryfit_nm gap_min;
    /**
     * Dry fit: the largest gap of all contacts.
     */
    dryfit_nm gap_max;
    /**
     * Dry fit: the thinnest solid of any panel.
     */
    dryfit_nm thinnest_neck;
    /**
     * Dry fit: the radius that a round cutter leaves in inner corners.
     */
    dryfit_nm corner_fillet;
    /**
     * Layout: the length that one cut does for two parts.
     */
    dryfit_nm shared_length;
    /**
     * Dry fit: the volume that two boards claim, in cubic millimetres.
     */
    double overlap_volume;
    /**
     * Dry fit: the volume of the slabs that no board fills, in cubic millimetres.
     */
    double void_volume;
} dryfit_findings;
#endif

/**
 * All went well.
 */
#define DRYFIT_OK 0

/**
 * A length is a number and a unit, such as 80, "2.5 mm" or "3/32 in".
 */
#define DRYFIT_NOT_A_LENGTH 101

/**
 * The value lies outside the allowed range.
 */
#define DRYFIT_OUT_OF_RANGE 102

/**
 * NaN and infinity are no amounts.
 */
#define DRYFIT_NOT_FINITE 103

/**
 * More fingers than the run holds at the least width.
 */
#define DRYFIT_FINGERS_DO_NOT_FIT 201

/**
 * One tab and its two end distances are longer than the run.
 */
#define DRYFIT_TABS_DO_NOT_FIT 202

/**
 * A halving leaves both boards a part of the run.
 */
#define DRYFIT_SPLIT_OUTSIDE_RUN 203

/**
 * The run is shorter than the smallest number of fingers at the least width.
 */
#define DRYFIT_RUN_TOO_SHORT 204

/**
 * Tails join boards of one plane end to end; at a corner a straight-down cut cannot make the pins.
 */
#define DRYFIT_NOT_IN_ONE_PLANE 205

/**
 * Neighbouring tails meet at their ends, or neighbouring sockets at the baseline.
 */
#define DRYFIT_SOCKET_CLOSES 221

/**
 * Two boards of one assembly cannot have one name.
 */
#define DRYFIT_NAME_TAKEN 301

/**
 * The assembly has no board of this name.
 */
#define DRYFIT_NO_SUCH_BOARD 302

/**
 * Two boards in one plane overlap other than end to end.
 */
#define DRYFIT_SAME_PLACE 303

/**
 * A board ends inside the other's thickness; a straight-down cut cannot stop half way.
 */
#define DRYFIT_BLIND 304

/**
 * The two slabs do not overlap; extend one into the other.
 */
#define DRYFIT_DO_NOT_MEET 305

/**
 * The slab overlaps no other; extend it into its neighbours.
 */
#define DRYFIT_MEETS_NOTHING 306

/**
 * Two walls and the space between them do not fit the size.
 */
#define DRYFIT_THICKER_THAN_BOX 307

/**
 * The assembly is empty.
 */
#define DRYFIT_NO_BOARDS 308

/**
 * A board needs a name.
 */
#define DRYFIT_NAME_EMPTY 309

/**
 * A third board may cross a splice only across its run and over its whole depth, and no fourth at the same place.
 */
#define DRYFIT_CROWDED 310

/**
 * A key is let into two boards of one plane that touch along a seam.
 */
#define DRYFIT_NO_SEAM 311

/**
 * Boards of one assembly are turned about one axis, which lies in their plane.
 */
#define DRYFIT_TWO_AXES 331

/**
 * A board that lies across turned boards takes them in closed slots or along its edges, corners and all.
 */
#define DRYFIT_SLANTED_CUT 332

/**
 * Boards that cross at one line share one stretch of it.
 */
#define DRYFIT_UNEVEN_LAP 333

/**
 * Two boards take the same place of a third; name those that cross at one line in a lap.
 */
#define DRYFIT_NOT_LAPPED 334

/**
 * Only an even number of sides has opposite ones.
 */
#define DRYFIT_ODD_SIDES 335

/**
 * An opening lies on its board's own solid, apart from edges and other openings.
 */
#define DRYFIT_OPENING_MISPLACED 336

/**
 * The nut's pocket leaves too little of its board.
 */
#define DRYFIT_NUT_TOO_WIDE 337

/**
 * The screw ends before its nut, or deeper than its board.
 */
#define DRYFIT_SCREW_DOES_NOT_HOLD 338

/**
 * Allowances and kerf leave this edge no length.
 */
#define DRYFIT_SLOT_CLOSES 401

/**
 * Allowances and kerf push this edge through another.
 */
#define DRYFIT_CROSSES_NEIGHBOUR 402

/**
 * Less solid board is left than the stated web.
 */
#define DRYFIT_WEB_TOO_THIN 403

/**
 * Two reliefs meet, or one is longer than its edge.
 */
#define DRYFIT_RELIEF_TOO_LARGE 404

/**
 * The relief of a corner runs into another edge.
 */
#define DRYFIT_RELIEF_BREAKS_THROUGH 405

/**
 * Jobs of one size do not tell what length, parts and corners cost; at least one other size is needed.
 */
#define DRYFIT_KNOWN_ALIKE 406

/**
 * The tool of this job has no such setting.
 */
#define DRYFIT_NOT_OF_THIS_TOOL 407

/**
 * Either the number of passes or the depth of one is given, not both.
 */
#define DRYFIT_STEP_AND_COUNT 408

/**
 * The machine can wait between passes over the whole sheet, not within a line.
 */
#define DRYFIT_PAUSE_IN_LINE 409

/**
 * No straight move puts these boards together; of two that are halved, the lower one has to keep the lower part.
 */
#define DRYFIT_LOCKED 501

/**
 * The part does not fit the sheet inside its border.
 */
#define DRYFIT_LARGER_THAN_SHEET 601

/**
 * The border leaves nothing of the sheet.
 */
#define DRYFIT_BORDER_TOO_WIDE 602

/**
 * No sheet of the part's thickness was given.
 */
#define DRYFIT_WRONG_THICKNESS 603

/**
 * There are too few sheets for all parts.
 */
#define DRYFIT_NO_SHEET_LEFT 604

/**
 * The byte sink took no more.
 */
#define DRYFIT_SINK_FULL 701

/**
 * A tool goes down where it stands before it cuts, and up before it travels.
 */
#define DRYFIT_OUT_OF_ORDER 702

/**
 * This kind of file has no word for it.
 */
#define DRYFIT_NOT_IN_FORMAT 703

/**
 * The key is not known here.
 */
#define DRYFIT_UNKNOWN_KEY 801

/**
 * The value is of the wrong kind.
 */
#define DRYFIT_WRONG_TYPE 802

/**
 * A key is missing.
 */
#define DRYFIT_MISSING_KEY 803

/**
 * The file cannot be read.
 */
#define DRYFIT_NOT_READABLE 804

/**
 * The file is larger than a job can be.
 */
#define DRYFIT_TOO_LARGE 805

/**
 * The file is not UTF-8 text.
 */
#define DRYFIT_NOT_TEXT 806

/**
 * The file is not TOML.
 */
#define DRYFIT_BAD_SYNTAX 807

/**
 * The folder cannot be written.
 */
#define DRYFIT_NOT_WRITABLE 808

/**
 * This version cannot do that yet.
 */
#define DRYFIT_NOT_AVAILABLE 809

/**
 * A pointer that must lead to something is NULL.
 */
#define DRYFIT_NULL_POINTER 810

/**
 * The result has more entries than the buffer has room for.
 */
#define DRYFIT_BUFFER_TOO_SMALL 811

/**
 * The handle is of another kind, was freed, or was never made.
 */
#define DRYFIT_WRONG_HANDLE 812

/**
 * The library has a fault; the result is lost, the process goes on.
 */
#define DRYFIT_PANICKED 813

#ifdef __cplusplus
extern "C" {
#endif // __cplusplus

/**
 * Begins path data, what stands in the attribute `d` of an SVG path, in the unit of a document: `nanometres` / `parts` of a nanometre.
 *
 * A pixel of 96 to the inch is `DRYFIT_INCH` / 96, a point `DRYFIT_INCH` / 72, a millimetre `DRYFIT_MM` / 1. The document's y points down, and its origin lies
 * at `corner` of the board; NULL for 0, 0. Numbers have a point, whatever the host's locale. Errors: 102, 810.
 *
 * Ownership: nothing is kept but `write` and `user`, which must last until the path is ended. Threads: one path by one thread at a time.
 */
DRYFIT_API
dryfit_status dryfit_path_begin(struct dryfit_file *file,
                                int64_t nanometres,
                                int64_t parts,
                                const struct dryfit_point *corner,
                                dryfit_write write,
                                void *user,
                                struct dryfit_error *error);

/**
 * Draws a move; a callback for the functions that hand moves over, `user` being the path. A move that does not begin where the last one ended begins a line of its
 * own.
 *
 * Errors: 102, 810, 812; what `write` returns. `dryfit_file_error` tells more of them.
 *
 * Ownership: nothing is kept. Threads: one path by one thread at a time.
 */
DRYFIT_API
dryfit_status dryfit_path_cut(void *file,
                              const struct dryfit_move *move);

/**
 * Closes the line that is drawn; what follows is a line of its own.
 *
 * Errors: 810, 812; what `write` returns.
 *
 * Ownership: nothing is kept. Threads: one path by one thread at a time.
 */
DRYFIT_API dryfit_status dryfit_path_close(struct dryfit_file *file, struct dryfit_error *error);

/**
 * Ends the path data.
 *
 * Errors: 810, 812.
 *
 * Ownership: nothing is kept. Threads: one path by one thread at a time.
 */
DRYFIT_API dryfit_status dryfit_path_end(struct dryfit_file *file, struct dryfit_error *error);

/**
 * Begins a DXF file of release 12, one unit being 1 mm, with its title, the cautions and a layer for each kind of line.
 *
 * Errors: 806, 810; what `write` returns.
 *
 * Ownership: nothing is kept but `write` and `user`, which must last until the file is ended. Threads: one file by one thread at a time.
 */
DRYFIT_API
dryfit_status dryfit_dxf_begin(struct dryfit_file *file,
                               const char *title,
                               size_t size,
                               dryfit_write write,
                               void *user,
                               struct dryfit_error *error);

/**
 * Ends the line that is drawn. Those that follow are of this kind, one of `DRYFIT_LINE_...`, and closed (1) or open (0); until told, they are closed outlines.
 *
 * Errors: 102, 810, 812; what `write` returns.
 *
 * Ownership: nothing is kept. Threads: one file by one thread at a time.
 */
DRYFIT_API
dryfit_status dryfit_dxf_line(struct dryfit_file *file,
                              uint32_t kind,
                              uint32_t closed,
                              struct dryfit_error *error);

/**
 * Draws a move; a callback for the functions that hand moves over, `user` being the file. A move that does not begin where the last one ended begins a line of
 * its own.
 *
 * Errors: 102, 810, 812; what `write` returns. `dryfit_file_error` tells more of them.
 *
 * Ownership: nothing is kept. Threads: one file by one thread at a time.
 */
DRYFIT_API
dryfit_status dryfit_dxf_cut(void *file,
                             const struct dryfit_move *move);

/**
 * Writes text centred on a point, `letters` high (0.1 mm to 1 m), on the layer of marks.
 *
 * Errors: 102, 806, 810, 812; what `write` returns.
 *
 * Ownership: nothing is kept. Threads: one file by one thread at a time.
 */
DRYFIT_API
dryfit_status dryfit_dxf_label(struct dryfit_file *file,
                               const char *label,
                               size_t size,
                               const struct dryfit_point *centre,
                               dryfit_nm letters,
                               struct dryfit_error *error);

/**
 * Ends the file.
 *
 * Errors: 810, 812; what `write` returns.
 *
 * Ownership: nothing is kept. Threads: one file by one thread at a time.
 */
DRYFIT_API dryfit_status dryfit_dxf_end(struct dryfit_file *file, struct dryfit_error *error);

/**
 * The vertices of an edge along +x. The last one's role is `DRYFIT_ROLE_FREE`.
 *
 * Errors: 102, 201 to 205, 221, 401, 810, 811.
 *
 * Ownership: nothing is kept. Threads: any.
 */
DRYFIT_API
dryfit_status dryfit_edge_vertices(const struct dryfit_edge *edge,
                                   struct dryfit_vertex *out,
                                   size_t cap,
                                   size_t *needed,
                                   struct dryfit_error *error);

/**
 * Hands the moves along an edge over, one by one, without a buffer.
 *
 * Errors: as `dryfit_edge_vertices` before the first move; what `each` returns.
 *
 * Ownership: nothing is kept. Threads: any.
 */
DRYFIT_API
dryfit_status dryfit_edge_moves(const struct dryfit_edge *edge,
                                dryfit_each_move each,
                                void *user,
                                struct dryfit_error *error);

/**
 * The same of fingers only (`DRYFIT_JOINT_FINGERS`), for chips with little flash: the linker then leaves tabs, halves and tails out.
 *
 * Errors: 102, also for another joint, 201, 204, 401, 810, before the first move; what `each` returns.
 *
 * Ownership: nothing is kept. Threads: any.
 */
DRYFIT_API
dryfit_status dryfit_finger_moves(const struct dryfit_edge *edge,
                                  dryfit_each_move each,
                                  void *user,
                                  struct dryfit_error *error);

/**
 * Hands the moves of a trailing blade's axis over, whose tip follows an edge; `offset` is as with `dryfit_moves_drag`.
 *
 * Errors: as `dryfit_edge_vertices` and 102 for the knife's numbers, before the first move; what `each` returns.
 *
 * Ownership: nothing is kept. Threads: any.
 */
DRYFIT_API
dryfit_status dryfit_edge_drag(const struct dryfit_edge *edge,
                               const struct dryfit_knife *knife,
                               struct dryfit_point *offset,
                               dryfit_each_move each,
                               void *user,
                               struct dryfit_error *error);

/**
 * Completes the error of a call whose callback was `dryfit_gcode_cut` or another of that kind, which have no `dryfit_error` to tell what they refuse: where
 * its `parameter` is `callback` and its status that of what this file refused last, it becomes that refusal, with the parameter, what was given and what is
 * allowed. Any other error stays as it is, so this may be called after whatever went wrong.
 *
 * Errors: 810.
 *
 * Ownership: nothing is kept. Threads: one file by one thread at a time.
 */
DRYFIT_API
dryfit_status dryfit_file_error(const struct dryfit_file *file,
                                struct dryfit_error *of);

/**
 * Begins at the first finger of an edge (`DRYFIT_JOINT_FINGERS`); the edge is not needed any more.
 *
 * Errors: as `dryfit_finger_moves`.
 *
 * Ownership: nothing is kept. Threads: any.
 */
DRYFIT_API
dryfit_status dryfit_fingers_begin(struct dryfit_fingers *fingers,
                                   const struct dryfit_edge *edge,
                                   struct dryfit_error *error);

/**
 * The next move: `more` is 1. After the last one `more` is 0, and `move` is left as it was.
 *
 * Errors: 810, 812 of what was never begun, or was refused when it was.
 *
 * Ownership: nothing is kept. Threads: one edge by one thread at a time.
 */
DRYFIT_API
dryfit_status dryfit_fingers_next(struct dryfit_fingers *fingers,
                                  struct dryfit_move *move,
                                  uint32_t *more,
                                  struct dryfit_error *error);

/**
 * The name of a face, e.g. `front`; NULL for a number that is no face.
 *
 * Ownership: static, never freed. Threads: any.
 */
DRYFIT_API const char *dryfit_face_name(uint32_t face);

/**
 * The vertices of a panel, counter-clockwise from the lowest, then leftmost one.
 *
 * Errors: 102, 201, 204, 302 for the top of an open box, 307, 401, 402, 810, 811.
 *
 * Ownership: nothing is kept. Threads: any.
 */
DRYFIT_API
dryfit_status dryfit_panel_vertices(const struct dryfit_flat_box *flat,
                                    uint32_t face,
                                    struct dryfit_vertex *out,
                                    size_t cap,
                                    size_t *needed,
                                    struct dryfit_error *error);

/**
 * Hands the moves around a panel over, one by one, without a buffer; the last one ends where the first began.
 *
 * Errors: as `dryfit_panel_vertices` before the first move; what `each` returns.
 *
 * Ownership: nothing is kept. Threads: any.
 */
DRYFIT_API
dryfit_status dryfit_panel_moves(const struct dryfit_flat_box *flat,
                                 uint32_t face,
                                 dryfit_each_move each,
                                 void *user,
                                 struct dryfit_error *error);

/**
 * Hands the moves of a trailing blade's axis over, whose tip follows a panel's outline; `offset` is as with `dryfit_moves_drag`.
 *
 * Errors: as `dryfit_panel_vertices` and 102 for the knife's numbers, before the first move; what `each` returns.
 *
 * Ownership: nothing is kept. Threads: any.
 */
DRYFIT_API
dryfit_status dryfit_panel_drag(const struct dryfit_flat_box *flat,
                                uint32_t face,
                                const struct dryfit_knife *knife,
                                struct dryfit_point *offset,
                                dryfit_each_move each,
                                void *user,
                                struct dryfit_error *error);

/**
 * Begins a G-code file: its title, the cautions, and everything safe. The units are mm, the origin is the sheet's lower left corner, z is 0 on the board's
 * face. Each line reaches `write` whole.
 *
 * Errors: 102, 407, 806, 810; what `write` returns.
 *
 * Ownership: nothing is kept but `write` and `user`, which must last until the file is ended. Threads: one file by one thread at a time.
 */
DRYFIT_API
dryfit_status dryfit_gcode_begin(struct dryfit_file *file,
                                 const struct dryfit_machine *machine,
                                 const char *title,
                                 size_t size,
                                 dryfit_write write,
                                 void *user,
                                 struct dryfit_error *error);

/**
 * Cuts along a move; a callback for the functions that hand moves over, `user` being the file. Where a move does not begin where the last one ended, the tool is
 * lifted, brought there and lowered.
 *
 * Errors: 102, 810, 812; what `write` returns. `dryfit_file_error` tells more of them.
 *
 * Ownership: nothing is kept. Threads: one file by one thread at a time.
 */
DRYFIT_API
dryfit_status dryfit_gcode_cut(void *file,
                               const struct dryfit_move *move);

/**
 * Lifts the tool if it is down, or turns the beam off.
 *
 * Errors: 810, 812; what `write` returns.
 *
 * Ownership: nothing is kept. Threads: one file by one thread at a time.
 */
DRYFIT_API dryfit_status dryfit_gcode_lift(struct dryfit_file *file, struct dryfit_error *error);

/**
 * Lifts the tool; what is cut after it is cut at this depth (blade, bit) or with this power (beam; the other is 0): the next pass.
 *
 * Errors: 102, 407, 810, 812; what `write` returns.
 *
 * Ownership: nothing is kept. Threads: one file by one thread at a time.
 */
DRYFIT_API
dryfit_status dryfit_gcode_depth(struct dryfit_file *file,
                                 dryfit_nm depth,
                                 int64_t power,
                                 struct dryfit_error *error);

/**
 * Lifts the tool and lets the machine wait for its operator.
 *
 * Errors: 810, 812; what `write` returns.
 *
 * Ownership: nothing is kept. Threads: one file by one thread at a time.
 */
DRYFIT_API dryfit_status dryfit_gcode_pause(struct dryfit_file *file, struct dryfit_error *error);

/**
 * Ends the file: the tool up or off, and over the origin.
 *
 * Errors: 810, 812; what `write` returns.
 *
 * Ownership: nothing is kept. Threads: one file by one thread at a time.
 */
DRYFIT_API dryfit_status dryfit_gcode_end(struct dryfit_file *file, struct dryfit_error *error);

/**
 * Begins an HP-GL file with the cautions. One unit is 0.025 mm; arcs become chords.
 *
 * Errors: 810; what `write` returns.
 *
 * Ownership: nothing is kept but `write` and `user`, which must last until the file is ended. Threads: one file by one thread at a time.
 */
DRYFIT_API
dryfit_status dryfit_hpgl_begin(struct dryfit_file *file,
                                dryfit_write write,
                                void *user,
                                struct dryfit_error *error);

/**
 * Lifts the pen and takes that of a kind of line, one of `DRYFIT_LINE_...`; pens are numbered from 1.
 *
 * Errors: 102, 810, 812; what `write` returns.
 *
 * Ownership: nothing is kept. Threads: one file by one thread at a time.
 */
DRYFIT_API dryfit_status dryfit_hpgl_line(struct dryfit_file *file, uint32_t kind, struct dryfit_error *error);

/**
 * Draws along a move; a callback for the functions that hand moves over, `user` being the file. Where a move does not begin where the last one ended, the pen
 * is lifted and brought there.
 *
 * Errors: 102, 810, 812; what `write` returns. `dryfit_file_error` tells more of them.
 *
 * Ownership: nothing is kept. Threads: one file by one thread at a time.
 */
DRYFIT_API
dryfit_status dryfit_hpgl_cut(void *file,
                              const struct dryfit_move *move);

/**
 * Ends the file: the pen up, over the origin, and put away.
 *
 * Errors: 810, 812; what `write` returns.
 *
 * Ownership: nothing is kept. Threads: one file by one thread at a time.
 */
DRYFIT_API dryfit_status dryfit_hpgl_end(struct dryfit_file *file, struct dryfit_error *error);

/**
 * Hands the moves of a trailing blade's axis over, whose tip follows a line of `count` moves, each from where the last one ended.
 *
 * `offset` may be NULL: the blade points along the line already. Else it is where the axis stands beside the tip before the line, (`trail`, 0) for a blade that
 * came from the left; the blade is turned from there into the first direction, and `offset` is how it stands after the line. Of a `closed` line the
 * start is gone over again for the overcut. Errors: 102, 810, before the first move; what `each` returns.
 *
 * Ownership: nothing is kept. Threads: any.
 */
DRYFIT_API
dryfit_status dryfit_moves_drag(const struct dryfit_move *moves,
                                size_t count,
                                uint32_t closed,
                                const struct dryfit_knife *knife,
                                struct dryfit_point *offset,
                                dryfit_each_move each,
                                void *user,
                                struct dryfit_error *error);

/**
 * How far the tip of a blade strays from a line at most, where turns are taken in passing.
 *
 * Errors: 102, 810.
 *
 * Ownership: nothing is kept. Threads: any.
 */
DRYFIT_API
dryfit_status dryfit_knife_deviation(const struct dryfit_move *moves,
                                     size_t count,
                                     uint32_t closed,
                                     const struct dryfit_knife *knife,
                                     dryfit_nm *out,
                                     struct dryfit_error *error);

/**
 * Reads a length: a number (`12.5`, `3/32`, `1 1/2`) and a unit (`um`, `mm`, `cm`, `m`, `in`, `ft`; none is mm), to the nearest nanometre, halves away from zero.
 *
 * `text` has `size` bytes and needs no zero at its end. Errors: 101 not a length, 102 beyond 10 m, 806 not UTF-8, 810.
 *
 * Ownership: nothing is kept. Threads: any.
 */
DRYFIT_API
dryfit_status dryfit_length_parse(const char *text,
                                  size_t size,
                                  dryfit_nm *out,
                                  struct dryfit_error *error);

/**
 * The nearest length to so many millimetres.
 *
 * Errors: 102 beyond 10 m, 103 NaN or infinity, 810.
 *
 * Ownership: nothing is kept. Threads: any.
 */
DRYFIT_API dryfit_status dryfit_length_from_mm(double millimetres, dryfit_nm *out, struct dryfit_error *error);

/**
 * A length in millimetres. Any number is taken.
 *
 * Threads: any.
 */
DRYFIT_API double dryfit_length_to_mm(dryfit_nm length);

/**
 * The sentence of an error, in English and UTF-8: which parameter, what was given, what is allowed; e.g. `finger count: 9 given, allowed 1 to 5`.
 *
 * It ends with a zero, which `needed` counts. A status that is no number of the table is a callback's: `a callback returned -5`; that of an error of status 0 is
 * empty. Errors: 810, 811.
 *
 * Ownership: nothing is kept. Threads: any.
 */
DRYFIT_API
dryfit_status dryfit_error_message(const struct dryfit_error *of,
                                   char *out,
                                   size_t cap,
                                   size_t *needed);

/**
 * The boundaries between the spans of a run, upwards, without its two ends; and who owns the first span. Spans alternate.
 *
 * `thickness` is that of the thicker board; of tails, how deep the boards reach into each other. Errors: 102, 201 to 205, 221, 810, 811.
 *
 * Ownership: nothing is kept. Threads: any.
 */
DRYFIT_API
dryfit_status dryfit_pattern(const struct dryfit_joint *joint,
                             dryfit_nm run,
                             dryfit_nm thickness,
                             uint32_t *first,
                             dryfit_nm *out,
                             size_t cap,
                             size_t *needed,
                             struct dryfit_error *error);

/**
 * Begins an SVG file of a sheet's size, one unit being 1 mm, with its title, a sentence on what it is, and the cautions.
 *
 * Errors: 102, 806, 810; what `write` returns.
 *
 * Ownership: nothing is kept but `write` and `user`, which must last until the file is ended. Threads: one file by one thread at a time.
 */
DRYFIT_API
dryfit_status dryfit_svg_begin(struct dryfit_file *file,
                               dryfit_nm width,
                               dryfit_nm height,
                               const char *title,
                               size_t title_size,
                               const char *description,
                               size_t description_size,
                               dryfit_write write,
                               void *user,
                               struct dryfit_error *error);

/**
 * Ends the line that is drawn. Those that follow are of this kind, one of `DRYFIT_LINE_...`, and closed (1) or open (0); until told, they are closed outlines.
 * Kinds come in the order of their numbers.
 *
 * Errors: 102, 810, 812; what `write` returns.
 *
 * Ownership: nothing is kept. Threads: one file by one thread at a time.
 */
DRYFIT_API
dryfit_status dryfit_svg_line(struct dryfit_file *file,
                              uint32_t kind,
                              uint32_t closed,
                              struct dryfit_error *error);

/**
 * Draws a move; a callback for the functions that hand moves over, `user` being the file. A move that does not begin where the last one ended begins a line of
 * its own.
 *
 * Errors: 102, 810, 812; what `write` returns. `dryfit_file_error` tells more of them.
 *
 * Ownership: nothing is kept. Threads: one file by one thread at a time.
 */
DRYFIT_API
dryfit_status dryfit_svg_cut(void *file,
                             const struct dryfit_move *move);

/**
 * Writes text centred on a point, `letters` high (0.1 mm to 1 m), in the group of marks: before all cuts.
 *
 * Errors: 102, 806, 810, 812; what `write` returns.
 *
 * Ownership: nothing is kept. Threads: one file by one thread at a time.
 */
DRYFIT_API
dryfit_status dryfit_svg_label(struct dryfit_file *file,
                               const char *label,
                               size_t size,
                               const struct dryfit_point *centre,
                               dryfit_nm letters,
                               struct dryfit_error *error);

/**
 * Ends the file.
 *
 * Errors: 810, 812; what `write` returns.
 *
 * Ownership: nothing is kept. Threads: one file by one thread at a time.
 */
DRYFIT_API dryfit_status dryfit_svg_end(struct dryfit_file *file, struct dryfit_error *error);

#if defined(DRYFIT_HOST)
/**
 * An assembly without boards.
 *
 * Errors: 810.
 *
 * Ownership: the caller frees `*out` by `dryfit_assembly_free`. Threads: any.
 */
DRYFIT_API dryfit_status dryfit_assembly_new(struct dryfit_assembly **out, struct dryfit_error *error);
#endif

#if defined(DRYFIT_HOST)
/**
 * Frees an assembly and sets `*assembly` to NULL. NULL, and a pointer to NULL, are as good: to free one twice by the same variable does nothing.
 *
 * Errors: 812.
 *
 * Ownership: ends. Threads: nobody uses it any more.
 */
DRYFIT_API
dryfit_status dryfit_assembly_free(struct dryfit_assembly **assembly);
#endif

#if defined(DRYFIT_HOST)
/**
 * Adds a board. Boards that overlap are joined: edge on edge by fingers, edge in face by tabs, crossing by halves, end to end in one plane by tails.
 *
 * Errors: 102, 103, 301, 303, 309, 331, 806, 810, 812; a refusal leaves the assembly as it was.
 *
 * Ownership: nothing is kept. Threads: this one alone.
 */
DRYFIT_API
dryfit_status dryfit_assembly_add(struct dryfit_assembly *assembly,
                                  const char *name,
                                  size_t size,
                                  const struct dryfit_board *board,
                                  struct dryfit_error *error);
#endif

#if defined(DRYFIT_HOST)
/**
 * Joins two boards otherwise than by default; the first one is side A.
 *
 * Errors: 102, 302, 305, 806, 810, 812; those of the joint itself come when the boards are cut.
 *
 * Ownership: nothing is kept. Threads: this one alone.
 */
DRYFIT_API
dryfit_status dryfit_assembly_joint(struct dryfit_assembly *assembly,
                                    const char *first,
                                    size_t first_size,
                                    const char *second,
                                    size_t second_size,
                                    const struct dryfit_joint *joint,
                                    struct dryfit_error *error);
#endif

#if defined(DRYFIT_HOST)
/**
 * Makes a hole in a board.
 *
 * Errors: 102, 302, 806, 810, 812; 336 where it lies on no solid comes when the boards are cut.
 *
 * Ownership: nothing is kept. Threads: this one alone.
 */
DRYFIT_API
dryfit_status dryfit_assembly_open(struct dryfit_assembly *assembly,
                                   const char *board,
                                   size_t size,
                                   const struct dryfit_opening *opening,
                                   struct dryfit_error *error);
#endif

#if defined(DRYFIT_HOST)
/**
 * How many boards there are.
 *
 * Errors: 810, 812.
 *
 * Ownership: nothing is kept. Threads: any.
 */
DRYFIT_API
dryfit_status dryfit_assembly_count(const struct dryfit_assembly *assembly,
                                    size_t *out,
                                    struct dryfit_error *error);
#endif

#if defined(DRYFIT_HOST)
/**
 * The name of a board; they are numbered from 0 in the order of adding. UTF-8, ended by a zero, which `needed` counts.
 *
 * Errors: 102 for the number, 810, 811, 812.
 *
 * Ownership: nothing is kept. Threads: any.
 */
DRYFIT_API
dryfit_status dryfit_assembly_name(const struct dryfit_assembly *assembly,
                                   size_t number,
                                   char *out,
                                   size_t cap,
                                   size_t *needed,
                                   struct dryfit_error *error);
#endif

#if defined(DRYFIT_HOST)
/**
 * Puts the nominal panels together without glue and says whether the blocks are shared out exactly.
 *
 * Errors: 102 for what was asked of a joint, 201 to 205, 303 to 306, 308, 310, 332 to 336, 810, 812. That the panels do not fit is no error but what the report says.
 *
 * Ownership: the caller frees `*out` by `dryfit_report_free`. Threads: any.
 */
DRYFIT_API
dryfit_status dryfit_assembly_dry_fit(const struct dryfit_assembly *assembly,
                                      struct dryfit_report **out,
                                      struct dryfit_error *error);
#endif

#if defined(DRYFIT_HOST)
/**
 * The moves that put the boards together, in order.
 *
 * Errors: as `dryfit_assembly_dry_fit`; 501 with the boards that hold each other; 811.
 *
 * Ownership: nothing is kept. Threads: any.
 */
DRYFIT_API
dryfit_status dryfit_assembly_order(const struct dryfit_assembly *assembly,
                                    struct dryfit_step *out,
                                    size_t cap,
                                    size_t *needed,
                                    struct dryfit_error *error);
#endif

#if defined(DRYFIT_HOST)
/**
 * An exploded picture as SVG: boards pulled apart against the order of putting together, by `gap` at least.
 *
 * Errors: as `dryfit_assembly_order`, 102; what `write` returns.
 *
 * Ownership: nothing is kept. Threads: any.
 */
DRYFIT_API
dryfit_status dryfit_assembly_exploded(const struct dryfit_assembly *assembly,
                                       dryfit_nm gap,
                                       dryfit_write write,
                                       void *user,
                                       struct dryfit_error *error);
#endif

#if defined(DRYFIT_HOST)
/**
 * The boards of a box, to which more may be added. Walls are named front, back, left, right, then base and top or lid.
 *
 * Errors: 102, 307, 809, 810, and what the boards themselves refuse.
 *
 * Ownership: the caller frees `*out` by `dryfit_assembly_free`. Threads: any.
 */
DRYFIT_API
dryfit_status dryfit_assembly_of_box(const struct dryfit_box *box,
                                     struct dryfit_assembly **out,
                                     struct dryfit_error *error);
#endif

#if defined(DRYFIT_HOST)
/**
 * Lays parts out on as many sheets as they need. Each goes on sheets of exactly its thickness; stocks are used in the order given.
 *
 * `spec` NULL is usual, `progress` may be NULL. Parts for which no sheet was left are told by `dryfit_layout_unplaced`. Errors: 102, 601, 602, 603, 810, 812.
 *
 * Ownership: the caller frees `*out` by `dryfit_layout_free`; the parts are not needed any more. Threads: any.
 */
DRYFIT_API
dryfit_status dryfit_layout_new(const struct dryfit_parts *parts,
                                const struct dryfit_stock *stocks,
                                size_t count,
                                const struct dryfit_layout_spec *spec,
                                dryfit_progress progress,
                                void *user,
                                struct dryfit_layout **out,
                                struct dryfit_error *error);
#endif

#if defined(DRYFIT_HOST)
/**
 * Frees a layout and sets `*layout` to NULL. NULL, and a pointer to NULL, are as good.
 *
 * Errors: 812.
 *
 * Ownership: ends. Threads: nobody uses it any more.
 */
DRYFIT_API dryfit_status dryfit_layout_free(struct dryfit_layout **layout);
#endif

#if defined(DRYFIT_HOST)
/**
 * How many sheets there are.
 *
 * Errors: 810, 812.
 *
 * Ownership: nothing is kept. Threads: any.
 */
DRYFIT_API
dryfit_status dryfit_layout_sheets(const struct dryfit_layout *layout,
                                   size_t *out,
                                   struct dryfit_error *error);
#endif

#if defined(DRYFIT_HOST)
/**
 * The numbers of a sheet; they are numbered from 0.
 *
 * Errors: 102 for the sheet, 810, 812.
 *
 * Ownership: nothing is kept. Threads: any.
 */
DRYFIT_API
dryfit_status dryfit_layout_sheet(const struct dryfit_layout *layout,
                                  size_t number,
                                  struct dryfit_sheet *out,
                                  struct dryfit_error *error);
#endif

#if defined(DRYFIT_HOST)
/**
 * Where the parts of a sheet lie.
 *
 * Errors: 102 for the sheet, 810, 811, 812.
 *
 * Ownership: nothing is kept. Threads: any.
 */
DRYFIT_API
dryfit_status dryfit_layout_placements(const struct dryfit_layout *layout,
                                       size_t number,
                                       struct dryfit_placement *out,
                                       size_t cap,
                                       size_t *needed,
                                       struct dryfit_error *error);
#endif

#if defined(DRYFIT_HOST)
/**
 * The numbers of the parts for which no sheet was left.
 *
 * Errors: 810, 811, 812.
 *
 * Ownership: nothing is kept. Threads: any.
 */
DRYFIT_API
dryfit_status dryfit_layout_unplaced(const struct dryfit_layout *layout,
                                     size_t *out,
                                     size_t cap,
                                     size_t *needed,
                                     struct dryfit_error *error);
#endif

#if defined(DRYFIT_HOST)
/**
 * What is left of the sheets, as stock for the next job.
 *
 * Errors: 810, 811, 812.
 *
 * Ownership: nothing is kept. Threads: any.
 */
DRYFIT_API
dryfit_status dryfit_layout_offcuts(const struct dryfit_layout *layout,
                                    struct dryfit_stock *out,
                                    size_t cap,
                                    size_t *needed,
                                    struct dryfit_error *error);
#endif

#if defined(DRYFIT_HOST)
/**
 * Proves a layout: overlaps, borders, gaps, grain, thickness, counts, every part once.
 *
 * Errors: 810, 812. What is wrong with the layout is no error but what the report says.
 *
 * Ownership: the caller frees `*out` by `dryfit_report_free`. Threads: any.
 */
DRYFIT_API
dryfit_status dryfit_layout_check(const struct dryfit_layout *layout,
                                  struct dryfit_report **out,
                                  struct dryfit_error *error);
#endif

#if defined(DRYFIT_HOST)
/**
 * The SVG of a sheet, one unit being 1 mm: the lines as they are cut, or with `motion` as a tool's axis goes along them. With the cautions.
 *
 * Errors: 102, 407 to 409, 803, 806, 810, 812; what `write` returns.
 *
 * Ownership: nothing is kept. Threads: any.
 */
DRYFIT_API
dryfit_status dryfit_layout_svg(const struct dryfit_layout *layout,
                                size_t number,
                                const struct dryfit_motion *motion,
                                const char *title,
                                size_t size,
                                dryfit_write write,
                                void *user,
                                struct dryfit_error *error);
#endif

#if defined(DRYFIT_HOST)
/**
 * The DXF of a sheet, release 12, one unit being 1 mm: the lines as they are cut, or with `motion` as a tool's axis goes along them. With the cautions.
 *
 * Errors: as `dryfit_layout_svg`.
 *
 * Ownership: nothing is kept. Threads: any.
 */
DRYFIT_API
dryfit_status dryfit_layout_dxf(const struct dryfit_layout *layout,
                                size_t number,
                                const struct dryfit_motion *motion,
                                const char *title,
                                size_t size,
                                dryfit_write write,
                                void *user,
                                struct dryfit_error *error);
#endif

#if defined(DRYFIT_HOST)
/**
 * The G-code of a sheet. With the cautions.
 *
 * Errors: 102, 407 to 409, 803, 806, 810, 812; what `write` returns.
 *
 * Ownership: nothing is kept. Threads: any.
 */
DRYFIT_API
dryfit_status dryfit_layout_gcode(const struct dryfit_layout *layout,
                                  size_t number,
                                  const struct dryfit_motion *motion,
                                  const char *title,
                                  size_t size,
                                  dryfit_write write,
                                  void *user,
                                  struct dryfit_error *error);
#endif

#if defined(DRYFIT_HOST)
/**
 * The HP-GL of a sheet. With the cautions. What the format has no word for and the job cannot do without is refused.
 *
 * Errors: 102, 407 to 409, 703, 803, 810, 812; what `write` returns.
 *
 * Ownership: nothing is kept. Threads: any.
 */
DRYFIT_API
dryfit_status dryfit_layout_hpgl(const struct dryfit_layout *layout,
                                 size_t number,
                                 const struct dryfit_motion *motion,
                                 dryfit_write write,
                                 void *user,
                                 struct dryfit_error *error);
#endif

#if defined(DRYFIT_HOST)
/**
 * Cuts the boards of an assembly: allowances by role, then half the width of the cut all around, then the relief.
 *
 * Errors: as `dryfit_assembly_dry_fit`, 102, 401 to 405, 810, 812.
 *
 * Ownership: the caller frees `*out` by `dryfit_parts_free`; the assembly is not needed any more. Threads: any.
 */
DRYFIT_API
dryfit_status dryfit_parts_cut(const struct dryfit_assembly *assembly,
                               const struct dryfit_cut *cut,
                               struct dryfit_parts **out,
                               struct dryfit_error *error);
#endif

#if defined(DRYFIT_HOST)
/**
 * Frees parts and sets `*parts` to NULL. NULL, and a pointer to NULL, are as good.
 *
 * Errors: 812.
 *
 * Ownership: ends. Threads: nobody uses them any more.
 */
DRYFIT_API dryfit_status dryfit_parts_free(struct dryfit_parts **parts);
#endif

#if defined(DRYFIT_HOST)
/**
 * One job from two: first the parts of `first`, then those of `second`; of equal names the later ones get a number.
 *
 * Errors: 810, 812.
 *
 * Ownership: the caller frees `*out` by `dryfit_parts_free`; neither of the two is changed. Threads: any.
 */
DRYFIT_API
dryfit_status dryfit_parts_join(const struct dryfit_parts *first,
                                const struct dryfit_parts *second,
                                struct dryfit_parts **out,
                                struct dryfit_error *error);
#endif

#if defined(DRYFIT_HOST)
/**
 * How many parts there are.
 *
 * Errors: 810, 812.
 *
 * Ownership: nothing is kept. Threads: any.
 */
DRYFIT_API dryfit_status dryfit_parts_count(const struct dryfit_parts *parts, size_t *out, struct dryfit_error *error);
#endif

#if defined(DRYFIT_HOST)
/**
 * The number of the part of a name.
 *
 * Errors: 302, 806, 810, 812.
 *
 * Ownership: nothing is kept. Threads: any.
 */
DRYFIT_API
dryfit_status dryfit_parts_find(const struct dryfit_parts *parts,
                                const char *name,
                                size_t size,
                                size_t *out,
                                struct dryfit_error *error);
#endif

#if defined(DRYFIT_HOST)
/**
 * The name of a part; they are numbered from 0. UTF-8, ended by a zero, which `needed` counts.
 *
 * Errors: 102 for the number, 810, 811, 812.
 *
 * Ownership: nothing is kept. Threads: any.
 */
DRYFIT_API
dryfit_status dryfit_parts_name(const struct dryfit_parts *parts,
                                size_t number,
                                char *out,
                                size_t cap,
                                size_t *needed,
                                struct dryfit_error *error);
#endif

#if defined(DRYFIT_HOST)
/**
 * The numbers of a part.
 *
 * Errors: 102 for the number, 810, 812.
 *
 * Ownership: nothing is kept. Threads: any.
 */
DRYFIT_API
dryfit_status dryfit_parts_part(const struct dryfit_parts *parts,
                                size_t number,
                                struct dryfit_part *out,
                                struct dryfit_error *error);
#endif

#if defined(DRYFIT_HOST)
/**
 * The vertices of a loop of a part's path or finished outline: loop 0 is the outer one, counter-clockwise; holes run clockwise. Edges that are arcs are told by
 * `dryfit_parts_moves` only.
 *
 * Errors: 102 for the part, the outline and the loop, 810, 811, 812.
 *
 * Ownership: nothing is kept. Threads: any.
 */
DRYFIT_API
dryfit_status dryfit_parts_vertices(const struct dryfit_parts *parts,
                                    size_t number,
                                    uint32_t outline,
                                    size_t loop,
                                    struct dryfit_vertex *out,
                                    size_t cap,
                                    size_t *needed,
                                    struct dryfit_error *error);
#endif

#if defined(DRYFIT_HOST)
/**
 * The moves around a loop of a part's path or finished outline, one for each vertex; what `dryfit_parts_vertices` tells, and arcs.
 *
 * Errors: as `dryfit_parts_vertices`.
 *
 * Ownership: nothing is kept. Threads: any.
 */
DRYFIT_API
dryfit_status dryfit_parts_moves(const struct dryfit_parts *parts,
                                 size_t number,
                                 uint32_t outline,
                                 size_t loop,
                                 struct dryfit_move *out,
                                 size_t cap,
                                 size_t *needed,
                                 struct dryfit_error *error);
#endif

#if defined(DRYFIT_HOST)
/**
 * A picture of a part's path or finished outline as SVG, one unit being 1 mm.
 *
 * Errors: 102 for the part and the outline, 810, 812; what `write` returns.
 *
 * Ownership: nothing is kept. Threads: any.
 */
DRYFIT_API
dryfit_status dryfit_parts_svg(const struct dryfit_parts *parts,
                               size_t number,
                               uint32_t outline,
                               dryfit_write write,
                               void *user,
                               struct dryfit_error *error);
#endif

#if defined(DRYFIT_HOST)
/**
 * Puts the parts together without glue, piece by piece: the cut is taken off, and gaps may be what the fit asked for.
 *
 * Errors: 810, 812. That the parts do not fit is no error but what the report says.
 *
 * Ownership: the caller frees `*out` by `dryfit_report_free`. Threads: any.
 */
DRYFIT_API
dryfit_status dryfit_parts_dry_fit(const struct dryfit_parts *parts,
                                   struct dryfit_report **out,
                                   struct dryfit_error *error);
#endif

#if defined(DRYFIT_HOST)
/**
 * Frees a report and sets `*report` to NULL. NULL, and a pointer to NULL, are as good.
 *
 * Errors: 812.
 *
 * Ownership: ends. Threads: nobody uses it any more.
 */
DRYFIT_API dryfit_status dryfit_report_free(struct dryfit_report **report);
#endif

#if defined(DRYFIT_HOST)
/**
 * The numbers of a report.
 *
 * Errors: 810, 812.
 *
 * Ownership: nothing is kept. Threads: any.
 */
DRYFIT_API
dryfit_status dryfit_report_findings(const struct dryfit_report *report,
                                     struct dryfit_findings *out,
                                     struct dryfit_error *error);
#endif

#if defined(DRYFIT_HOST)
/**
 * A problem in words, with boards and places; they are numbered from 0. UTF-8, ended by a zero, which `needed` counts.
 *
 * Errors: 102 for the number, 810, 811, 812.
 *
 * Ownership: nothing is kept. Threads: any.
 */
DRYFIT_API
dryfit_status dryfit_report_problem(const struct dryfit_report *report,
                                    size_t number,
                                    char *out,
                                    size_t cap,
                                    size_t *needed,
                                    struct dryfit_error *error);
#endif

#if defined(DRYFIT_HOST)
/**
 * The thickness of a board from caliper readings: their exact mean, rounded to the nanometre.
 *
 * Errors: 102 for no reading, more than 10,000 or one that is no thickness; 810.
 *
 * Ownership: nothing is kept. Threads: any.
 */
DRYFIT_API
dryfit_status dryfit_mean_thickness(const dryfit_nm *readings,
                                    size_t count,
                                    dryfit_nm *out,
                                    struct dryfit_error *error);
#endif

/**
 * The name of a status in words, e.g. `fingers do not fit`; `ok` for 0, NULL for a number that is no status.
 *
 * Ownership: static, never freed. Threads: any.
 */
DRYFIT_API const char *dryfit_status_name(dryfit_status status);

/**
 * One sentence on a status; NULL for a number that is no status.
 *
 * Ownership: static, never freed. Threads: any.
 */
DRYFIT_API const char *dryfit_status_text(dryfit_status status);

/**
 * The version of the library as text, e.g. `0.1.0`.
 *
 * Ownership: static, never freed. Threads: any.
 */
DRYFIT_API const char *dryfit_version(void);

/**
 * A number that rises with any change of a layout or symbol that a program built before would notice. Compare it with `DRYFIT_ABI_VERSION` first of all.
 *
 * Threads: any.
 */
DRYFIT_API
uint32_t dryfit_abi_version(void);

#ifdef __cplusplus
}  // extern "C"
#endif  // __cplusplus

#endif  /* DRYFIT_H */
