-- SPDX-License-Identifier: MIT
-- What the documents name exists: each relative link and its anchor, each file of the project, each make
-- target, each option of a script.  And each wing includes the wings that docs/architecture.md says, and no other.
--
--   tarn tests/tools/documents.lua BUILD FILE.md ...

local build = arg[1]
local bad, counts = 0, { links = 0, paths = 0, targets = 0, options = 0 }

local function complain(file, line, ...)
  io.stderr:write(("%s:%d: "):format(file, line), string.format(...), "\n")
  bad = bad + 1
end

local function read(name)
  local f = io.open(name)
  local text = f and f:read("a")
  if f then f:close() end
  return text
end

-- a folder opens too, and cannot be read
local function exists(name) return io.open(name) ~= nil end

-- ---- what there is -------------------------------------------------------------

local function make_targets()
  local out = {}
  for _, name in ipairs { "Makefile", ".ci/deps.mk", ".ci/trust.mk", "bindings/web/web.mk", "docs/build/docs.mk" } do
    for head in ("\n" .. assert(read(name), name)):gmatch("\n([%l][%w%-_ ]*):[^=]") do
      for word in head:gmatch("%S+") do out[word] = true end
    end
  end
  return out
end

-- options[script], and options.any of all of them
local function script_options()
  local out = { any = {} }
  local list = assert(io.popen(build .. "/tarn --help")):read("a")
  for name in list:gmatch("\n  (%l+)  ") do
    out[name] = { ["--help"] = true }
    for option in assert(io.popen(("%s/tarn %s --help"):format(build, name))):read("a"):gmatch("%-%-%l[%l%-]*") do
      out[name][option], out.any[option] = true, true
    end
  end
  out.any["--help"], out.any["--version"] = true, true
  return out
end

local TARGETS, OPTIONS = make_targets(), script_options()
assert(TARGETS.test and OPTIONS.topup and OPTIONS.topup["--units"], "neither targets nor options were found")

-- ---- pages ----------------------------------------------------------------------

-- The lines of a page, each with whether it is code; continued ones are one line.
local function lines_of(text)
  local out, fenced, held = {}, false, nil
  local n = 0
  for line in (text .. "\n"):gmatch("(.-)\n") do
    n = n + 1
    if line:match("^```") then
      fenced = not fenced
    else
      local code = fenced or line:match("^    ") ~= nil
      if held then held.text = held.text:sub(1, -2) .. line else held = { text = line, code = code, n = n } end
      if not (code and line:sub(-1) == "\\") then
        out[#out + 1] = held
        held = nil
      end
    end
  end
  return out
end

-- The anchors that headings get: lower case, words joined by hyphens.
local function anchors_of(name)
  local out = {}
  for _, line in ipairs(lines_of(assert(read(name)))) do
    local heading = not line.code and line.text:match("^#+ (.*)")
    if heading then out[heading:lower():gsub("[^%w%s_-]", ""):gsub("%s", "-")] = true end
  end
  return out
end

local function check_links(file, line)
  for target in line.text:gmatch("%]%(([^)%s]+)%)") do
    if not target:match("^%l+:") then
      counts.links = counts.links + 1
      local path, anchor = target:match("^([^#]*)#?(.*)$")
      local full = path == "" and file or (file:match("^(.*/)") or "") .. path
      if not exists(full) then
        complain(file, line.n, "the link '%s' leads nowhere", target)
      elseif anchor ~= "" and not anchors_of(full)[anchor] then
        complain(file, line.n, "'%s' has no heading '%s'", full, anchor)
      end
    end
  end
end

local function check_make(file, n, code)
  local words = code:match("^%$? ?make (.*)")
  if not words then return end
  for word in words:gsub("'[^']*'", ""):gsub("[#;&].*", ""):gmatch("%S+") do
    if word:match("^%l[%l%-]*$") then
      counts.targets = counts.targets + 1
      if not TARGETS[word] then complain(file, n, "there is no 'make %s'", word) end
    end
  end
end

-- Options belong to the script named before them on the line, else to any.
local function check_options(file, n, code)
  if code:match("^%s*#SBATCH") or code:match("sbatch ") then return end
  for part in code:gmatch("[^|;]+") do
    local name = part:match("tarn (%l+)%f[%W]")
    local known = OPTIONS[name] or OPTIONS.any
    for option in (" " .. part):gmatch("[%s%[(](%-%-%l[%l%-]*)") do
      counts.options = counts.options + 1
      if not known[option] then complain(file, n, "%s has no option %s", name or "no script", option) end
    end
  end
end

local TOP = { docs = true, lib = true, tests = true, scripts = true, bindings = true, ["weather-samples"] = true, [".ci"] = true }

-- Paths below the project's folders; not docs/NAME.md.
local function check_path(file, n, code)
  if not code:match("^[%w_%./%-]+$") or code:match("%f[%a]%u%u+%f[%A]%.") or not TOP[code:match("^([^/]+)/")] then return end
  counts.paths = counts.paths + 1
  if not exists(code) then complain(file, n, "there is no '%s'", code) end
end

for i = 2, #arg do
  local file = arg[i]
  for _, line in ipairs(lines_of(assert(read(file), file))) do
    if line.code then
      check_make(file, line.n, line.text:match("^%s*(.*)"))
      check_options(file, line.n, line.text)
    else
      check_links(file, line)
      for code in line.text:gmatch("`([^`]+)`") do
        check_make(file, line.n, code)
        check_options(file, line.n, code)
        check_path(file, line.n, code)
      end
    end
  end
end

-- ---- the wings -------------------------------------------------------------------

-- The rows of the table: | `wing` | knows | includes |
local function wings_of(page)
  local out = {}
  for wing, includes in page:gmatch("\n| `(%l+)` |[^\n|]*| ([^\n|]*) |") do
    out[wing] = { base = true }
    for name in includes:gmatch("%l+") do out[wing][name] = true end
  end
  return out
end

-- of["formulas/weir"] = "flow": topics belong to the wing whose header includes them.
local function topics_of(wings)
  local of = {}
  for wing in pairs(wings) do
    for topic in assert(read("lib/tarn/" .. wing .. ".h")):gmatch('#include "tarn/(formulas/[%w_]+)') do of[topic] = wing end
  end
  return of
end

local function check_wings(file)
  local wings = wings_of(assert(read(file)))
  assert(wings.base and wings.study, file .. ": the table of wings was not found")
  local topics = topics_of(wings)
  for wing, said in pairs(wings) do
    local found, list = {}, io.popen(("cat lib/tarn/%s.h lib/tarn/%s/*"):format(wing, wing))
    for path in list:read("a"):gmatch('#include "tarn/([%w_/]+)') do
      found[topics[path] or path:match("^%l+")] = true
    end
    for name in pairs(wings) do
      if name ~= wing and name ~= "base" and (found[name] or false) ~= (said[name] or false) then
        complain(file, 1, "the wing %s %s %s", wing, found[name] and "includes" or "does not include", name)
      end
    end
  end
end

check_wings("docs/architecture.md")

if bad > 0 then os.exit(1) end
print(("documents: %d links, %d files, %d make targets, %d options exist"):format(counts.links, counts.paths,
  counts.targets, counts.options))
