-- The C library from LuaJIT, with nothing installed but the library.
--
-- LuaJIT reads C itself: it is given the installed dryfit.h, without comments and conditions. Nothing of it is written down here a second time.
local ffi = require("ffi")

local function declarations(path)
    local file = assert(io.open(path, "rb"))
    local header = file:read("*a"):gsub("/%*.-%*/", ""):gsub("//[^\n]*", "")
    file:close()
    local numbers = {}
    for name, value in header:gmatch("#define (DRYFIT_[%w_]+) ([^\n]+)") do
        -- Lua's numbers hold every length exactly.
        numbers[name] = tonumber(value) or tonumber(value:match("^INT64_C%((%d+)%)$"))
    end
    header = ("\n" .. header):gsub("\n#[^\n]*", ""):gsub("DRYFIT_API", ""):gsub('extern "C" {', ""):gsub("\n}%s*$", "\n")
    header = header:gsub("%[(DRYFIT_[%w_]+)%]", function(name) return "[" .. numbers[name] .. "]" end)
    return header, numbers
end

-- The library below a prefix, as ffi/install puts it there.
local function open(prefix)
    local header, numbers = declarations(prefix .. "/include/dryfit.h")
    ffi.cdef(header)
    local c = ffi.load(prefix .. "/lib/libdryfit.so.0")
    assert(c.dryfit_abi_version() == numbers.DRYFIT_ABI_VERSION, "dryfit.h is not the library's")
    local dryfit = { c = c, numbers = numbers }

    -- Calls a function whose last parameter is the error. A refusal is an error of Lua: a table with its status, parameter and message.
    function dryfit.call(name, ...)
        local error_ = ffi.new("dryfit_error")
        local words = { n = select("#", ...), ... }
        words[words.n + 1] = error_
        local status = c[name](unpack(words, 1, words.n + 1))
        if status ~= 0 then
            local needed = ffi.new("size_t[1]")
            c.dryfit_error_message(error_, nil, 0, needed)
            local said = ffi.new("char[?]", needed[0])
            c.dryfit_error_message(error_, said, needed[0], needed)
            local message = ffi.string(said)
            error(setmetatable({ status = status, parameter = ffi.string(error_.parameter), message = message }, {
                __tostring = function(refused) return refused.message end,
            }), 2)
        end
    end

    -- All results of a function that ends with (out, cap, needed, error), as a C array and its length.
    function dryfit.all(name, of, ...)
        local needed = ffi.new("size_t[1]")
        local words = { n = select("#", ...), ... }
        local function ask(out, cap)
            local given = { unpack(words, 1, words.n) }
            given[words.n + 1], given[words.n + 2], given[words.n + 3] = out, cap, needed
            dryfit.call(name, unpack(given, 1, words.n + 3))
        end
        ask(nil, 0)
        local out = ffi.new(of .. "[?]", needed[0])
        ask(out, needed[0])
        return out, tonumber(needed[0])
    end

    -- Hands a function of Lua to `work` as a callback of C. An error must not go through C: it stops the work, and is raised behind it.
    function dryfit.callback(kind, taken, work)
        local raised
        local function guarded(_, ...)
            local fine, why = pcall(taken, ...)
            raised = raised or (not fine and { why } or nil)
            return fine and 0 or -1
        end
        local callback = ffi.cast(kind, guarded)
        -- C that calls Lua must not be called by compiled Lua.
        jit.off(work, true)
        local fine, why = pcall(work, callback)
        callback:free()
        if raised then error(raised[1], 0) end
        if not fine then error(why, 0) end
    end
    jit.off(dryfit.call)

    return dryfit
end

return { open = open }
