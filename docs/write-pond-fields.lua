-- Writes docs/pond-fields.md from the rows that check a description:
--     build/tarn docs/write-pond-fields.lua > docs/pond-fields.md
local titles = {
  [""] = "The pond", basin = "`basin`: a shelved shape", bed = "`bed`: the planted gravel",
  stream = "`stream`: stream and falls", apron = "`apron`: paving that drains in", pump = "`pump`",
  seepage = "`seepage`", supply = "`supply`: the top-up's tap", tank = "`tank`: a rain tank",
  pipes = "`pipes`: a list of runs", falls = "`falls`: a list, from the top down",
  bay = "`bay`: where the pump takes its water", overflow = "`overflow`: its openings, at the lip",
  storm = "`storm`: the design storm", catchments = "`catchments`: a list of what else drains in",
  build = "`build`: how it is built, for quantities",
  evaporation = "`evaporation`: how it is found", costs = "`costs`",
  ["bed 2"] = "`bed`: for its sizing, `tarn bed`", layer = "`bed.layers`: each a table, from the bottom",
  demand = "`demand`: what flow is wanted for", fish = "`fish`: the load", water = "`water`",
  treatment = "`treatment`: what is wanted, and at which removal rate", yard = "`yard`: room for the bed",
  ["yard 2"] = "`yard`: the hole", corner = "`yard.corners`: each a table, in a round",
  chance = "`chance`: how uncertain the inputs are",
}
local seen = {}

local function number(x)
  return ("%.6g"):format(x)
end

local function default(row)
  if row.kind == "choice" then return "`\"" .. row.default .. "\"`" end
  if row.default == nil then return row.required and "**required**" or "-" end
  if type(row.default) == "boolean" then return "`" .. tostring(row.default) .. "`" end
  return number(row.default)
end

local function range(row)
  if row.kind == "choice" then return "`" .. table.concat(row.choices, "` `") .. "`" end
  if row.kind == "switch" then return "`true` `false`" end
  return number(row.lo) .. " to " .. number(row.hi)
end

io.write([[
# Fields of a pond description

Written from the rows that check a description: what stands here is what Tarn accepts. Numbers are SI
unless a unit is multiplied in (`4 * ft`). "By month" takes one number, or a list of 12, January first.
How a description is put together: [pond.md](pond.md).
]])
-- What is text or a list, and so has no row of numbers.
local beside = {
  [""] = { { "name", "title of reports, at most 100 bytes" } },
  basin = {
    { "shelves", "list of `{ depth =, width = }`, at most 16, from the top down: depth below the top edge, level width" },
    { "table", "instead of a shape: list of `{ level, area }` from the floor up" },
    { "contours", "instead of a shape: list of `{ level =, points = { {x, y}, ... } }` from the floor up" },
  },
  supply = {
    { "weekdays", "list of `\"mon\"` ... `\"sun\"` (or 1 to 7) on which it may run; all if not given" },
    { "months", "list of `\"jan\"` ... `\"dec\"` (or 1 to 12); all if not given" },
    { "open", "list of spans `{ from =, to = }`: only then; dates `\"YYYY-MM-DD\"`, or `\"MM-DD\"` for every year" },
    { "closed", "list of such spans: not then" },
  },
  costs = { { "currency", "`\"USD\"`, `\"EUR\"` ..., required with a price" } },
}

for _, section in ipairs(tarn.pond_fields()) do
  local name = section.section
  seen[name] = (seen[name] or 0) + 1
  io.write("\n## ", titles[seen[name] > 1 and name .. " " .. seen[name] or name] or name, "\n\n")
  io.write("| field | unit | range | default | meaning |\n| --- | --- | --- | --- | --- |\n")
  for _, row in ipairs(section) do
    io.write(("| `%s` | %s | %s | %s | %s%s |\n"):format(row.name, row.unit, range(row), default(row),
      row.meaning, row.kind == "months" and " (by month)" or ""))
  end
  for _, row in ipairs(beside[section.section] or {}) do
    io.write(("| `%s` | | | - | %s |\n"):format(row[1], row[2]))
  end
end

io.write([[

## `withdrawals`

A list of at most 8 `{ volume =, weekdays =, months =, open =, closed = }`: `volume` in m3 is taken on each day
of the schedule, which is read as that of `supply`.
]])
