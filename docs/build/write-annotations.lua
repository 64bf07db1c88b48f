-- SPDX-License-Identifier: MIT
-- Writes the annotations by which editors complete and check scripts that use
-- the module: each function with the comment of its binding, each field of a
-- pond with unit and meaning.
--
--     build/tarn docs/build/write-annotations.lua > build/tarn.d.lua

-- ---- what the bindings' comments say -------------------------------------------

local said = {} -- "name" -> list of { file, text }
for path in assert(io.popen "ls bindings/lua/*.c"):lines() do
  local f = assert(io.open(path))
  local source, wing = f:read "a", path:match "([%a]+)[_%w]*%.c$"
  f:close()
  for comment, after in source:gmatch "\n/%*(.-)%*/\n([^\n]*)" do
    local name = after:match "^static int l_([%w_]+)%(" or after:match "^int bind_%a+_([%w_]+)%("
    if name then
      local text = comment:gsub("%s*\n%s*%*?%s*", " "):match "^%s*(.-)%s*$"
      said[name] = said[name] or {}
      table.insert(said[name], { wing = wing, text = text })
    end
  end
end

-- The comment of a function; that of its own wing where several have the name.
local function comment_of(owner, name)
  for _, entry in ipairs(said[name] or {}) do
    if owner:find(entry.wing, 1, true) then return entry.text end
  end
  local all = said[name]
  return all and #all == 1 and all[1].text
end

-- ---- writing --------------------------------------------------------------------

local CLASS = { ["tarn.weather"] = "tarn.Weather", ["tarn.pond"] = "tarn.Pond", ["tarn.ledger"] = "tarn.Ledger",
  ["tarn.basin"] = "tarn.Basin", ["tarn.log"] = "tarn.Log", ["tarn.leak"] = "tarn.Leak" }
local RETURNS = { ["tarn.weather.read"] = "tarn.Weather", ["tarn.weather.parse"] = "tarn.Weather",
  ["tarn.weather.table"] = "tarn.Weather", ["tarn.Weather:slice"] = "tarn.Weather", ["tarn.pond"] = "tarn.Pond",
  ["tarn.Pond:run"] = "tarn.Ledger", ["tarn.Pond:basin"] = "tarn.Basin", ["tarn.basin.table"] = "tarn.Basin",
  ["tarn.basin.contours"] = "tarn.Basin", ["tarn.basin.shelved"] = "tarn.Basin", ["tarn.log.read"] = "tarn.Log",
  ["tarn.log.list"] = "tarn.Log", ["tarn.leak"] = "tarn.Leak", ["tarn.description"] = "table, string" }
local TAKES = { ["tarn.pond"] = "tarn.Description" }

local function sorted(t)
  local keys = {}
  for key in pairs(t) do if type(key) == "string" then keys[#keys + 1] = key end end
  table.sort(keys)
  return keys
end

-- A function of numbers, by the rows that check them.
local function write_numbers(full, takes)
  local names = {}
  for i, a in ipairs(takes.arguments) do
    names[i] = a.name:gsub("[^%w]", "_")
    local unit = a.unit ~= "-" and a.unit ~= "" and (" [%s]"):format(a.unit) or ""
    local range = ("%s %g to %g%s"):format(unit, a.lo, a.hi, a.default and (", else %g"):format(a.default) or "")
    local kind = takes.named and "---@field" or "---@param"
    if i == 1 and takes.named then print("---@class " .. full .. ".options") end
    print(("%s %s%s number%s"):format(kind, names[i], a.required and "" or "?", range))
  end
  if takes.named then print(("\n---@param options %s.options"):format(full)) end
  print("---@return number # " .. takes.unit)
  print(("function %s(%s) end\n"):format(full, takes.named and "options" or table.concat(names, ", ")))
end

local ROW = { number = "number", months = "number[]", choice = "string", switch = "boolean", whole = "integer",
  date = "string", text = "string", flags = "table<string, string>", named = "table<string, number>", numbers = "number[]", pairs = "number[][]",
  table = "table", tables = "table[]" }

-- A function of a table, by the rows of what it takes and gives.
local function write_solver(full, takes)
  for _, part in ipairs { "takes", "gives" } do
    print(("---@class %s.%s"):format(full, part))
    for _, row in ipairs(takes[part]) do
      print(("---@field %s? %s [%s] %s"):format(row.name, ROW[row.kind], row.unit, row.meaning))
    end
    print()
  end
  print(("---@param options %s.takes"):format(full))
  if takes.first then print("---@return number " .. takes.first) end
  print(("---@return %s.gives"):format(full))
  print(("function %s(options) end\n"):format(full))
end

local function write_function(owner, mark, name, f)
  local full = owner .. mark .. name
  local takes = tarn.signature(f)
  if takes then return (takes.arguments and write_numbers or write_solver)(full, takes) end
  local comment = comment_of(owner:lower(), name)
  if comment then print("---" .. comment) end
  if TAKES[full] then print("---@param description " .. TAKES[full]) end
  print("---@return " .. (RETURNS[full] or "any"))
  print(("function %s(%s) end\n"):format(full, TAKES[full] and "description" or "..."))
end

local function write_functions(owner, t)
  for _, name in ipairs(sorted(t)) do
    if type(t[name]) == "function" then write_function(owner, ".", name, t[name]) end
  end
  for _, name in ipairs(sorted(t)) do
    if type(t[name]) == "table" and name ~= "units" and name:find "^[%a_][%w_]*$" then
      print(("%s.%s = {}\n"):format(owner, name))
      write_functions(owner .. "." .. name, t[name])
    end
  end
end

local function write_methods()
  local registry = debug.getregistry()
  for _, key in ipairs(sorted(registry)) do
    local class, methods = CLASS[key], type(registry[key]) == "table" and registry[key].__index
    if class and type(methods) == "table" then
      print("---@class " .. class .. "\n" .. class .. " = {}\n")
      for _, name in ipairs(sorted(methods)) do
        if not name:find "^__" and type(methods[name]) == "function" then write_function(class, ":", name, methods[name]) end
      end
    end
  end
end

local TYPES = { number = "number", months = "number|number[]", choice = "string", switch = "boolean", text = "string",
  word = "string", date = "string", pairs = "number[][]", numbers = "(number|false)[]", names = "(string|integer)[]",
  counts = "table<string, number>" }

local function class_of(section)
  return "tarn.Description" .. (section == "" and "" or "." .. section)
end

local function write_description()
  for _, section in ipairs(tarn.pond_fields()) do
    print("---@class " .. class_of(section.section))
    for _, row in ipairs(section) do
      print(("---@field %s? %s [%s] %s"):format(row.name, TYPES[row.kind], row.unit, row.meaning))
    end
    for _, row in ipairs(section.beside) do
      local of = row.of and class_of(row.of) .. (row.kind == "tables" and "[]" or "")
      local name = row.name:find "^[%a_]" and row.name or ("[%q]"):format(row.name)
      print(("---@field %s? %s %s"):format(name, TYPES[row.kind] or of, row.meaning))
    end
    print()
  end
end

print("---@meta tarn\n-- Tarn " .. tarn.version .. ": annotations of the module for editors; not to be run.\n")
print("tarn = { version = \"\" }\n\n---factors: 4 * tarn.units.ft is 4 ft in metres\ntarn.units = {}\n")
write_description()
write_functions("tarn", tarn)
write_methods()
print "return tarn"
