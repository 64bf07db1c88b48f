-- SPDX-License-Identifier: MIT
-- sentences: no sentence stands both in the scripts and in the page of a browser.
--
--     lua5.4 tests/tools/sentences.lua [list]    from the project's folder
--
-- A sentence is a run of 28 letters and more, with the blanks and commas between its words, inside one text of a
-- script; the page is all that bindings/web has of C, JavaScript, Lua and HTML.  'list' prints the sentences.

local LETTERS = 28

-- Both write HTML that may load nothing: a rule for browsers is no sentence.
local NO_SENTENCE = "^default%-src"

local function text_of(path)
  local f = assert(io.open(path))
  local text = f:read "a"
  f:close()
  return text
end

local function files(where, names)
  local out = {}
  local pipe = assert(io.popen(("find %s -type f | grep -E '\\.(%s)$' | LC_ALL=C sort"):format(where, names)))
  for path in pipe:lines() do out[#out + 1] = path end
  pipe:close()
  assert(#out > 0, "no file in " .. where)
  return out
end

-- The texts of a Lua source, between quotes or long brackets; no comment.
local function texts_of(source)
  local out, at = {}, 1
  while true do
    local from = source:find("[-\"'%[]", at)
    if not from then return out end
    local sign = source:sub(from, from)
    local level = source:match("^%[(=*)%[", from) or source:match("^%-%-%[(=*)%[", from)
    local stop
    if level then
      stop = select(2, source:find("]" .. level .. "]", from, true)) or #source
      if sign == "[" then out[#out + 1] = source:sub(from, stop) end
    elseif source:find("^%-%-", from) then
      stop = source:find("\n", from, true) or #source
    elseif sign == '"' or sign == "'" then
      stop = from + 1
      while source:sub(stop, stop) ~= sign and stop < #source do
        stop = stop + (source:sub(stop, stop) == "\\" and 2 or 1)
      end
      out[#out + 1] = source:sub(from + 1, stop - 1)
    else
      stop = from
    end
    at = stop + 1
  end
end

local function one_blank(text) return (text:gsub("%s+", " ")) end

local function letters(text) return select(2, text:gsub("%a", "")) end

-- ---- the page -------------------------------------------------------------------

local page = {}
for _, path in ipairs(files("bindings/web", "c|h|js|mjs|lua|html")) do page[#page + 1] = one_blank(text_of(path)) end
page = table.concat(page, "\n")

-- ---- the scripts ------------------------------------------------------------------

-- The longest start of the words from 'at' on that the page has; nil under so many letters.
local function shared(words, at)
  local found
  local run = ""
  for i = at, #words do
    run = run == "" and words[i] or run .. " " .. words[i]
    if letters(run) >= LETTERS then
      if not page:find(run, 1, true) then return found, i - 1 end
      found = run
    elseif not page:find(run, 1, true) then
      return nil
    end
  end
  return found, #words
end

local seen, count = {}, 0
for _, path in ipairs(files("scripts", "lua")) do
  for _, text in ipairs(texts_of(text_of(path))) do
    for run in one_blank(text):gmatch "[%a ,;%-']+" do
      local words, at = {}, 1
      for word in run:gmatch "%S+" do words[#words + 1] = word end
      while at <= #words do
        local sentence, last = shared(words, at)
        if sentence and not seen[sentence] and not sentence:find(NO_SENTENCE) then
          seen[sentence] = true
          count = count + 1
          if arg[1] == "list" then print(path .. ": " .. sentence) end
        end
        at = sentence and last + 1 or at + 1
      end
    end
  end
end

print(("sentences: %d in both scripts/ and bindings/web"):format(count))
if count > 0 then
  io.stderr:write("sentences: one home for each; 'lua5.4 tests/tools/sentences.lua list' prints them\n")
end
os.exit(count == 0)
