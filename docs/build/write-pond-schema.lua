-- SPDX-License-Identifier: MIT
-- Writes docs/build/pond.schema.json from the rows that check a description:
--     build/tarn docs/build/write-pond-schema.lua > docs/build/pond.schema.json

local json = require "common.json"
local object, add = json.object, json.add

-- ---- rows of numbers --------------------------------------------------------------

local function finite(x)
  return math.abs(x) < math.huge and x or nil
end

local function bounds(row)
  return object("type", "number", "minimum", finite(row.lo), "maximum", finite(row.hi))
end

local function list(items, least, most)
  return object("type", "array", "items", items, "minItems", least, "maxItems", most)
end

local ROW = {
  number = bounds,
  months = function(row) return object("anyOf", { bounds(row), list(bounds(row), 12, 12) }) end,
  choice = function(row) return object("enum", row.choices) end,
  switch = function() return object("type", "boolean") end,
}

local function row_schema(row)
  local schema = ROW[row.kind](row)
  local unit = row.unit ~= "-" and " [" .. row.unit .. "]" or ""
  add(schema, "description", row.meaning .. unit .. (row.kind == "months" and ", one or by month" or ""))
  if row.default ~= nil and row.default ~= math.huge then add(schema, "default", row.default) end
  return schema
end

-- ---- the others -------------------------------------------------------------------

local function of(section)
  return object("$ref", "#/$defs/" .. section)
end

local function upto(hi)
  return object("type", "number", "minimum", 0, "maximum", hi)
end

local BESIDE = {
  text = function(row) return object("type", "string", "maxLength", row.most, "pattern", "^[^\u{1}-\u{1f}\u{7f}]*$") end,
  word = function(row) return object("enum", row.choices) end,
  date = function() return object("type", "string", "pattern", "^([0-9]{4}-)?(0[1-9]|1[0-2])-(0[1-9]|[12][0-9]|3[01])$") end,
  table = function(row) return of(row.of) end,
  tables = function(row) return list(of(row.of), row.least, row.most) end,
  pairs = function(row) return list(list(object("type", "number"), 2, 2), row.least, row.most) end,
  numbers = function(row) return list(object("anyOf", { upto(row.hi), object("const", false) }), row.least, row.most) end,
  names = function(row)
    local numbered = object("type", "integer", "minimum", 1, "maximum", #row.choices)
    return list(object("anyOf", { object("enum", row.choices), numbered }), row.least, row.most)
  end,
  counts = function(row)
    local kinds = object()
    for _, name in ipairs(row.choices) do add(kinds, name, upto(row.hi)) end
    return object("type", "object", "properties", kinds, "additionalProperties", false, "maxProperties", row.most)
  end,
}

local function beside_schema(row)
  local schema = BESIDE[row.kind](row)
  add(schema, "description", row.meaning)
  return schema
end

-- ---- sections ---------------------------------------------------------------------

local function section_schema(section)
  local schema, fields, required, alone = object("type", "object"), object(), {}, {}
  local function take(rows, make)
    for _, row in ipairs(rows) do
      add(fields, row.name, make(row))
      if row.required and row.default == nil then required[#required + 1] = row.name end
      if row.alone then alone[#alone + 1] = object("required", { row.name }) end
    end
  end
  take(section, row_schema)
  take(section.beside, beside_schema)
  add(schema, "properties", fields)
  add(schema, "additionalProperties", false)
  if #alone > 0 then
    add(schema, "if", object("anyOf", alone))
    add(schema, "then", object("maxProperties", 1))
    add(schema, "else", object("required", required))
  elseif #required > 0 then
    add(schema, "required", required)
  end
  return schema
end

local schema = object("$schema", "https://json-schema.org/draft/2020-12/schema", "title", "Pond description of Tarn",
  "description", "A pond as `tarn` and its page read it from JSON; numbers in SI, their units in brackets. Written from the "
    .. "rows that check a description. What hangs on several fields at once (the order of the levels, a bed that has "
    .. "both an area and a length) the program checks.")
local sections, root = object(), nil
for _, section in ipairs(tarn.pond_fields()) do
  if section.section == "" then
    root = section_schema(section)
  else
    add(sections, section.section, section_schema(section))
  end
end
for _, key in ipairs { "type", "properties", "additionalProperties", "required" } do add(schema, key, root[key]) end
add(schema, "$defs", sections)
io.write(json.pretty(schema))
