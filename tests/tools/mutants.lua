-- SPDX-License-Identifier: MIT
-- mutants: changes one constant, sign, comparison, argument, member or statement of the
-- library at a time, builds the tests with it and counts the changes that no test
-- notices.
--
--     lua5.4 tests/tools/mutants.lua COUNT [SEED [PART/PARTS [WING...]]]
--     lua5.4 tests/tools/mutants.lua FILE:LINE...       all changes of these lines
--     lua5.4 tests/tools/mutants.lua list FILE...       the changes that a file offers
--
-- From the project's folder.  COUNT is how many a wing; which ones follows from the
-- seed, in every run the same.  Of each change only the tests run that enter its
-- function, which a first run of all tests finds out.  Fates are noted in
-- build/mutants/record: a later run with the same folder goes on there, tries the
-- survivors again, and forgets a change whose function is another one now.  Survivors
-- are listed with file and line; those that change nothing which anybody could see
-- stand with the reason in mutants_known.lua.

local here = arg[0]:match "^.*/" or "./"
local changes = dofile(here .. "mutants_changes.lua")
local KNOWN = dofile(here .. "mutants_known.lua")
local WINGS = { "base", "weather", "flow", "bed", "evaporation", "pond", "leak", "works", "takeoff", "design", "study" }

-- With "list" as the first argument: what would be tried, a line each.
if arg[1] == "list" then
  for i = 2, #arg do
    for _, c in ipairs(changes.of(arg[i])) do print(("%s:%d: %q for %q"):format(c.path, c.line, c.new, c.old)) end
  end
  return
end

local HOME = "build/mutants"
local COPY = HOME .. "/tree"
local MAKE = ("make -s -j1 B=b CC='%s' CFLAGS='-O1 -g1 -finstrument-functions' WERROR= "):format(os.getenv "CC" or "gcc")
local LIBS = "$(pkg-config --libs lua5.4) -lcsv -lm -pthread"
-- The two programs that hold tests: Criterion's, and the runner, for Lua's.
local PROGRAMS = { tests = "b/tests/*.o b/parts.a -lcriterion", tarn = "b/bindings/lua/*.o b/parts.a" }

local function lines_of(command)
  local out, pipe = {}, assert(io.popen(command))
  for line in pipe:lines() do out[#out + 1] = line end
  return out, pipe:close()
end

local function write(path, text)
  local f = assert(io.open(path, "w"))
  f:write(text)
  f:close()
end

local function run(command)
  return (os.execute("cd " .. COPY .. " && { " .. command .. "; } > ../log 2>&1"))
end

-- ---- a copy of the project, and which test enters which function -------------------

-- Fills COPY with the project's files as they are now; what was built stays.  A file
-- that a run which was stopped left changed differs, and is built anew.
local function copy_project()
  os.execute("mkdir -p " .. COPY .. "/b && touch " .. COPY .. "/b/ready " .. COPY .. "/b/ready-tests")
  assert(os.execute(([[
    find Makefile .ci lib bindings tests scripts docs weather-samples -type f | while read f; do
      cmp -s "$f" "%s/$f" || { mkdir -p "%s/$(dirname "$f")" && cp "$f" "%s/$f"; } || exit 1
    done || exit 1
    cd %s && find lib bindings tests -name '*.[ch]' | while read f; do [ -e "../../../$f" ] || rm "$f"; done]]):format(COPY, COPY, COPY, COPY)))
end

-- Links one of the programs under a name, with objects that stand for the archive's.
local function link(program, name, objects)
  return run(("gcc -o b/%s %s %s %s"):format(name, objects, PROGRAMS[program], LIBS))
end

-- file:function -> tests that enter it; and file -> tests.  Of each: its name, program,
-- cost in seconds, how many functions it enters.
local entering = {}

local function note(place, test)
  local list = entering[place]
  if not list then list = {}; entering[place] = list end
  if list[#list] ~= test then list[#list + 1] = test end
end

-- Reads what touched.c wrote.  Addresses become places once each.
local function read_touched(program)
  local order, index, rows = {}, {}, {}
  for line in io.lines(HOME .. "/touched-" .. program) do
    local cost, name, rest = line:match "^(%S+) (%S+)(.*)$"
    local row = { name = name, cost = tonumber(cost), program = program, addresses = {} }
    for address in rest:gmatch "%x+" do
      if not index[address] then order[#order + 1] = address; index[address] = true end
      table.insert(row.addresses, address)
    end
    rows[#rows + 1] = row
  end
  write(HOME .. "/addresses", table.concat(order, "\n") .. "\n")
  local places = lines_of(("addr2line -f -e %s/b/touched-%s < %s/addresses"):format(COPY, program, HOME))
  for i, address in ipairs(order) do
    local file = places[2 * i]:match "(lib/tarn/[%w_]+/[%w_]+%.[ch])"
    index[address] = file and { file, file .. ":" .. places[2 * i - 1]:gsub("%..*", "") } or false
  end
  for _, row in ipairs(rows) do
    row.count = #row.addresses
    for _, address in ipairs(row.addresses) do
      for _, place in ipairs(index[address] or {}) do note(place, row) end
    end
  end
end

-- Runs all tests of one program, unless that was done with the same program.
local function touch(program, command)
  local file = HOME .. "/touched-" .. program
  if os.execute(("[ %s -nt %s/b/parts.a ] && [ %s -nt %s/b/run-tests ]"):format(file, COPY, file, COPY)) then return end
  assert(link(program, "touched-" .. program, "b/touched.o"))
  os.remove(file)
  run(("export TARN_TOUCHED=$PWD/../touched-%s TARN_BUILD=b; %s"):format(program, command))
end

local function prepare()
  copy_project()
  changes.root = COPY .. "/"
  assert(run(MAKE .. "b/run-tests b/tarn && gcc -O1 -c tests/tools/touched.c -o b/touched.o"),
    "the tests do not build: see " .. HOME .. "/log")
  touch("tests", "b/touched-tests --color=never -j1")
  -- those that start programs would start the unchanged one
  touch("tarn", "for f in $(grep -L 'io.popen' tests/lua/*.lua); do TARN_TEST=$f b/touched-tarn $f; done")
  read_touched "tests"
  read_touched "tarn"
end

-- ---- one change ---------------------------------------------------------------------

-- Why a change is no fault; nil: it is one.
local function reason_of(change)
  local text = changes.text_of(change.path)
  local line = text:sub(1, change.to):match "[^\n]*$" .. text:match("[^\n]*", change.to + 1)
  for _, e in ipairs(KNOWN) do
    if change.path:find(e[1], 1, true) and line:find(e[2], 1, true) and change.new == e[3]
      and (not e.old or change.old == e.old) then return e[4] end
  end
end

-- The tests that may notice it: those that enter its function; of a table, and of
-- a function that nobody is seen to enter, those that enter anything of its wing.
local function tests_of(change, text)
  local name = changes.function_at(text, change.from)
  local own = name and entering[change.path .. ":" .. name]
  -- a function that the compiler has put into others has no tests of its own
  if own then return own end
  local list, known = {}, {}
  for place, some in pairs(entering) do
    if place:find("^" .. change.path:match "^lib/tarn/[%w_]+/") and not place:find ":" then
      for _, test in ipairs(some) do
        if not known[test] then known[test] = true; list[#list + 1] = test end
      end
    end
  end
  return list
end

-- Limits are of processor time, so that a busy computer kills nothing.  Criterion
-- aborts on a pattern of more than some 3,500 bytes, which would look like a test
-- that fails.
local AT_ONCE = 40
local function c_tests_pass(list)
  for from = 1, #list, AT_ONCE do
    local names = {}
    for i = from, math.min(from + AT_ONCE - 1, #list) do names[#names + 1] = list[i].name end
    if #names == 1 then names[2] = names[1] end
    local passed = run(
      ("ulimit -t 60; TARN_BUILD=b b/mutant-tests --color=never -j1 --fail-fast --timeout 900 --filter '@(%s)'"):format(
        table.concat(names, "|")))
    if not passed then
      assert(os.execute("! grep -q extglobmatch " .. HOME .. "/log"), "the pattern of tests is too long")
      return false
    end
  end
  return true
end

local function lua_tests_pass(list)
  if #list == 0 then return true end
  assert(link("tarn", "mutant-tarn", "b/mutant.o"))
  for _, test in ipairs(list) do
    if not run("ulimit -t 60; b/mutant-tarn " .. test.name) then return false end
  end
  return true
end

-- Whether all of them pass: those first that enter least and say it soonest.
local function tests_pass(list)
  local first, rest, lua = {}, {}, {}
  for _, test in ipairs(list) do
    table.insert(test.program == "tarn" and lua or #first < 12 and first or rest, test)
  end
  return c_tests_pass(first) and lua_tests_pass(lua) and c_tests_pass(rest)
end

-- "killed", "survived" or "broken": it does not build; and how many tests ran
local function fate(change)
  local path, object = COPY .. "/" .. change.path, "b/" .. change.path:gsub("%.c$", ".o")
  local text = changes.text_of(change.path)
  local list = { table.unpack(tests_of(change, text)) }
  if #list == 0 then return "survived", 0 end
  table.sort(list, function(a, b)
    if a.count ~= b.count then return a.count < b.count end
    return a.name < b.name
  end)
  assert(run(("cp -p %s b/whole.c && cp -p %s b/whole.o"):format(change.path, object)))
  write(path, text:sub(1, change.from - 1) .. change.new .. text:sub(change.to + 1))
  local built = run(MAKE .. object .. " && cp " .. object .. " b/mutant.o") and link("tests", "mutant-tests", "b/mutant.o")
  assert(os.execute(("cd %s && mv b/whole.c %s && mv b/whole.o %s"):format(COPY, change.path, object)))
  if not built then return "broken", 0 end
  local alive = tests_pass(list)
  return alive and "survived" or "killed", #list
end

-- ---- all ---------------------------------------------------------------------------

local record = {}
local function read_record()
  local f = io.open(HOME .. "/record")
  for line in f and f:lines() or function() end do
    local what, key = line:match "^(%a+) (%S+)"
    record[key] = what
  end
  if f then f:close() end
end

local function note_fate(key, what)
  local f = assert(io.open(HOME .. "/record", "a"))
  f:write(what, " ", key, "\n")
  f:close()
end

local sum = { killed = 0, survived = 0, broken = 0, explained = 0 }
local function try(change, again)
  local key = changes.key(change, changes.text_of(change.path))
  local what, ran = record[key], nil
  local reason = reason_of(change)
  if reason and not again then what = "explained" end
  if again or not what or what == "survived" then
    what, ran = fate(change)
    note_fate(key, what)
    if reason and what == "survived" then what = "explained" end
  end
  sum[what] = sum[what] + 1
  if what == "survived" or again then
    print(("%s:%d: '%s' for '%s' %s; %s tests enter it%s"):format(change.path, change.line, change.new,
      change.old:gsub("%s+", " "), what, ran or "-", what == "explained" and ": " .. reason or ""))
    io.stdout:flush()
  end
  return what
end

-- So many of a wing's changes, by the seed; of those, one part.
local function chosen(wing, count, seed, part, parts)
  local all = {}
  for _, path in ipairs(lines_of("cd " .. COPY .. " && ls lib/tarn/" .. wing .. "/*.c")) do
    local text = changes.text_of(path)
    for _, change in ipairs(changes.of(path)) do
      change.rank = changes.hash(seed .. ":" .. changes.key(change, text))
      all[#all + 1] = change
    end
  end
  table.sort(all, function(a, b) return a.rank < b.rank end)
  local out = {}
  for i = 1, math.min(count, #all) do
    if i % parts == part % parts then out[#out + 1] = all[i] end
  end
  return out, #all
end

local function report()
  print(("mutants: %d tried, %d killed, %d explained, %d survived; %d more did not build"):format(
    sum.killed + sum.explained + sum.survived, sum.killed, sum.explained, sum.survived, sum.broken))
end

os.execute("mkdir -p " .. HOME)
prepare()
read_record()
if not tonumber(arg[1]) then
  for _, place in ipairs(arg) do
    local path, line = place:match "^(.*):(%d+)$"
    for _, change in ipairs(changes.of(path)) do
      if change.line == tonumber(line) then try(change, true) end
    end
  end
  return report()
end
local part, parts = (arg[3] or "1/1"):match "^(%d+)/(%d+)$"
assert(part, "PART is like 2/4")
local wings = #arg > 3 and { table.unpack(arg, 4) } or WINGS
for _, wing in ipairs(wings) do
  local before = sum.survived
  local some, possible = chosen(wing, tonumber(arg[1]), arg[2] or "1", tonumber(part), tonumber(parts))
  for _, change in ipairs(some) do try(change) end
  print(("%s: %d of %d survive; %d are possible"):format(wing, sum.survived - before, #some, possible))
  io.stdout:flush()
end
report()
