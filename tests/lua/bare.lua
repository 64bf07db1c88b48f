-- SPDX-License-Identifier: MIT
-- Scripts without comments (bindings/web/bare.lua) are the same programs: the same code
-- and the same numbers of lines, by what Lua compiles them to.
local bare = dofile "bindings/web/bare.lua"

local function same(text, name)
  local short = bare(text)
  local compiled = string.dump(assert(load(text, "=file")))
  assert(compiled == string.dump(assert(load(short, "=file"))), name .. ": another program")
  return short
end

-- each script of the program and of the page
local count, before, after = 0, 0, 0
for path in io.popen("find scripts bindings/web -name '*.lua'"):lines() do
  local file = assert(io.open(path))
  local text = file:read "a"
  file:close()
  local short = same(text, path)
  assert(not short:find "\n[ \t]*%-%-%s" and not short:find("SPDX", 1, true), path .. ": a comment is left")
  count, before, after = count + 1, before + #text, after + #short
end
assert(count > 50, count .. " scripts")
assert(after < 0.92 * before, "nothing is gained")

-- what looks like a comment, a text or a bracket and is none
for name, case in pairs {
  quotes = { [[local a = "-- no comment" .. '--[[ nor this' -- but this]], [[local a = "-- no comment" .. '--[[ nor this']] },
  escapes = { [[local a = "\"-- no\\" -- yes]], [[local a = "\"-- no\\"]] },
  long = { "local a = [==[\n  -- no ]] \n  kept ]==] --[==[ a\n  b ]==] return a", "local a = [==[\n  -- no ]] \n  kept ]==] \n return a" },
  index = { "local t = { 1 }\n  return t[t[1]] - -1 -- a", "local t = { 1 }\nreturn t[t[1]] - -1" },
  between = { "local a--[[x]]= 1\n\tlocal b", "local a = 1\nlocal b" },
  bracket = { "return 1 --[ short\n  --[=x neither", "return 1\n" },
  last = { "return 1 --", "return 1" },
} do
  local got = same(case[1], name)
  assert(got == case[2], ("%s: '%s'"):format(name, got))
end

-- a text that never ends is refused, not cut
for _, text in ipairs { "local a = 'b", "local a = [[b", "--[[ a" } do
  local read, why = pcall(bare, text)
  assert(not read and why:find "never closed", tostring(why))
end
