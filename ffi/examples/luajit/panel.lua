-- The front of a box of 110 x 85 x 60 mm in board of 3 mm, as an SVG file on standard output: what panel.c writes.
--
--     luajit panel.lua PREFIX > front.svg      -- where ffi/install put the library
package.path = arg[0]:gsub("[^/]*$", "") .. "?.lua;" .. package.path
local ffi = require("ffi")

if not arg[1] then
    io.stderr:write("usage: luajit panel.lua PREFIX\n")
    os.exit(2)
end
local dryfit = require("dryfit").open(arg[1])
local mm, numbers = dryfit.numbers.DRYFIT_MM, dryfit.numbers
local box = ffi.new("dryfit_flat_box", { outside = { 110 * mm, 85 * mm, 60 * mm }, thickness = 3 * mm, kerf = mm / 5, at = { 5 * mm, 5 * mm } })
-- The library's own: it lies in our memory, and holds the callback until the file is ended.
local file = ffi.new("dryfit_file")

local function write(bytes, size) assert(io.stdout:write(ffi.string(bytes, size))) end

local fine, why = pcall(dryfit.callback, "dryfit_write", write, function(written)
    dryfit.call("dryfit_svg_begin", file, 120 * mm, 70 * mm, "Front", 5, nil, 0, written, nil)
    dryfit.call("dryfit_svg_line", file, numbers.DRYFIT_LINE_CUT_OUTER, 1)
    dryfit.call("dryfit_panel_moves", box, numbers.DRYFIT_FACE_FRONT, dryfit.c.dryfit_svg_cut, file)
    dryfit.call("dryfit_svg_end", file)
end)
if not (fine and io.stdout:flush()) then
    io.stderr:write(tostring(why or "standard output takes no more"), "\n")
    os.exit(1)
end
