-- SPDX-License-Identifier: MIT
-- JSON (RFC 8259) from tables.  An infinity is written as 1e999, which readers
-- take for one.
local json = {}

local LIST, ORDER = {}, {}

-- What stands for no value.
json.null = setmetatable({}, { __name = "null" })

-- A list, though it may be empty.
function json.list(t)
  return setmetatable(t, LIST)
end

-- An object whose keys keep the order in which they are added.
function json.object(...)
  local o = setmetatable({ [ORDER] = {} }, ORDER)
  for i = 1, select("#", ...), 2 do json.add(o, (select(i, ...)), (select(i + 1, ...))) end
  return o
end

function json.add(o, key, value)
  if value == nil then return end
  table.insert(o[ORDER], key)
  o[key] = value
end

local function keys_of(t)
  if getmetatable(t) == ORDER then return t[ORDER] end
  local keys = {}
  for key in pairs(t) do keys[#keys + 1] = key end
  table.sort(keys)
  return keys
end

local function text(s)
  return '"' .. s:gsub('[%c"\\]', function(c) return ("\\u%04x"):format(c:byte()) end) .. '"'
end

-- The shortest decimal that reads back as the same number.
function json.number(x)
  if math.type(x) == "integer" then return ("%d"):format(x) end
  if math.abs(x) == math.huge then return x > 0 and "1e999" or "-1e999" end
  for digits = 6, 17 do
    local s = ("%." .. digits .. "g"):format(x)
    if tonumber(s) == x then return s end
  end
end

local encode
local function entries(value, list, inner, colon)
  local out = {}
  if list then
    for i, item in ipairs(value) do out[i] = encode(item, inner) end
  else
    for i, key in ipairs(keys_of(value)) do out[i] = text(key) .. colon .. encode(value[key], inner) end
  end
  return out
end

-- indent: nil for one line, false for one without blanks; else what fits stands
-- on one line.
local WIDTH = 110
function encode(value, indent)
  local comma, colon, flat = ", ", ": ", nil
  if indent == false then comma, colon, flat = ",", ":", false end
  if type(value) == "string" then return text(value) end
  if type(value) == "number" then return json.number(value) end
  if type(value) ~= "table" then return tostring(value) end
  if value == json.null then return "null" end
  local list = getmetatable(value) == LIST or #value > 0
  local open, close = list and "[" or "{", list and "]" or "}"
  local line = open .. table.concat(entries(value, list, flat, colon), comma) .. close
  if not indent or #line + #indent < WIDTH then return line end
  local inner = indent .. "  "
  return open .. "\n" .. inner .. table.concat(entries(value, list, inner, colon), ",\n" .. inner) .. "\n" .. indent .. close
end

-- On one line, for programs.
function json.line(value)
  return encode(value, false) .. "\n"
end

-- For people too.
function json.pretty(value)
  return encode(value, "") .. "\n"
end

return json
