-- SPDX-License-Identifier: MIT
-- mutants: changes one constant, sign or comparison of a formula at a time, builds
-- the tests with it and counts the changes that no test notices.
--
--     lua5.4 tests/tools/mutants.lua COUNT [WING...]    from the project's folder
--     lua5.4 tests/tools/mutants.lua FILE:LINE...       all changes of these lines
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

local function changes_of(path)
  local text = text_of(path)
  local code, out = code_of(text), {}
  local function add(from, to, new)
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

-- ---- one mutant, in a copy of the project ---------------------------------------

-- The suites that look after a wing's formulas.
local SUITES = {
  base = "@(refusals|calendar|fields|units|status)/*",
  weather = "weather_*/*",
  flow = "@(refusals|infinities|water|friction|pipe|tables|pump|network|weir|orifice|channel|transit|overflow|routing|rational|intake|jet|winter)/*",
  bed = "@(refusals|bed_chance|bed_gravel|bed_layers|bed_lo*|bed_settling|bed_size|bed_tr*|bed_wa*|bed_yard)/*",
  evaporation = "@(air|sun|heat|evaporation*)/*",
  pond = "@(refusals|basin|runoff|schedule|pond|ledger)/*",
  leak = "@(leak|gls|log|pair)/*",
  works = "@(works*|chart|storm)/*",
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
  return run("TARN_BUILD=build timeout 120 build/run-tests --color=never --fail-fast --timeout 20 --filter '"
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
