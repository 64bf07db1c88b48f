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
}

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
for _, section in ipairs(tarn.pond_fields()) do
  io.write("\n## ", titles[section.section] or section.section, "\n\n")
  io.write("| field | unit | range | default | meaning |\n| --- | --- | --- | --- | --- |\n")
  for _, row in ipairs(section) do
    io.write(("| `%s` | %s | %s | %s | %s%s |\n"):format(row.name, row.unit, range(row), default(row),
      row.meaning, row.kind == "months" and " (by month)" or ""))
  end
end
