-- SPDX-License-Identifier: MIT
-- The outputs that the documents show are what the program prints.
--
--   tarn docs/build/write-outputs.lua BUILD write|compare FILE.md ...
--
-- Marks are comments that no reader of the page sees, each on the line before a fence:
--
--   <!-- output: EXCERPT -->        the fence's lines that begin with "$ " are run, and what they print
--                                   replaces the rest of the fence
--   <!-- refusal: EXCERPT -->       the same, of commands that must end with an error
--   <!-- more: EXCERPT -->          the fence shows more of what the last commands printed
--   <!-- says: TEXT -->             no fence: the last output holds the text, on which the paragraph rests
--   <!-- file: NAME -->             the fence is the file NAME of the commands below it
--
-- Commands run in BUILD/guides, one folder for each document; weather-samples, docs and build lead to
-- the project's. An EXCERPT is parts, separated by "; ", each searched for below the one before:
--
--   all             everything
--   N-M             lines N to M
--   "text"          from the first line that holds the text to the next empty one
--   "text" +N       that line and N more
--   "text" to "end" through the next line that holds the end
--
-- Between parts that do not touch stands a line "...".

local build, mode = arg[1], arg[2]
local root = assert(io.popen("pwd")):read("l")
local where = root .. "/" .. build .. "/guides"

-- Exit statuses of a report that was written: a check says no, one is in doubt.
local NO, DOUBT = 3, 4

local function shell(command)
  local pipe = assert(io.popen("{ " .. command .. "\n} 2>&1"))
  local text = pipe:read("a")
  local ok, _, status = pipe:close()
  return text, ok or status == NO or status == DOUBT
end

local function lines_of(text)
  local out = {}
  for line in (text:gsub("\n$", "") .. "\n"):gmatch("(.-)\n") do out[#out + 1] = (line:gsub("%s+$", "")) end
  return out
end

local function put(name, lines)
  local f = assert(io.open(name, "w"))
  assert(f:write(table.concat(lines, "\n"), "\n"))
  assert(f:close())
end

-- ---- excerpts ------------------------------------------------------------------

local function find(lines, text, from)
  for i = from, #lines do
    if lines[i]:find(text, 1, true) then return i end
  end
  error(("the output has no line with '%s' from its line %d on"):format(text, from), 0)
end

local function range(part, lines, from)
  local first, last = part:match("^(%d+)%-(%d+)$")
  if first then return tonumber(first), math.min(tonumber(last), #lines) end
  if part == "all" then return 1, #lines end
  local text, rest = part:match('^"([^"]+)"%s*(.*)$')
  if not text then error("not an excerpt: " .. part, 0) end
  first = find(lines, text, from)
  local more, stop = rest:match("^%+(%d+)$"), rest:match('^to "([^"]+)"$')
  if more then return first, math.min(first + tonumber(more), #lines) end
  if stop then return first, find(lines, stop, first + 1) end
  if rest ~= "" then error("not an excerpt: " .. part, 0) end
  last = first
  while last < #lines and lines[last + 1] ~= "" do last = last + 1 end
  return first, last
end

local function excerpt(spec, lines)
  local out, at = {}, 0
  for part in spec:gmatch("[^;]+") do
    local first, last = range(part:match("^%s*(.-)%s*$"), lines, at + 1)
    if at > 0 and first > at + 1 then out[#out + 1] = "..." end
    table.move(lines, first, last, #out + 1, out)
    at = last
  end
  while out[#out] == "" do out[#out] = nil end
  return out
end

-- ---- one document ---------------------------------------------------------------

-- A folder for the document's commands and files.
local function prepare(file)
  local dir = where .. "/" .. file:gsub("%W", "-")
  local _, ok = shell(("rm -rf '%s' && mkdir -p '%s' && cd '%s' && ln -s '%s/weather-samples' '%s/docs' . && ln -s '%s/%s' build")
    :format(dir, dir, dir, root, root, root, build))
  assert(ok, "cannot make " .. dir)
  return dir
end

local function run(dir, command, fails)
  local text, ok = shell(("cd '%s' && PATH='%s/%s':$PATH\n%s"):format(dir, root, build, command))
  if fails then ok = not ok end
  if not ok then error(("%s%s:\n%s"):format(command, fails and "does not fail" or "fails", text), 0) end
  return lines_of(text)
end

-- The commands at the head of a fence, and how many of its lines they are.
local function commands(fence)
  local out, n, more = {}, 0, false
  for _, line in ipairs(fence) do
    if not more and line:sub(1, 2) ~= "$ " then break end
    out[#out + 1] = more and line or line:sub(3)
    more, n = line:sub(-1) == "\\", n + 1
  end
  if n == 0 then error("a fence with the mark 'output' begins with a line '$ command'", 0) end
  return table.concat(out, "\n") .. "\n", n
end

local printed   -- by the last commands of the document

local function renew(fence, mark, dir)
  if mark.kind == "more" then return excerpt(mark.what, printed) end
  local command, n = commands(fence)
  printed = run(dir, command, mark.kind == "refusal")
  local out = table.move(fence, 1, n, 1, {})
  local got = excerpt(mark.what, printed)
  return table.move(got, 1, #got, n + 1, out)
end

local KINDS = { output = true, refusal = true, more = true, file = true, says = true }

-- However the lines are broken.
local function in_output(text)
  local all = " " .. table.concat(printed or {}, " ") .. " "
  return all:gsub("%s+", " "):find(text:gsub("%s+", " "), 1, true) ~= nil
end

local function mark_of(line)
  local kind, what = line:match("^<!%-%- (%l+): (.*) %-%->$")
  return KINDS[kind] and { kind = kind, what = what }
end

local bad = 0

local function complain(...)
  io.stderr:write(string.format(...), "\n")
  bad = bad + 1
end

local function document(file)
  local old, out, dir, mark = lines_of(assert(assert(io.open(file)):read("a"))), {}, nil, nil
  local i = 1
  while i <= #old do
    local line = old[i]
    out[#out + 1] = line
    if mark then
      if line:sub(1, 3) ~= "```" then error(("%s:%d: a fence must follow its mark"):format(file, i), 0) end
      local close = i + 1
      while old[close] ~= "```" do close = close + 1 end
      local fence = table.move(old, i + 1, close - 1, 1, {})
      if mark.kind == "file" then
        put(dir .. "/" .. mark.what, fence)
      else
        local ok, new = pcall(renew, fence, mark, dir)
        if ok then fence = new else complain("%s:%d: %s", file, i, new) end
      end
      table.move(fence, 1, #fence, #out + 1, out)
      i, mark = close - 1, nil
    else
      mark = mark_of(line)
      if mark and not dir then dir = prepare(file) end
      if mark and mark.kind == "says" then
        if not in_output(mark.what) then
          complain("%s:%d: the output no longer holds '%s': mend the text below", file, i, mark.what)
        end
        mark = nil
      end
    end
    i = i + 1
  end
  return old, out
end

for i = 3, #arg do
  local old, new = document(arg[i])
  if table.concat(old, "\n") ~= table.concat(new, "\n") then
    local at = 1
    while old[at] == new[at] do at = at + 1 end
    if mode == "write" then
      put(arg[i], new)
      print(("%s: written, from line %d on"):format(arg[i], at))
    else
      complain("%s:%d: the program prints something else now (make guides writes it)\n- %s\n+ %s",
        arg[i], at, old[at] or "", new[at] or "")
    end
  end
end
os.exit(bad == 0 and 0 or 1)
