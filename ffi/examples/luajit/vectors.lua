-- Asks the C library for every case of the shared vectors that its bare layer can serve, and compares to the nanometre.
--
--     luajit vectors.lua PREFIX VECTORS      -- where ffi/install put the library, and tests/vectors of the repository
package.path = arg[0]:gsub("[^/]*$", "") .. "?.lua;" .. package.path
local ffi = require("ffi")
local json = require("json")

local prefix, folder = arg[1], arg[2]
if not folder then
    io.stderr:write("usage: luajit vectors.lua PREFIX VECTORS\n")
    os.exit(2)
end
local dryfit = require("dryfit").open(prefix)
local c, numbers = dryfit.c, dryfit.numbers
-- The thicker board. Every case states the widths that would else depend on it.
local BOARD = 3000000

local function cases(name)
    local file = assert(io.open(folder .. "/" .. name .. ".json", "rb"))
    local found = json.read(file:read("*a"))
    file:close()
    assert(#found > 0, name .. ".json has no cases")
    return found
end

local function number(kind, word) return assert(numbers["DRYFIT_" .. kind .. "_" .. word:upper()], word) end
local function stated(given, usual) return (given == nil or given == json.null) and usual or given end

-- Fingers of no count or no width are refused elsewhere. C has no word for them: there 0 is the usual value.
local function says_zero(spec) return spec.kind == "fingers" and (spec.count == 0 or spec.width == 0) end

local function joint(spec, into)
    into.kind, into.first = number("JOINT", spec.kind), number("SIDE", stated(spec.first, "A"))
    into.parity = number("PARITY", stated(spec.parity, "odd"))
    for _, name in ipairs({ "count", "width", "spacing", "end", "least" }) do into[name] = stated(spec[name], 0) end
    local split = stated(spec.split, { 0, 0 })
    into.numerator, into.denominator = split[1], split[2]
    return into
end

local function fit(case, into)
    for _, name in ipairs({ "flank", "cheek", "tip" }) do into[name] = case[name] or 0 end
end

-- What is made of a case, as numbers and words in one row.
local made = {}

function made.lengths(case)
    local out = ffi.new("dryfit_nm[1]")
    dryfit.call("dryfit_length_parse", case.text, #case.text, out)
    return { tonumber(out[0]) }
end

function made.patterns(case)
    local first = ffi.new("uint32_t[1]")
    local out, count = dryfit.all("dryfit_pattern", "dryfit_nm", joint(case.spec, ffi.new("dryfit_joint")), case.length, BOARD, first)
    local row = { first[0] == numbers.DRYFIT_SIDE_A and "A" or "B" }
    for at = 0, count - 1 do row[#row + 1] = tonumber(out[at]) end
    return row
end

function made.profiles(case)
    local edge = ffi.new("dryfit_edge", { run = case.length, thickness = BOARD, depth = case.depth, kerf = case.kerf, side = number("SIDE", case.side) })
    joint(case.spec, edge.joint)
    fit(case, edge.fit)
    local out, count = dryfit.all("dryfit_edge_vertices", "dryfit_vertex", edge)
    local row = {}
    for at = 0, count - 1 do
        row[#row + 1], row[#row + 2], row[#row + 3] = tonumber(out[at].at.x), tonumber(out[at].at.y), out[at].role
    end
    return row
end

local function box(case, cut)
    local flat = ffi.new("dryfit_flat_box", { outside = case.size, thickness = case.thickness, kerf = cut.kerf or 0, top = numbers["DRYFIT_TOP_" .. case.top:upper()] })
    flat.fingers.width = stated(case.finger_width, 0)
    fit(cut, flat.fit)
    local row = {}
    for face = 0, (flat.top == numbers.DRYFIT_TOP_OPEN and numbers.DRYFIT_FACE_TOP or numbers.DRYFIT_FACE_COUNT) - 1 do
        row[#row + 1] = ffi.string(c.dryfit_face_name(face))
        local out, count = dryfit.all("dryfit_panel_vertices", "dryfit_vertex", flat, face)
        for at = 0, count - 1 do row[#row + 1], row[#row + 2] = tonumber(out[at].at.x), tonumber(out[at].at.y) end
    end
    return row
end

-- What the oracle says, as such a row.
local function loops(boards)
    local row = {}
    for _, board in ipairs(boards) do
        assert(#board.loops == 1)
        row[#row + 1] = board.name
        for _, point in ipairs(board.loops[1]) do row[#row + 1], row[#row + 2] = point[1], point[2] end
    end
    return row
end

local function vertices(list)
    local row = {}
    for _, vertex in ipairs(list) do
        row[#row + 1], row[#row + 2], row[#row + 3] = vertex[1], vertex[2], number("ROLE", stated(vertex[3], "free"))
    end
    return row
end

local function words(row)
    for at = 1, #row do row[at] = type(row[at]) == "number" and ("%.0f"):format(row[at]) or row[at] end
    return table.concat(row, " ")
end

local counts = {}
local function compare(file, case, work, wanted)
    local fine, row = pcall(work)
    if not fine and not (type(row) == "table" and row.status) then error(row, 0) end
    local got, expected = fine and words(row) or "refused", wanted and words(wanted) or "refused"
    if got ~= expected then
        io.stderr:write(file, ": ", case, "\nwanted ", expected, "\n  made ", got, "\n")
        os.exit(1)
    end
    local count = counts[file] or { 0, 0 }
    counts[file] = { count[1] + 1, count[2] + (fine and 0 or 1) }
end

for at, case in ipairs(cases("lengths")) do compare("lengths", at, function() return made.lengths(case) end, not case.error and { case.nm }) end
for at, case in ipairs(cases("patterns")) do
    if not says_zero(case.spec) then
        compare("patterns", at, function() return made.patterns(case) end, not case.error and { case.first, unpack(case.boundaries) })
    end
end
for at, case in ipairs(cases("profiles")) do
    if not says_zero(case.spec) then compare("profiles", at, function() return made.profiles(case) end, not case.error and vertices(case.vertices)) end
end
local plain = {}
for _, case in ipairs(cases("boxes")) do
    if case.dividers[1] == 0 and case.dividers[2] == 0 and (case.top == "open" or case.top == "closed") and not (case.shelves or case.feet) then
        plain[case.name] = case
        compare("boxes", case.name, function() return box(case, {}) end, loops(case.boards))
    end
end
for _, cut in ipairs(cases("cuts")) do
    if cut.file == "boxes" and plain[cut.name] then
        compare("cuts", cut.name, function() return box(plain[cut.name], cut) end, loops(cut.boards))
    end
end
for _, file in ipairs({ "lengths", "patterns", "profiles", "boxes", "cuts" }) do
    print(("%s: %d equal, %d of them refused"):format(file, counts[file][1], counts[file][2]))
end
