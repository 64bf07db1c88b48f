-- SPDX-License-Identifier: MIT
-- docs/checks.md and docs/checks.csv from what the tests compared: make checks
--
--   tarn docs/write-checks.lua NOTES FOLDER     NOTES: what the suite wrote, tests/published.h

local notes, folder = arg[1], arg[2]

-- The wing of a test file, by how its name begins.
local WINGS = {
  { "base", "test_base" }, { "weather", "test_weather" },
  { "evaporation", "test_air", "test_sun", "test_heat", "test_evaporation" }, { "flow", "test_flow" },
  { "bed", "test_bed" }, { "pond", "test_basin" }, { "works", "test_works" }, { "takeoff", "test_takeoff" },
  { "leak", "test_leak" }, { "study", "test_study" },
}

local function wing_of(file)
  for order, names in ipairs(WINGS) do
    for i = 2, #names do
      if file:sub(1, #names[i]) == names[i] then return names[1], order end
    end
  end
  error("docs/write-checks.lua does not know the wing of " .. file)
end

-- ---- rows ----------------------------------------------------------------------

-- Two digits more than the tolerance tells, so that compilers agree on them.
local function computed_text(got, tol)
  if tol < 1e-9 * math.abs(got) then return ("%.10g"):format(got) end
  return ("%." .. math.max(0, math.ceil(-math.log(tol, 10)) + 2) .. "f"):format(got)
end

local function read_rows()
  local rows = {}
  for line in assert(io.lines(notes)) do
    local cell = {}
    for text in (line .. "\t"):gmatch("(.-)\t") do cell[#cell + 1] = text end
    local wing, order = wing_of(cell[1])
    local want, got, tol = tonumber(cell[6]), tonumber(cell[7]), tonumber(cell[8])
    rows[#rows + 1] = {
      wing = wing, order = order, test = cell[1]:gsub("%.c$", "") .. "/" .. cell[2], known = cell[3],
      source = cell[4]:match("^%s*(.-)%s*$"), what = cell[5], printed = ("%.15g"):format(want),
      computed = computed_text(got, tol), tolerance = ("%.3g"):format(tol), reason = cell[9],
      part = tol < 1e-9 * math.abs(got) and 0 or math.abs(got - want) / tol,
    }
  end
  local keys = { "order", "source", "what", "test", "printed" }
  table.sort(rows, function(a, b)
    for _, key in ipairs(keys) do
      if a[key] ~= b[key] then return a[key] < b[key] end
    end
    return false
  end)
  return rows
end

-- ---- what is written -------------------------------------------------------------

local function csv_cell(text)
  return text:find('[",]') and '"' .. text:gsub('"', '""') .. '"' or text
end

local function write_csv(rows)
  local f = assert(io.open(folder .. "/checks.csv", "w"))
  f:write("wing,source,what,printed,computed,tolerance,known,test\n")
  for _, r in ipairs(rows) do
    local cells = { r.wing, r.source, r.what, r.printed, r.computed, r.tolerance, r.known, r.test }
    for i, text in ipairs(cells) do cells[i] = csv_cell(text) end
    f:write(table.concat(cells, ","), "\n")
  end
  assert(f:close())
end

local KINDS = { "seen", "second-hand", "from memory", "not reproduced" }
local MEANING = {
  seen = "the source was at hand", ["second-hand"] = "somebody else says that the source prints it",
  ["from memory"] = "recalled, the source not at hand", ["not reproduced"] = "below, each with the reason",
}

local function count_by(rows, key)
  local out = {}
  for _, r in ipairs(rows) do out[r[key]] = (out[r[key]] or 0) + 1 end
  return out
end

-- Rows of one wing, source and kind are one line.
local function groups_of(rows)
  local out, of = {}, {}
  for _, r in ipairs(rows) do
    if r.known ~= "not reproduced" then
      local key = r.wing .. "\n" .. r.source .. "\n" .. r.known
      local g = of[key]
      if not g then
        g = { wing = r.wing, source = r.source, known = r.known, rows = 0, worst = 0 }
        of[key], out[#out + 1] = g, g
      end
      g.rows, g.worst = g.rows + 1, math.max(g.worst, r.part)
    end
  end
  return out
end

local function write_page(rows)
  local f = assert(io.open(folder .. "/checks.md", "w"))
  local function say(...) f:write(string.format(...), "\n") end
  local known = count_by(rows, "known")
  say("# Published values, and ours\n")
  say("Written by `make checks` from what the tests really compared; `make test` fails if it is out of date. Every row")
  say("is in [checks.csv](checks.csv). A tolerance is half the last printed digit, or what the test's comment says. Our own")
  say("earlier results and those of other programs are tested too, and are not counted here. Whole series of measured")
  say("data: [validation.md](validation.md).\n")
  say("| known | values | what that means |\n| --- | --- | --- |")
  for _, kind in ipairs(KINDS) do say("| %s | %d | %s |", kind, known[kind] or 0, MEANING[kind]) end
  say("| in all | %d | |\n", #rows)
  local many = {}
  for _, g in ipairs(groups_of(rows)) do
    if g.rows > 100 then many[#many + 1] = ("%d are of %s"):format(g.rows, g.source) end
  end
  say("Of these %s.", table.concat(many, "; "))
  local by_wing, none = count_by(rows, "wing"), {}
  for _, names in ipairs(WINGS) do
    if not by_wing[names[1]] then none[#none + 1] = "`" .. names[1] .. "`" end
  end
  say("No published values were found for %s: laws, other programs and invented data test them.\n", table.concat(none, " and "))
  say("## What does not come out\n")
  say("| wing | source | what | printed | ours | why |\n| --- | --- | --- | --- | --- | --- |")
  for _, r in ipairs(rows) do
    if r.known == "not reproduced" then
      say("| %s | %s | %s | %s | %s | %s |", r.wing, r.source, r.what, r.printed, r.computed, r.reason)
    end
  end
  say("\n## By source\n")
  say("Worst: the greatest difference, as a part of its tolerance. Where it is 0.00 over a table of constants, the table is in")
  say("the library, and the test tells that it was copied rightly, no more.\n")
  say("| wing | source | values | worst | known |\n| --- | --- | --- | --- | --- |")
  for _, g in ipairs(groups_of(rows)) do
    say("| %s | %s | %d | %.2f | %s |", g.wing, g.source, g.rows, g.worst, g.known)
  end
  assert(f:close())
end

local rows = read_rows()
write_csv(rows)
write_page(rows)
print(("checks: %d published values"):format(#rows))
