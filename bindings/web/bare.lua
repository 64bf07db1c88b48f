-- SPDX-License-Identifier: MIT
-- Lua without its comments and indentation, line for line: what the page carries.
--     build/tarn bindings/web/bare.lua FILE.lua ...     { file: text } as JSON

-- The first character that may open a text or a comment, and the place behind a text in
-- quotes; escapes are two characters, whatever the second is.
local OPENS = "[\"'%-%[]"

local function quoted_to(text, at)
  local quote = text:sub(at, at)
  local place = at + 1
  while true do
    place = text:find("[\\" .. quote .. "]", place)
    if not place then error("a text in quotes is never closed", 0) end
    if text:sub(place, place) == quote then return place end
    place = place + 2
  end
end

-- Where a long bracket that opens at a place is closed; nil: none opens there.
local function long_to(text, at)
  local level = text:match("^%[(=*)%[", at)
  if not level then return nil end
  local _, last = text:find("]" .. level .. "]", at, true)
  return last or error("a long bracket is never closed", 0)
end

local function unindented(code)
  return (code:gsub("[ \t]*\n[ \t]*", "\n"))
end

-- In the place of a comment: the ends of its lines, or a blank between two words.
local function lines_of(comment)
  local ends = comment:gsub("[^\n]", "")
  return ends ~= "" and ends or " "
end

local function bare(text)
  local out, from, at = {}, 1, 1
  local function code_to(last)
    out[#out + 1] = unindented(text:sub(from, last))
  end
  while true do
    at = text:find(OPENS, at)
    if not at then break end
    local last = text:find("^[\"']", at) and quoted_to(text, at) or long_to(text, at)
    if last then                                       -- a text stays as it is
      code_to(at - 1)
      out[#out + 1] = text:sub(at, last)
      from, at = last + 1, last + 1
    elseif text:find("^%-%-", at) then
      last = long_to(text, at + 2)
      code_to(at - 1)
      if last then out[#out + 1] = lines_of(text:sub(at, last))
      else
        out[#out] = out[#out]:gsub("[ \t]+$", "")
        last = (text:find("\n", at, true) or #text + 1) - 1
      end
      from, at = last + 1, last + 1
    else
      at = at + 1
    end
  end
  code_to(#text)
  return table.concat(out)
end

if not (arg and arg[0] and arg[0]:find "web/bare%.lua$") then return bare end

package.path = "scripts/?.lua;" .. package.path
local files = {}
for _, path in ipairs(arg) do
  local file = assert(io.open(path))
  files[path] = bare(file:read "a")
  file:close()
end
io.write(require "common.json".line(files))
