-- SPDX-License-Identifier: MIT
-- mutants: changes one constant, sign, comparison, argument, member or statement of a
-- formula at a time, builds the tests with it and counts the changes that no test
-- notices.
--
--     lua5.4 tests/tools/mutants.lua COUNT [WING...]    from the project's folder
--     lua5.4 tests/tools/mutants.lua FILE:LINE...       all changes of these lines
--     lua5.4 tests/tools/mutants.lua list FILE...       the changes that a file offers
--
-- Which changes is the same in every run.  Survivors are listed with file and line;
-- those that change nothing which anybody could see stand in EXPLAINED.

local count = tonumber(arg[1]) or 40
local COPY = "build/mutants/tree"

local function lines_of(command)
  local out, pipe = {}, assert(io.popen(command))
  for line in pipe:lines() do out[#out + 1] = line end
  return out, pipe:close()
end

local function text_of(path)
  local f = assert(io.open(path))
  local text = f:read "a"
  f:close()
  return text
end

local function write(path, text)
  local f = assert(io.open(path, "w"))
  f:write(text)
  f:close()
end

-- ---- the changes that a file offers ---------------------------------------------

local SWAPS = {
  { " %+ ", " - " }, { " %- ", " + " }, { " %* ", " / " }, { " / ", " * " },
  { " < ", " >= " }, { " > ", " <= " }, { " <= ", " < " }, { " >= ", " > " },
  { " == ", " != " }, { " && ", " || " }, { "fmin%(", "fmax(" }, { "fmax%(", "fmin(" },
}

-- Positions of code: comments, strings, preprocessor lines are blanked out.
local function code_of(text)
  local function blank(s) return (s:gsub("[^\n]", " ")) end
  text = text:gsub("/%*.-%*/", blank):gsub('"[^"\n]*"', blank)
  return (("\n" .. text):gsub("\n#[^\n]*", blank):sub(2))
end

-- Statements that are left out: an assignment to what was declared before, a
-- call whose value nobody takes.  Declarations stay: nothing would build.
local function drop_statements(code, add)
  for _, pattern in ipairs { "\n\t+()[%w_.%[%]>*-]+ [-+*/|&]?= [^;{}]*;()", "\n\t+()[%w_]+%([^;{}]*%);()" } do
    for from, to in code:gmatch(pattern) do
      if not code:find("^return%f[%W]", from) then add(from, to - 1, ";") end
    end
  end
end

-- Two neighbours among the arguments of a call change places; where either order
-- gives the same, nothing is to be seen.
local EITHER = { fmin = true, fmax = true, hypot = true, near = true, step_least = true, step_most = true }
local function swap_arguments(code, add)
  local name = "[%a_][%w_.>-]*"
  for from, a, between, b, to in code:gmatch("[(,]%s*()(" .. name .. ")(,%s+)(" .. name .. ")()%f[,)]") do
    local f = code:sub(1, from - 1):match "([%w_]+)%([^()]*$"
    -- rows of fields and messages are looked at by tests of their own
    if a ~= b and f and not (EITHER[f] or f == "tarn_fail" or f:find "^%u") then add(from, to - 1, b .. between .. a) end
  end
end

-- A member gives way to the next one of the same unit that the file knows.
local function wrong_fields(code, add)
  local kin, order = {}, {}
  for member in code:gmatch "%f[%w_.>][.>]([%a_][%w_]*)%f[^%w_]" do
    local unit = member:match "_(%w+)$"
    if unit and not kin[member] then
      kin[member], order[unit] = unit, order[unit] or {}
      table.insert(order[unit], member)
    end
  end
  for from, member, to in code:gmatch "[.>]()([%a_][%w_]*)()%f[^%w_(]" do
    local list = order[kin[member] or false]
    for i, other in ipairs(list or {}) do
      if other == member and #list > 1 then add(from, to - 1, list[i % #list + 1]) end
    end
  end
end

local function changes_of(path)
  local text = text_of(path)
  local code, out, rows = code_of(text), {}, {}
  for first, row, last in code:gmatch "\n[\t ]+()%u[%u_]+(%b())()" do
    if row:find "," then for at = first, last do rows[at] = true end end
  end
  local function add(from, to, new)
    -- rows of fields are in docs/build and in reports: `make documents` compares
    if rows[from] then return end
    local line = select(2, text:sub(1, from):gsub("\n", "")) + 1
    out[#out + 1] = { path = path, line = line, old = text:sub(from, to), from = from, to = to, new = new }
  end
  for _, swap in ipairs(SWAPS) do
    for from, to in code:gmatch("()" .. swap[1] .. "()") do add(from, to - 1, swap[2]) end
  end
  for from, number, to in code:gmatch "()%f[%w_.](%d+%.%d+[%d]*)()" do
    local x = tonumber(number)
    add(from, to - 1, ("%.17g"):format(x == 0 and 0.01 or x * 1.01))
  end
  drop_statements(code, add)
  swap_arguments(code, add)
  wrong_fields(code, add)
  table.sort(out, function(a, b) return a.from < b.from end)
  return out
end

-- Changes that no test can notice: file, the code around, what replaces what, why.
local EXPLAINED = {
  { "bed/chance.c", "0.5) / 9007199254740992.0", "0.505", "moves a random number by 2^-60: no figure shows it" },
  { "study/generate.c", "double x = normal(d), v = 1 + c * x", " - ", "a normal number is as likely as its negative" },
  { "study/block.c", "double to = (c + 1)", " - ", "a margin of 1e-9, where both neighbours give one level" },
  { "study/block.c", "double to = (c + 1)", " / ", "a margin of 1e-9, where both neighbours give one level" },
  { "study/block.c", "double to = (c + 1)", " * ", "more steps of a search, to the same piece" },
}

-- Why a change is no fault; nil: it is one.
local function reason_of(change)
  local line = text_of(change.path):sub(1, change.to):match "[^\n]*$" .. text_of(change.path):match("[^\n]*", change.to + 1)
  for _, e in ipairs(EXPLAINED) do
    if change.path:find(e[1], 1, true) and line:find(e[2], 1, true) and change.new == e[3] then return e[4] end
  end
end

-- With "list" as the first argument: what would be tried, a line each.
if arg[1] == "list" then
  for i = 2, #arg do
    for _, c in ipairs(changes_of(arg[i])) do print(("%s:%d: %q for %q"):format(c.path, c.line, c.new, c.old)) end
  end
  return
end

-- ---- one mutant, in a copy of the project ---------------------------------------

-- The suites that look after a wing's formulas.
local SUITES = {
  base = "@(refusals|base_fields|calendar|design|fields|stats|units|status)/*",
  weather = "weather_*/*",
  flow = "@(refusals|infinities|water|friction|pipe|tables|pump|network|weir|orifice|channel|transit|overflow|routing|rational|intake|jet|winter)/*",
  bed = "@(refusals|bed_ch*|bed_gr*|bed_l*|bed_plan|bed_se*|bed_size|bed_t*|bed_wa*|bed_yard)/*",
  evaporation = "@(air|sun|heat|evaporation*)/*",
  pond = "@(refusals|basin|runoff|schedule|pond|ledger|season)/*",
  leak = "@(leak|advice|gls|log|pair|infinities)/*",
  works = "@(works*|chart|commission|storm)/*",
  takeoff = "takeoff/*",
  study = "@(refusals|study|study_tools|study_weather)/*",
}

local function run(command)
  return (os.execute("cd " .. COPY .. " && { " .. command .. "; } > ../log 2>&1"))
end

local function build_tests()
  return run "make -s build/run-tests CFLAGS=-O1 WERROR="
end

local function tests_pass(wing)
  return run("TARN_BUILD=build timeout 300 build/run-tests --color=never --fail-fast --timeout 60 --filter '"
    .. SUITES[wing] .. "'")
end

-- "killed", "survived" or "broken": it does not build
local function fate(change, wing)
  local path = COPY .. "/" .. change.path
  local text = text_of(path)
  write(path, text:sub(1, change.from - 1) .. change.new .. text:sub(change.to + 1))
  local built = build_tests()
  local alive = built and tests_pass(wing)
  write(path, text)
  return not built and "broken" or alive and "survived" or "killed"
end

-- ---- all ---------------------------------------------------------------------------

os.execute("rm -rf " .. COPY .. " && mkdir -p " .. COPY .. "/build && cp -r Makefile .ci lib bindings tests scripts docs"
  .. " weather-samples " .. COPY .. " && touch " .. COPY .. "/build/ready")
assert(build_tests(), "the tests do not build")

-- What to try, by wing: every so many of its changes, or those of the lines named.
local lines, wings = {}, { table.unpack(arg, 2) }
for _, place in ipairs(arg) do
  local wing = place:match "^lib/tarn/(%w+)/.*%.c:%d+$"
  if wing then lines[place], wings[wing] = true, true end
end
if next(lines) then
  local named = {}
  for wing in pairs(wings) do if SUITES[wing] then named[#named + 1] = wing end end
  wings, count = named, math.huge
end
if #wings == 0 then wings = { "base", "weather", "flow", "bed", "evaporation", "pond", "leak", "works", "takeoff", "study" } end
local sum = { killed = 0, survived = 0, broken = 0, explained = 0 }
for _, wing in ipairs(wings) do
  assert(build_tests(), "the tests do not build")
  assert(tests_pass(wing), "the tests of " .. wing .. " fail as they are")
  local all, before = {}, sum.survived
  for _, path in ipairs(lines_of("ls lib/tarn/" .. wing .. "/*.c")) do
    for _, change in ipairs(changes_of(path)) do
      if not next(lines) or lines[change.path .. ":" .. change.line] then all[#all + 1] = change end
    end
  end
  local tries = math.min(count, #all)
  local step = math.max(1, #all / count)
  for i = 1, tries do
    local change = all[math.floor((i - 0.5) * step) + 1]
    local what = fate(change, wing)
    local reason = what == "survived" and reason_of(change)
    if reason then what = "explained" end
    sum[what] = sum[what] + 1
    if reason or what == "survived" then
      print(("%s:%d: '%s' for '%s' survives%s"):format(change.path, change.line, change.new, change.old,
        reason and ": " .. reason or ""))
      io.stdout:flush()
    end
  end
  print(("%s: %d of %d tried survive; %d are possible"):format(wing, sum.survived - before, tries, #all))
end
print(("mutants: %d tried, %d killed, %d explained, %d survived; %d more did not build"):format(
  sum.killed + sum.explained + sum.survived, sum.killed, sum.explained, sum.survived, sum.broken))
