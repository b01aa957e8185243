-- Reads JSON: as much of it as the vectors use. Null is `null`, so that lists keep their length.
local null = setmetatable({}, { __tostring = function() return "null" end })
local value

local escapes = { ['"'] = '"', ["\\"] = "\\", ["/"] = "/", b = "\b", f = "\f", n = "\n", r = "\r", t = "\t" }

local function utf8(code)
    if code < 0x80 then return string.char(code) end
    if code < 0x800 then return string.char(0xC0 + math.floor(code / 0x40), 0x80 + code % 0x40) end
    if code < 0x10000 then return string.char(0xE0 + math.floor(code / 0x1000), 0x80 + math.floor(code / 0x40) % 0x40, 0x80 + code % 0x40) end
    return string.char(0xF0 + math.floor(code / 0x40000), 0x80 + math.floor(code / 0x1000) % 0x40, 0x80 + math.floor(code / 0x40) % 0x40, 0x80 + code % 0x40)
end

local function text(json, at)
    local parts = {}
    while true do
        local plain, stop = json:match('^([^"\\]*)()', at)
        parts[#parts + 1] = plain
        if json:sub(stop, stop) == '"' then return table.concat(parts), stop + 1 end
        local letter = json:sub(stop + 1, stop + 1)
        if letter == "u" then
            local code = assert(tonumber(json:sub(stop + 2, stop + 5), 16))
            at = stop + 6
            if code >= 0xD800 and code < 0xDC00 then
                code = 0x10000 + (code - 0xD800) * 0x400 + assert(tonumber(json:match("^\\u(%x%x%x%x)", at), 16)) - 0xDC00
                at = at + 6
            end
            parts[#parts + 1] = utf8(code)
        else
            parts[#parts + 1] = assert(escapes[letter], "no such escape")
            at = stop + 2
        end
    end
end

local function list(json, at)
    local found = {}
    at = json:match("^%s*()", at)
    if json:sub(at, at) == "]" then return found, at + 1 end
    while true do
        found[#found + 1], at = value(json, at)
        local comma
        comma, at = json:match("^%s*([,%]])()", at)
        if comma == "]" then return found, at end
    end
end

local function object(json, at)
    local found = {}
    at = json:match("^%s*()", at)
    if json:sub(at, at) == "}" then return found, at + 1 end
    while true do
        local key, comma
        key, at = text(json, json:match('^%s*"()', at))
        found[key], at = value(json, json:match("^%s*:()", at))
        comma, at = json:match("^%s*([,}])()", at)
        if comma == "}" then return found, at end
    end
end

function value(json, at)
    at = json:match("^%s*()", at)
    local first = json:sub(at, at)
    if first == "{" then return object(json, at + 1) end
    if first == "[" then return list(json, at + 1) end
    if first == '"' then return text(json, at + 1) end
    local number, word, stop = json:match("^(-?[%d.eE+-]*)(%a*)()", at)
    if word == "null" then return null, stop end
    if word == "true" or word == "false" then return word == "true", stop end
    return assert(tonumber(number), "not JSON"), stop
end

return { null = null, read = function(json) return (value(json, 1)) end }
