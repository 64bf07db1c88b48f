-- SPDX-License-Identifier: MIT
-- headers: what the public headers say, checked: every function has a comment
-- with its units, range, errors and source, and some test calls it.
--
--     lua5.4 tests/tools/headers.lua [list]    from the project's folder
--
-- 'list' prints the declared symbols instead, one a line, sorted.

local function lines_of(command)
  local out = {}
  for line in assert(io.popen(command)):lines() do out[#out + 1] = line end
  return out
end

local function text_of(path)
  local f = assert(io.open(path))
  local text = f:read "a"
  f:close()
  return text
end

-- ---- entries of a header ------------------------------------------------------

-- The comments that speak of a declaration: the paragraph before it and the
-- section's first; the header's introduction, for what all _solve() share.
local function entries_of(path)
  local text, entries = text_of(path), {}
  local intro, section, paragraph, at = nil, "", "", 1
  while true do
    local comment_at, comment_end = text:find("/%*.-%*/", at)
    local word_at = text:find("TARN_API%f[%W]", at)
    while word_at and text:sub(1, word_at):match("#define TARN_API$") do
      word_at = text:find("TARN_API%f[%W]", word_at + 1)
    end
    if not comment_at and not word_at then return entries end
    if comment_at and (not word_at or comment_at < word_at) then
      local comment = text:sub(comment_at, comment_end)
      local own_line = text:sub(1, comment_at - 1):match("\n$")
      if comment:find("^/%* %-%-%-%-") then
        section, paragraph = "", ""
      elseif own_line then
        if not intro then
          intro = comment
        elseif section == "" then
          section = comment
        end
        paragraph = comment
      else -- beside a member or a declaration
        paragraph = paragraph .. comment
      end
      at = comment_end + 1
    else
      local stop = text:find(";", word_at, true)
      local declaration = text:sub(word_at, stop):gsub("/%*.-%*/", ""):gsub("%s+", " ")
      local trailing = text:match("^[ \t]*(/%*.-%*/)", stop + 1) or ""
      for name in declaration:gsub("TARN_API", ""):gsub("TARN_PRINTF%b()", "")
          :gmatch("(tarn_[%w_]+)%f[ %(%[,;]%s*[%(%[,;]") do
        if not declaration:find("struct " .. name) or declaration:find(name .. "%(") then
          entries[#entries + 1] = {
            name = name, path = path, declaration = declaration,
            own = paragraph .. trailing, near = paragraph .. trailing .. section, intro = intro or "",
            call = declaration:find(name .. "%s*%(") ~= nil,
          }
        end
        if declaration:find("%(") then break end
      end
      at = stop + 1
    end
  end
end

-- ---- rules ----------------------------------------------------------------------

local function says(text, ...)
  text = text:gsub("%s*\n%s*%*?%s*", " ")
  for _, pattern in ipairs { ... } do
    if text:find(pattern) then return true end
  end
  return false
end

-- What its comment lacks; a list of words.
local function lacks(entry)
  local missing = {}
  local function need(what, ok) if not ok then missing[#missing + 1] = what end end
  local formula = entry.declaration:find("^TARN_API double [^*]")
  need("comment", #entry.own > 20)
  for line in entry.own:gmatch "%*%s%s+(returns%s%s%s[^\n]*)" do need("unit of what it returns", line:find "%[") end
  if formula then
    need("units", says(entry.name, "_m%d?$", "_m%d?s$", "_kpa$", "_c$") or says(entry.near, "%[.-%]", "dimensionless", "[Ff]actor", "ratio", "[Ss]hare", "[Pp]art of"))
    need("range", says(entry.near, "NaN", "any number", "any value", "%.%. ", ">=? 0"))
    need("source", says(entry.near, "[Ss]ource", "eq%.", "%f[%d][12][0-9][0-9][0-9]%f[%D]", "%f[%w]S%d", "%f[%a]ours%f[%A]",
      "derived", "practice", "exact", "[Dd]efinition", " = ", " / "))
  elseif entry.declaration:find("enum tarn_status tarn_") then
    local shared = entry.name:find "_solve$" and entry.intro:match "_solve%(%) returns [^.;]*" or ""
    need("errors", says(entry.near .. shared, "Errors?:", "TARN_E[A-Z]+", "[Rr]eturns its code"))
  end
  return missing
end

local function called(tests, name)
  return tests:find("%f[%w_]" .. name .. "%s*%(") ~= nil
end

-- ---- report ----------------------------------------------------------------------

local headers = lines_of "ls lib/tarn/*.h lib/tarn/formulas/*.h"

-- What a header says at its top is true of the topics that it includes.
local umbrella = {}
for _, path in ipairs(headers) do
  for topic in text_of(path):gmatch '#include "(tarn/formulas/[%w_]+%.h)"' do
    if not path:find "/formulas/" then umbrella["lib/" .. topic] = text_of(path) end
  end
end

local entries = {}
for _, path in ipairs(headers) do
  assert(umbrella[path] or not path:find "/formulas/", path .. " is included by no header of a wing")
  for _, entry in ipairs(entries_of(path)) do
    entry.intro = entry.intro .. (umbrella[path] or "")
    entries[#entries + 1] = entry
  end
end

if arg[1] == "list" then
  local names = {}
  for i, entry in ipairs(entries) do names[i] = entry.name end
  table.sort(names)
  print(table.concat(names, "\n"))
  return
end

local tests, functions, faults = "", 0, 0
for _, path in ipairs(lines_of "find tests -name '*.[ch]' ! -path 'tests/bench/*'") do
  tests = tests .. text_of(path):gsub("/%*.-%*/", "")
end
for _, entry in ipairs(entries) do
  functions = functions + (entry.call and 1 or 0)
  local missing = entry.call and lacks(entry) or {}
  if entry.call and not called(tests, entry.name) then missing[#missing + 1] = "a test that calls it" end
  if #missing > 0 then
    faults = faults + 1
    print(("%s: %s lacks %s"):format(entry.path, entry.name, table.concat(missing, ", ")))
  end
end
print(("headers: %d symbols, %d functions, %d of them lacking something"):format(#entries, functions, faults))
os.exit(faults == 0)
