-- SPDX-License-Identifier: MIT
-- docs/build/checks.md and docs/build/checks.csv from what the tests compared: make checks
--
--   tarn docs/build/write-checks.lua NOTES FOLDER     NOTES: what the suite wrote, tests/published.h

local notes, folder = arg[1], arg[2]

-- The wing of a test file, by how its name begins.
local WINGS = {
  { "base", "test_base" }, { "weather", "test_weather" },
  { "evaporation", "test_air", "test_sun", "test_heat", "test_evaporation", "test_stream" }, { "flow", "test_flow" },
  { "bed", "test_bed" }, { "pond", "test_basin" }, { "works", "test_works" }, { "takeoff", "test_takeoff" },
  { "leak", "test_leak" }, { "study", "test_study", "test_climate" },
}

local function wing_of(file)
  for order, names in ipairs(WINGS) do
    for i = 2, #names do
      if file:sub(1, #names[i]) == names[i] then return names[1], order end
    end
  end
  error("docs/build/write-checks.lua does not know the wing of " .. file)
end

-- ---- rows ----------------------------------------------------------------------

-- Two digits more than the tolerance tells, so that compilers agree on them.
local function computed_text(got, tol)
  if tol <= 1e-9 * math.abs(got) then return ("%.10g"):format(got) end
  return ("%." .. math.max(0, math.ceil(-math.log(tol, 10)) + 2) .. "f"):format(got)
end

-- A row comes out at its printed digit, at a wider tolerance (then its reason is given), or it does not.
local function outcome_of(known, tol, half, reason)
  if known == "not reproduced" then return "does not come out" end
  if tol <= half * (1 + 1e-9) then return "printed digit" end
  assert(reason ~= "", "a wider tolerance without a reason")
  return "tolerance"
end

-- The printed text again: a number forgets the zeros at its end, half a digit tells of them.
local function printed_text(want, half)
  local digits = math.floor(-math.log(2 * half, 10) + 0.5)
  return digits > 0 and digits < 15 and ("%." .. digits .. "f"):format(want) or ("%.15g"):format(want)
end

local function read_rows()
  local rows = {}
  for line in assert(io.lines(notes)) do
    local cell = {}
    for text in (line .. "\t"):gmatch("(.-)\t") do cell[#cell + 1] = text end
    local wing, order = wing_of(cell[1])
    local want, got, tol, half = tonumber(cell[6]), tonumber(cell[7]), tonumber(cell[8]), tonumber(cell[9])
    rows[#rows + 1] = {
      wing = wing, order = order, test = cell[1]:gsub("%.c$", "") .. "/" .. cell[2], known = cell[3],
      source = cell[4]:match("^%s*(.-)%s*$"), what = cell[5], printed = printed_text(want, half),
      computed = computed_text(got, tol), tolerance = ("%.3g"):format(tol), half = ("%.3g"):format(half),
      outcome = outcome_of(cell[3], tol, half, cell[10]), reason = cell[10], tol = tol, digit = half,
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

local COLUMNS = { "wing", "source", "what", "printed", "half", "computed", "tolerance", "outcome", "reason", "known", "test" }

local function write_csv(rows)
  local f = assert(io.open(folder .. "/checks.csv", "w"))
  f:write((table.concat(COLUMNS, ","):gsub(",half,", ",half_digit,")), "\n")
  for _, r in ipairs(rows) do
    local cells = {}
    for i, column in ipairs(COLUMNS) do cells[i] = csv_cell(r[column]) end
    f:write(table.concat(cells, ","), "\n")
  end
  assert(f:close())
end

local KINDS = { "seen", "second-hand", "from memory" }
local MEANING = {
  seen = "the source was at hand", ["second-hand"] = "somebody else says that the source prints it",
  ["from memory"] = "recalled, the source not at hand",
}
local OUTCOMES = { "printed digit", "tolerance", "does not come out" }

-- How many rows a test picks, and of how many tables: one table or example of one source is a table.
local function count(rows, picks)
  local n, tables, seen = 0, 0, {}
  for _, r in ipairs(rows) do
    if picks(r) then
      n = n + 1
      if not seen[r.source] then seen[r.source], tables = true, tables + 1 end
    end
  end
  return n, tables
end

-- Rows of one outcome that share wing, source, kind and reason are one line.
local function groups_of(rows, outcome)
  local out, of = {}, {}
  for _, r in ipairs(rows) do
    if r.outcome == outcome then
      local key = table.concat({ r.wing, r.source, r.known, r.reason }, "\n")
      local g = of[key]
      if not g then
        g = { wing = r.wing, source = r.source, known = r.known, reason = r.reason, worst = 0 }
        of[key], out[#out + 1] = g, g
      end
      g[#g + 1], g.worst = r, math.max(g.worst, r.part)
    end
  end
  return out
end

-- "0.05", or "0.0005 to 0.5" where rows differ.
local function span(rows, key)
  local lo, hi = rows[1][key], rows[1][key]
  for _, r in ipairs(rows) do lo, hi = math.min(lo, r[key]), math.max(hi, r[key]) end
  return lo == hi and ("%.3g"):format(lo) or ("%.3g to %.3g"):format(lo, hi)
end

-- The rows of a line by name, where they are few.
local function names_of(g)
  local names = {}
  for i, r in ipairs(g) do names[i] = r.what end
  return #names <= 3 and table.concat(names, "; ") or #names .. " rows"
end

local function write_counts(say, rows)
  say("| how it comes out | values | tables |\n| --- | --- | --- |")
  for _, outcome in ipairs(OUTCOMES) do
    say("| %s | %d | %d |", outcome, count(rows, function(r) return r.outcome == outcome end))
  end
  say("| in all | %d | %d |\n", count(rows, function() return true end))
  say("| known | values | tables | what that means |\n| --- | --- | --- | --- |")
  for _, kind in ipairs(KINDS) do
    local n, tables = count(rows, function(r) return r.known == kind end)
    say("| %s | %d | %d | %s |", kind, n, tables, MEANING[kind])
  end
  say("\nA table is one table, figure or example of one source; a table may have rows of two outcomes.")
  local many, long = {}, 0
  for _, outcome in ipairs(OUTCOMES) do
    for _, g in ipairs(groups_of(rows, outcome)) do
      if #g > 100 then
        many[#many + 1], long = ("%d of %s"):format(#g, g.source), long + #g
      end
    end
  end
  say("Few tables are long: %s. The others have %d values together.", table.concat(many, "; "), #rows - long)
end

local function write_wings(say, rows)
  local none = {}
  for _, names in ipairs(WINGS) do
    if count(rows, function(r) return r.wing == names[1] end) == 0 then none[#none + 1] = "`" .. names[1] .. "`" end
  end
  say("No published values were found for %s: laws, other programs and invented data test them.\n", table.concat(none, " and "))
end

local function write_sections(say, rows)
  say("## Passes at its printed digit\n")
  say("Within half the last printed digit, or closer. Worst: the greatest difference, as a part of what the row allows. Where")
  say("it is 0.00 over a table of constants, the table is in the library, and the test tells that it was copied rightly, no more.\n")
  say("| wing | source | values | half a digit | worst | known |\n| --- | --- | --- | --- | --- | --- |")
  for _, g in ipairs(groups_of(rows, "printed digit")) do
    say("| %s | %s | %d | %s | %.2f | %s |", g.wing, g.source, #g, span(g, "digit"), g.worst, g.known)
  end
  say("\n## Passes at a tolerance, because ...\n")
  say("| wing | source | which | half a digit | tolerance | worst | known | because |")
  say("| --- | --- | --- | --- | --- | --- | --- | --- |")
  for _, g in ipairs(groups_of(rows, "tolerance")) do
    say("| %s | %s | %s | %s | %s | %.2f | %s | %s |", g.wing, g.source, names_of(g), span(g, "digit"), span(g, "tol"),
      g.worst, g.known, g.reason)
  end
  say("\n## Does not come out\n")
  say("| wing | source | what | printed | ours | because |\n| --- | --- | --- | --- | --- | --- |")
  for _, g in ipairs(groups_of(rows, "does not come out")) do
    for _, r in ipairs(g) do
      say("| %s | %s | %s | %s | %s | %s |", r.wing, r.source, r.what, r.printed, r.computed, r.reason)
    end
  end
end

local function write_page(rows)
  local f = assert(io.open(folder .. "/checks.md", "w"))
  local function say(...) f:write(string.format(...), "\n") end
  say("# Published values, and ours\n")
  say("Written by `make checks` from what the tests really compared; `make test` fails if it is out of date. Every row, with")
  say("its printed digits, tolerance and reason, is in [checks.csv](checks.csv). A row passes at half its last printed digit;")
  say("a wider tolerance needs a reason, or the test fails. Our own earlier results and those of other programs are tested too,")
  say("and are not counted here. Whole series of measured data: [validation.md](validation.md).\n")
  write_counts(say, rows)
  write_wings(say, rows)
  write_sections(say, rows)
  assert(f:close())
end

local rows = read_rows()
write_csv(rows)
write_page(rows)
print(("checks: %d published values in %d tables"):format(count(rows, function() return true end)))
