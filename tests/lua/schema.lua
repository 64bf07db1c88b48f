-- SPDX-License-Identifier: MIT
-- docs/build/pond.schema.json accepts what the program accepts, and refuses what the program refuses field by field.
local schema = tarn.description "docs/build/pond.schema.json"
local sections = tarn.pond_fields()

-- ---- a validator of the words that the schema uses --------------------------------

local KNOWN = {}
for word in ([[$schema title description type properties additionalProperties required $defs $ref if then else anyOf
  minimum maximum default enum const items minItems maxItems maxProperties maxLength pattern]]):gmatch "%S+" do KNOWN[word] = true end

local TYPES = {
  number = function(v) return type(v) == "number" end,
  integer = function(v) return math.type(v) == "integer" or type(v) == "number" and v % 1 == 0 end,
  string = function(v) return type(v) == "string" end,
  boolean = function(v) return type(v) == "boolean" end,
  object = function(v) return type(v) == "table" and (#v == 0 or next(v) == nil) end,
  array = function(v) return type(v) == "table" and (#v > 0 or next(v) == nil) end,
}

local function size(t)
  local n = 0
  for _ in pairs(t) do n = n + 1 end
  return n
end

local valid
local function any(list, v)
  for _, s in ipairs(list) do
    if valid(s, v) then return true end
  end
  return false
end

local function one_of(list, v)
  for _, x in ipairs(list) do
    if x == v then return true end
  end
  return false
end

local function fields_valid(s, v)
  for _, name in ipairs(s.required or {}) do
    if v[name] == nil then return false end
  end
  for name, x in pairs(v) do
    local of = s.properties and s.properties[name]
    if not of and s.additionalProperties == false then return false end
    if of and not valid(of, x) then return false end
  end
  return size(v) <= (s.maxProperties or math.huge)
end

local function items_valid(s, v)
  if s.items then
    for _, x in ipairs(v) do
      if not valid(s.items, x) then return false end
    end
  end
  return #v >= (s.minItems or 0) and #v <= (s.maxItems or math.huge)
end

-- Of the two patterns: a date, and a text without control characters.
local function matches(pattern, v)
  if pattern:find "0%-9" then return v:find "^%d%d%d%d%-%d%d%-%d%d$" or v:find "^%d%d%-%d%d$" end
  return not v:find "[\1-\31\127]"
end

function valid(s, v)
  if s["$ref"] then return valid(schema["$defs"][s["$ref"]:match "^#/%$defs/(.+)$"], v) end
  if s.type and not TYPES[s.type](v) then return false end
  if s.enum and not one_of(s.enum, v) or s.const ~= nil and s.const ~= v then return false end
  if s.anyOf and not any(s.anyOf, v) then return false end
  if type(v) == "number" then return v >= (s.minimum or -math.huge) and v <= (s.maximum or math.huge) end
  if type(v) == "string" then return utf8.len(v) <= (s.maxLength or math.huge) and (not s.pattern or matches(s.pattern, v)) end
  if type(v) ~= "table" then return true end
  if s["if"] and not valid(valid(s["if"], v) and s["then"] or s["else"], v) then return false end
  return fields_valid(s, v) and items_valid(s, v)
end

local function words(s, named)
  for key, v in pairs(s) do
    if not named and type(key) == "string" then assert(KNOWN[key], key) end
    if type(v) == "table" then words(v, not named and (key == "properties" or key == "$defs")) end
  end
end
words(schema)

-- ---- what the project's own descriptions say ---------------------------------------

local accepted = 0
for path in io.popen "ls weather-samples/*.lua tests/good/*.lua tests/bad/beds/*.lua tests/bad/works/*.lua tests/bad/ponds/*.lua":lines() do
  local read, description = pcall(tarn.description, path)
  if read and type(description) == "table" then
    if pcall(tarn.pond, description) then
      accepted = accepted + 1
      assert(valid(schema, description), path)
    end
  end
end
assert(accepted >= 19, accepted)

-- ---- every field of the rows, at its ends and beyond them ---------------------------

local function base()
  return { basin = { length = 4, width = 3, depth = 1.2 }, overflow_level = 1, yard = { length = 4, width = 3 } }
end

-- A description in which 'put' changes a table of that section, made with
-- what it requires: where such a table stands, or as the entries of a list.
local function place(d, section, at)
  for _, other in ipairs(sections) do
    for _, row in ipairs(other.beside) do
      if row.of == section then
        local holder = d
        if other.section ~= "" then
          d[other.section] = d[other.section] or {}
          holder = d[other.section]
        end
        if row.alone then holder = {} d[other.section] = holder end
        for name, v in pairs(row.kind == "table" and holder[row.name] or {}) do at[name] = v end
        holder[row.name] = row.kind == "table" and at or {}
        for i = 1, row.kind == "table" and 0 or math.max(1, row.least) do holder[row.name][i] = at end
        return
      end
    end
  end
end

local function with(section, put)
  local d, at = base(), {}
  if section == "" then at = d else place(d, section, at) end
  for _, s in ipairs(sections) do
    if s.section == section then
      for _, row in ipairs(s) do
        if row.required and row.default == nil and at[row.name] == nil then at[row.name] = math.max(row.lo, math.min(row.hi, 1)) end
      end
      for _, row in ipairs(s.beside) do
        if row.required and at[row.name] == nil then
          at[row.name] = row.kind == "pairs" and { { 0, 0 }, { 1, 0 }, { 0, 1 } } or "06-01"
        end
      end
    end
  end
  put(at)
  return d
end

local checked = 0
local function both_refuse(section, name, value)
  local d = with(section, function(at) at[name] = value end)
  local fine, message = pcall(tarn.pond, d)
  local where = ("%s.%s = %s"):format(section, name, tostring(value))
  assert(not fine, where .. " is accepted by the program")
  assert(tostring(message):find(name, 1, true), where .. ": " .. tostring(message))
  assert(not valid(schema, d), where .. " is accepted by the schema")
  checked = checked + 1
end

local function schema_accepts(section, name, value)
  assert(valid(schema, with(section, function(at) at[name] = value end)), ("%s.%s = %s"):format(section, name, tostring(value)))
  checked = checked + 1
end

local step = 1e-6
for _, section in ipairs(sections) do
  local name = section.section
  both_refuse(name, "nonsense", 1)
  for _, row in ipairs(section) do
    local of = (name == "" and schema or schema["$defs"][name]).properties[row.name]
    assert(of.description:find(row.meaning, 1, true), row.name)
    assert(row.unit == "-" or of.description:find("[" .. row.unit .. "]", 1, true), row.name)
    if row.default ~= nil and row.default ~= math.huge then assert(of.default == row.default, row.name) end
    if row.kind == "choice" then
      for _, word in ipairs(row.choices) do schema_accepts(name, row.name, word) end
      both_refuse(name, row.name, "no such")
    elseif row.kind == "switch" then
      schema_accepts(name, row.name, true)
      both_refuse(name, row.name, "yes")
    else
      schema_accepts(name, row.name, row.lo)
      both_refuse(name, row.name, row.lo - math.max(step, math.abs(row.lo) * step))
      both_refuse(name, row.name, "much")
      if row.hi < math.huge then
        schema_accepts(name, row.name, row.hi)
        both_refuse(name, row.name, row.hi + math.max(step, row.hi * step))
      end
    end
    if row.required and row.default == nil then
      local d = with(name, function(at) at[row.name] = nil end)
      assert(not pcall(tarn.pond, d) and not valid(schema, d), row.name)
    end
  end
  for _, row in ipairs(section.beside) do both_refuse(name, row.name, 7) end
end
assert(checked > 600, checked)

-- ---- lists and texts ----------------------------------------------------------------

local function refused_by_both(d)
  local fine = pcall(tarn.pond, d)
  assert(not fine)
  assert(not valid(schema, d))
end

local function changed(change)
  local d = base()
  change(d)
  return d
end

for _, change in ipairs {
  function(d) d.name = ("x"):rep(101) end, function(d) d.name = "a\nb" end,
  function(d) d.basin = nil end, function(d) d.basin.table = { { 0, 1 }, { 1, 2 } } end,
  function(d) d.basin = { table = { { 0, 1 } } } end, function(d) d.basin = { table = { { 0, 1 }, { 1 } } } end,
  function(d) d.supply = { weekdays = { "moonday" } } end, function(d) d.supply = { months = { 13 } } end,
  function(d) d.supply = { open = { { from = "07-01" } } } end, function(d) d.supply = { open = { { from = "July", to = "08-01" } } } end,
  function(d) d.pipes = { length = 3 } end, function(d) d.costs = { water = 1 } end,
  function(d) d.yard = { length = 4, width = 3, footings = { "18 inch" } } end,
  function(d) d.yard = { length = 4, width = 3, setbacks = { 1001 } } end,
  function(d) d.yard = { corners = { { x = 0, y = 0 }, { x = 1, y = 0 } } } end,
  function(d) d.treatment = { rate = "nobody's" } end, function(d) d.falls = {} end,
} do refused_by_both(changed(change)) end

local fitted = with("pipes", function(at) at.fittings = { ["ball valves"] = 1 } end)
refused_by_both(fitted)
