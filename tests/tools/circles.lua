-- SPDX-License-Identifier: MIT
-- circles: what a file uses never leads back to it, and arrows run down only.
--
--     lua5.4 tests/tools/circles.lua BUILD [list]    from the project's folder
--
-- An arrow goes from a file to each that it includes (C), requires (Lua) or imports (JavaScript), and, by the
-- symbols of its object in BUILD, to each whose functions it calls.  'list' prints the arrows.  Exceptions of today
-- are in tests/tools/circles_known.lua.

local build, list = arg[1], arg[2] == "list"
local known = dofile "tests/tools/circles_known.lua"
local bad, notes = 0, 0

local function complain(...)
  io.stderr:write("circles: ", string.format(...), "\n")
  bad = bad + 1
end

local function lines_of(command)
  local out = {}
  local pipe = assert(io.popen(command))
  for line in pipe:lines() do out[#out + 1] = line end
  assert(pipe:close(), command)
  return out
end

local function text_of(path)
  local f = assert(io.open(path))
  local text = f:read "a"
  f:close()
  return text
end

-- ---- files ---------------------------------------------------------------------

local FILES = lines_of "find lib bindings scripts -name '*.[ch]' -o -name '*.lua' -o -name '*.js' -o -name '*.mjs'"
table.sort(FILES)

local exists = {}
for _, path in ipairs(FILES) do exists[path] = true end

-- "a/./b/../c" -> "a/c"
local function plain(path)
  path = path:gsub("/%./", "/")
  repeat
    local n
    path, n = path:gsub("[^/]+/%.%./", "", 1)
  until n == 0
  return path
end

local arrows, count = {}, 0 -- arrows[from][to] = why

local function arrow(from, to, why)
  if from == to then return end
  arrows[from] = arrows[from] or {}
  if not arrows[from][to] then
    arrows[from][to] = why
    count = count + 1
  end
end

-- ---- arrows of includes, requires, imports -------------------------------------------

local function folder_of(path) return path:match "^(.*/)" end

-- The first of the places that has the file.
local function arrow_to_first(from, why, places)
  for _, place in ipairs(places) do
    local path = plain(place)
    if exists[path] then return arrow(from, path, why) end
  end
end

local function read_c(path, text)
  for name in ("\n" .. text):gmatch '\n[ \t]*#[ \t]*include "([^"]+)"' do
    arrow_to_first(path, "includes", { folder_of(path) .. name, "lib/" .. name, "bindings/web/" .. name })
  end
end

local function read_lua(path, text)
  for name in text:gmatch "require%s*%(?%s*[\"']([%w_.]+)[\"']" do
    arrow_to_first(path, "requires", { "scripts/" .. name:gsub("%.", "/") .. ".lua" })
  end
end

local function read_js(path, text)
  for name in text:gmatch "from%s*[\"'](%.[^\"']+)[\"']" do
    arrow_to_first(path, "imports", { folder_of(path) .. name })
  end
end

local READ = { c = read_c, h = read_c, lua = read_lua, js = read_js, mjs = read_js }
for _, path in ipairs(FILES) do READ[path:match "%.(%l+)$"](path, text_of(path)) end

-- ---- arrows of calls -----------------------------------------------------------------

local function read_symbols()
  local defined, wanted, objects = {}, {}, 0
  for _, path in ipairs(FILES) do
    local object = build .. "/" .. path:gsub("%.c$", ".o")
    if path:find "^lib/.*%.c$" or path:find "^bindings/lua/.*%.c$" then
      objects = objects + 1
      wanted[path] = {}
      for _, line in ipairs(lines_of("nm -g " .. object)) do
        local kind, name = line:match "(%u) ([%w_]+)$"
        if kind == "U" then
          table.insert(wanted[path], name)
        elseif kind then
          defined[name] = path
        end
      end
    end
  end
  assert(objects > 0 and next(defined), "no object was found in " .. build)
  for path, names in pairs(wanted) do
    for _, name in ipairs(names) do
      if defined[name] then arrow(path, defined[name], "calls " .. name) end
    end
  end
end

read_symbols()

-- ---- circles ---------------------------------------------------------------------------

-- The groups of files that lead back to each other (Tarjan 1972), each sorted.
local function circles()
  local index, low, stack, on, n, out = {}, {}, {}, {}, 0, {}
  local function visit(v)
    n = n + 1
    index[v], low[v], on[v] = n, n, true
    stack[#stack + 1] = v
    for w in pairs(arrows[v] or {}) do
      if not index[w] then
        visit(w)
        low[v] = math.min(low[v], low[w])
      elseif on[w] then
        low[v] = math.min(low[v], index[w])
      end
    end
    if low[v] < index[v] then return end
    local group = {}
    repeat
      local w = table.remove(stack)
      on[w] = nil
      group[#group + 1] = w
    until w == v
    table.sort(group)
    if #group > 1 then out[#out + 1] = group end
  end
  for _, path in ipairs(FILES) do
    if not index[path] then visit(path) end
  end
  return out
end

-- Whether all files of the group are of one known circle, which is marked.
local function is_known(group)
  for _, circle in ipairs(known.circles) do
    local of = {}
    for path in circle.files:gmatch "%S+" do of[path] = true end
    local all = true
    for _, path in ipairs(group) do all = all and of[path] end
    if all then
      circle.seen = true
      return true
    end
  end
end

local function say_group(group)
  local member = {}
  for _, path in ipairs(group) do member[path] = true end
  for _, path in ipairs(group) do
    for to, why in pairs(arrows[path] or {}) do
      if member[to] then io.stderr:write(("    %s -> %s (%s)\n"):format(path, to, why)) end
    end
  end
end

local groups = circles()
for _, group in ipairs(groups) do
  if not is_known(group) then
    complain("these files lead back to each other: %s", table.concat(group, " "))
    say_group(group)
  end
end

-- ---- wings -----------------------------------------------------------------------------

-- How high each wing is, from the line of docs/architecture.md "base < weather, flow < ...": an arrow between two
-- goes to a lower one.  A header of another name stands in the row of its wing: | `pond` | ... `season.h` | base |,
-- and one of lib/tarn/formulas belongs to the wing whose header includes it.
local function heights()
  local page = text_of "docs/architecture.md"
  local line = assert(page:match "\n +(base < [^\n]*)", "no line of wings in docs/architecture.md")
  local out, of, height = {}, {}, 0
  for step in line:gmatch "[^<]+" do
    for wing in step:gmatch "%l+" do out[wing] = height end
    height = height + 1
  end
  for wing, row in page:gmatch "\n| `(%l+)` |([^\n]*)" do
    of[wing] = wing
    for name in row:gmatch "`([%l_]+)%.h`" do of[name] = wing end
    for topic in text_of("lib/tarn/" .. wing .. ".h"):gmatch '#include "tarn/(formulas/[%w_]+)%.h"' do of[topic] = wing end
  end
  return out, of
end

local HEIGHT, WING = heights()

-- lib/tarn/WING.h, lib/tarn/WING/..., lib/tarn/formulas/TOPIC.h
local function wing_of(path)
  local name = path:match "^lib/tarn/(formulas/[%w_]+)" or path:match "^lib/tarn/([%l_]+)"
  local wing = WING[name]
  if name and not HEIGHT[wing] then complain("%s is of no wing that docs/architecture.md names", path) end
  return wing
end

local upward = {}
for _, from in ipairs(FILES) do
  local wing = wing_of(from)
  for to, why in pairs(wing and arrows[from] or {}) do
    local other = wing_of(to)
    if not other then
      complain("%s %s, which is no part of lib/tarn (%s)", from, to, why)
    elseif other ~= wing and HEIGHT[other] >= HEIGHT[wing] then
      upward[from .. " " .. to] = why
    end
  end
end
for pair, why in pairs(upward) do
  if not known.upward[pair] then complain("%s: an arrow to a wing that is not below (%s)", pair, why) end
end

-- ---- report ----------------------------------------------------------------------------

local function note(...)
  print("circles: " .. string.format(...) .. ": take it off tests/tools/circles_known.lua")
  notes = notes + 1
end
for _, circle in ipairs(known.circles) do
  if not circle.seen then note("a known circle is gone (%s)", circle.files:match "%S+") end
end
for pair in pairs(known.upward) do
  if not upward[pair] then note("a known arrow is gone (%s)", pair) end
end

if list then
  for from, tos in pairs(arrows) do
    for to, why in pairs(tos) do print(from, to, why) end
  end
end
print(("circles: %d files, %d arrows, %d known circles"):format(#FILES, count, #groups))
os.exit(bad == 0)
