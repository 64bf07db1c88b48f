-- JSON text of plain tables: lists, names, numbers, strings, true and false.
local json = {}

local function text(s)
  return '"' .. s:gsub('[%c"\\]', function(c) return ("\\u%04x"):format(c:byte()) end) .. '"'
end

-- The shortest of 15 to 17 digits that reads back as the same double.
local function number(x)
  if x ~= x or x == math.huge or x == -math.huge then return x == math.huge and "1e999" or "null" end
  if math.type(x) == "integer" then return tostring(x) end
  for digits = 15, 17 do
    local s = ("%." .. digits .. "g"):format(x)
    if tonumber(s) == x then return s end
  end
end

local function names_of(t)
  local names = {}
  for name in pairs(t) do names[#names + 1] = name end
  table.sort(names)
  return names
end

local function encode(x, indent)
  if type(x) == "string" then return text(x) end
  if type(x) == "number" then return number(x) end
  if type(x) ~= "table" then return tostring(x) end
  local inner, out = indent .. "  ", {}
  if #x > 0 then
    for i, item in ipairs(x) do out[i] = encode(item, inner) end
    return "[" .. table.concat(out, ", ") .. "]"
  end
  for i, name in ipairs(names_of(x)) do
    out[i] = inner .. text(name) .. ": " .. encode(x[name], inner)
  end
  return "{\n" .. table.concat(out, ",\n") .. "\n" .. indent .. "}"
end

function json.encode(x)
  return encode(x, "")
end

return json
