-- convert: a pond description from Lua to JSON, or from JSON to Lua
local args = require "common.args"
local inputs = require "common.inputs"

local spec = {
  usage = "tarn convert POND.lua|POND.json --to FILE.json|FILE.lua",
  purpose = "Writes a description in the other form: the same fields, numbers in SI.",
  positions = { { name = "POND", key = "pond", meaning = "description, .lua or .json" } },
  options = { { name = "to", value = "FILE", meaning = "file to write; its ending says the form" } },
}

local function sorted_keys(t)
  local keys = {}
  for key in pairs(t) do keys[#keys + 1] = key end
  table.sort(keys)
  return keys
end

-- The shortest decimal that reads back as the same number.
local function number(x)
  if math.type(x) == "integer" then return ("%d"):format(x) end
  for digits = 6, 17 do
    local s = ("%." .. digits .. "g"):format(x)
    if tonumber(s) == x then return s end
  end
end

local function json_text(s)
  return '"' .. s:gsub('[%c"\\]', function(c) return ("\\u%04x"):format(c:byte()) end) .. '"'
end

local function write(value, form, indent)
  local kind = type(value)
  if kind == "number" then return number(value) end
  if kind == "boolean" then return tostring(value) end
  if kind == "string" then return form == "json" and json_text(value) or ("%q"):format(value) end
  local out, inner = {}, indent .. "  "
  local open, close = "{", "}"
  if #value > 0 then
    if form == "json" then open, close = "[", "]" end
    for i, v in ipairs(value) do out[i] = inner .. write(v, form, inner) end
  else
    for i, key in ipairs(sorted_keys(value)) do
      out[i] = inner .. (form == "json" and json_text(key) .. ": " or key .. " = ") .. write(value[key], form, inner)
    end
  end
  return open .. "\n" .. table.concat(out, ",\n") .. "\n" .. indent .. close
end

local asked = args.read(spec)
local _, description = inputs.pond(asked.pond)
local form = asked.to and asked.to:match("%.(%a+)$")
if form ~= "json" and form ~= "lua" then tarn.mistake("--to must name a file that ends in .json or .lua") end
tarn.write_file(asked.to, (form == "lua" and "return " or "") .. write(description, form, "") .. "\n", { asked.pond })
io.write("Written: ", asked.to, "\n")
