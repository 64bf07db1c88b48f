-- SPDX-License-Identifier: MIT
-- What a script leaves behind: files, all or none, and the page.
local outputs = {}

-- The number of the system's for a file that is not there.
outputs.NONE = select(3, io.open "no such folder/no such file")

-- Text of a file that the run has read before; a pipe is empty by now.
local function text_of(path)
  local file, reason = io.open(path, "rb")
  local text
  if file then
    text, reason = file:read("a")
    file:close()
  end
  if not text then tarn.mistake(reason:find(path, 1, true) and reason or path .. ": " .. reason) end
  return text
end

-- Files of the run for the end of a report: { name, text }, those that there are.
function outputs.sources(...)
  local list = {}
  for i = 1, select("#", ...) do
    local path = select(i, ...)
    local text = path and text_of(path) or ""
    if text ~= "" then list[#list + 1] = { path, text } end
  end
  return list
end

-- What was not there before goes again if a later file fails.
local function write_all(files, read)
  local made, seen = {}, {}
  for _, file in ipairs(files) do
    if seen[file[1]] then tarn.mistake(file[1] .. ": named for two outputs: one would be lost") end
    seen[file[1]] = true
  end
  for _, file in ipairs(files) do
    local old, _, code = io.open(file[1])
    if old then old:close() end
    local ok, message = pcall(tarn.write_file, file[1], file[2], read)
    if not ok then
      for _, path in ipairs(made) do os.remove(path) end
      error(message, 0)
    end
    if code == outputs.NONE then made[#made + 1] = file[1] end
  end
end

-- A list of paths without the holes that those not given leave.
function outputs.given(paths)
  local out = {}
  for _, path in pairs(paths) do out[#out + 1] = path end
  return out
end

--[[
  outputs.finish(page, files, read): writes the files, prints the page, says
  where the files are.

  files  list of { path or nil, function() return text end, what it is }, all
         composed before one is written: a mistake leaves none behind
  read   paths of what the run has read, none of which is replaced
]]
function outputs.finish(page, files, read)
  local ready = {}
  for _, file in ipairs(files) do
    if file[1] then ready[#ready + 1] = { file[1], file[2](), file[3] } end
  end
  write_all(ready, outputs.given(read))
  page:print()
  for i, file in ipairs(ready) do io.write(i == 1 and "\n" or "", file[3], " is in ", file[1], "\n") end
end

return outputs
