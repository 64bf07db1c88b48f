-- SPDX-License-Identifier: MIT
-- Writes docs/build/pond-fields.md from the rows that check a description:
--     build/tarn docs/build/write-pond-fields.lua > docs/build/pond-fields.md
local sections = tarn.pond_fields()

local function number(x)
  return ("%.6g"):format(x)
end

local function quoted(list)
  return "`" .. table.concat(list, "` `") .. "`"
end

local function default(row)
  if row.kind == "choice" then return "`\"" .. row.default .. "\"`" end
  if row.default == nil then return row.required and "**required**" or "-" end
  if type(row.default) == "boolean" then return "`" .. tostring(row.default) .. "`" end
  return number(row.default)
end

local function range(row)
  if row.kind == "choice" then return quoted(row.choices) end
  if row.kind == "switch" then return "`true` `false`" end
  return number(row.lo) .. " to " .. number(row.hi)
end

-- What is no number says here what it is.
local function count(row)
  if row.least == 0 then return ("at most %d"):format(row.most) end
  return ("%d to %d"):format(row.least, row.most)
end
local WHAT = {
  text = function(row) return ("text, at most %d bytes"):format(row.most) end,
  word = function(row) return quoted(row.choices) end,
  date = function() return "text" end,
  table = function() return "table" end,
  tables = function(row) return "list of " .. count(row) .. " tables" end,
  pairs = function(row) return "list of " .. count(row) .. " pairs" end,
  numbers = function(row) return ("list of numbers, 0 to %g"):format(row.hi) end,
  names = function(row)
    return ("list of `%s` ... `%s`, or 1 to %d"):format(row.choices[1], row.choices[#row.choices], #row.choices)
  end,
  counts = function(row) return ("table of at most %d numbers, 0 to %g, by "):format(row.most, row.hi) .. quoted(row.choices) end,
}

-- Where the tables of a section stand, and what they are.
local function title(section)
  if section.section == "" then return "The pond" end
  local places, meaning = {}, nil
  for _, other in ipairs(sections) do
    for _, row in ipairs(other.beside) do
      if row.of == section.section then
        places[#places + 1] = other.section == "" and row.name or other.section .. "." .. row.name
        meaning = meaning or row.meaning .. (row.kind == "tables" and "; a list of tables" or "")
      end
    end
  end
  return "`" .. table.concat(places, "`, `") .. "`: " .. meaning
end

io.write([[
# Fields of a pond description

Written from the rows that check a description: what stands here is what Tarn accepts. Numbers are SI
unless a unit is multiplied in (`4 * ft`). "By month" takes one number, or a list of 12, January first.
How a description is put together: [pond.md](../pond.md). The same for editors and other programs, as JSON Schema:
[pond.schema.json](pond.schema.json).
]])
for _, section in ipairs(sections) do
  io.write("\n## ", title(section), "\n\n")
  io.write("| field | unit | range | default | meaning |\n| --- | --- | --- | --- | --- |\n")
  for _, row in ipairs(section) do
    io.write(("| `%s` | %s | %s | %s | %s%s |\n"):format(row.name, row.unit, range(row), default(row),
      row.meaning, row.kind == "months" and " (by month)" or row.was and (" (was `%s`)"):format(row.was) or ""))
  end
  for _, row in ipairs(section.beside) do
    io.write(("| `%s` | | %s | %s | %s |\n"):format(row.name, WHAT[row.kind](row), default(row), row.meaning))
  end
end
