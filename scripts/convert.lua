-- SPDX-License-Identifier: MIT
-- convert: a pond description from Lua to JSON, or from JSON to Lua
local args = require "common.args"
local doubts = require "common.doubts"
local inputs = require "common.inputs"
local json = require "common.json"
local view_of = require "common.view"

local spec = {
  usage = "tarn convert POND.lua|POND.json --to FILE.json|FILE.lua",
  purpose = "Writes a description in the other form: the same fields, numbers in SI (JSON: docs/build/pond.schema.json).",
  positions = { { name = "POND", key = "pond", meaning = "description, .lua or .json" } },
  options = { { name = "to", value = "FILE", kind = "output", meaning = "file to write; its ending says the form" } },
}

-- An empty list is not an empty table in JSON.
local LISTS = { tables = true, pairs = true, numbers = true, names = true }
local is_list = {}
for _, section in ipairs(tarn.pond_fields()) do
  for _, row in ipairs(section.beside) do is_list[row.name] = LISTS[row.kind] end
end

local function mark_lists(t)
  for key, value in pairs(t) do
    if type(value) == "table" then
      if is_list[key] then json.list(value) end
      mark_lists(value)
    end
  end
  return t
end

local function sorted_keys(t)
  local keys = {}
  for key in pairs(t) do keys[#keys + 1] = key end
  table.sort(keys)
  return keys
end

local function lua(value, indent)
  local kind = type(value)
  if kind == "number" then return json.number(value) end
  if kind == "boolean" then return tostring(value) end
  if kind == "string" then return ("%q"):format(value) end
  local out, inner = {}, indent .. "  "
  for i, item in ipairs(value) do out[i] = inner .. lua(item, inner) end
  for _, key in ipairs(#out > 0 and {} or sorted_keys(value)) do
    local name = key:find "^[%a_][%w_]*$" and key or ("[%q]"):format(key)
    out[#out + 1] = inner .. name .. " = " .. lua(value[key], inner)
  end
  if #out == 0 then return "{}" end
  return "{\n" .. table.concat(out, ",\n") .. "\n" .. indent .. "}"
end

local asked = args.read(spec)
local pond, description = inputs.pond(asked.pond)
local form = asked.to and asked.to:match("%.(%a+)$")
if form ~= "json" and form ~= "lua" then tarn.mistake("--to must name a file that ends in .json or .lua") end
local text = form == "json" and json.pretty(mark_lists(description)) or "return " .. lua(description, "") .. "\n"
tarn.write_file(asked.to, text)
for _, line in ipairs(doubts.of_pond(pond, view_of "metric")) do io.write("CHECK THE DESCRIPTION: ", line, "\n") end
io.write("Written: ", tarn.visible(asked.to), "\n")
for _, old in ipairs(inputs.old_names) do io.write(("%s is called %s now\n"):format(old[1], old[2])) end
