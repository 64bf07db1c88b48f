-- SPDX-License-Identifier: MIT
-- The page says nothing that the scripts say: no stretch of 28 letters, words
-- and the blanks between them, is in scripts/ and in bindings/web.
local LETTERS = 28

-- Prose of a source: comments away, everything but words a break.
local function prose(source)
  source = source:gsub("%-%-%[%[.-%]%]", "\n"):gsub("\n%s*[-/][-/][^\n]*", "\n"):gsub("^[-/#][-/!][^\n]*", ""):gsub("/%*.-%*/", "\n")
  return (source:gsub("[^%a%s']", "|"):gsub("%s+", " "))
end

-- All stretches that begin with a word, have at least three blanks and are
-- LETTERS long.
local function stretches(text, into, name)
  for at in text:gmatch "()%f[%a]%a" do
    local s = text:sub(at, at + LETTERS - 1)
    local _, blanks = s:gsub(" ", "")
    if #s == LETTERS and blanks >= 3 and not s:find("|", 1, true) then into[s] = name end
  end
  return into
end

local function files(folder, names)
  local list, found = {}, io.popen(("find %s -type f \\( %s \\)"):format(folder, names))
  for path in found:lines() do
    local file = assert(io.open(path))
    list[path] = file:read "a"
    file:close()
  end
  found:close()
  return list
end

local said, scripts, page = {}, files("scripts", "-name '*.lua'"), files("bindings/web", "-name '*.js' -o -name '*.html' -o -name '*.lua' -o -name '*.mjs'")
for path, source in pairs(scripts) do stretches(prose(source), said, path) end
for path, source in pairs(page) do
  for s in pairs(stretches(prose(source), {}, path)) do
    assert(not said[s], ("%s and %s both say: %s"):format(said[s], path, s))
  end
end

-- The search would find one.
local sentence = "From weather alone nobody can say that a pond leaks."
local found = false
for s in pairs(stretches(prose('el("p", "' .. sentence .. '")'), {}, "page")) do found = found or said[s] end
assert(found, "a sentence of scripts/leak.lua is not found")
assert(next(page) and next(scripts))
print "ok"
