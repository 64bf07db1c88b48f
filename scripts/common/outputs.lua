-- SPDX-License-Identifier: MIT
-- What a script leaves behind: files, all or none, and the page.
local inputs = require "common.inputs"

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

-- Tells of names that the version before had.
local function put_old_names(page)
  local said = {}
  for i, old in ipairs(inputs.old_names) do said[i] = ("%s is called %s now"):format(old[1], old[2]) end
  if #said == 0 then return end
  page:heading("Names of the version before")
  page:paragraph(("%s. The next minor version reads the new names only; tarn convert writes a description with them."):format(
    table.concat(said, "; ")))
end

--[[
  outputs.finish(page, files): writes the files, prints the page, says where the
  files are.

  files  list of { path or nil, function() return text end, what it is }, all
         composed before one is written: a mistake leaves none behind
]]
function outputs.finish(page, files)
  local ready = {}
  put_old_names(page)
  for _, file in ipairs(files) do
    if file[1] then ready[#ready + 1] = { file[1], file[2](), file[3] } end
  end
  tarn.write_files(ready)
  page:print()
  for i, file in ipairs(ready) do
    io.write(i == 1 and "\n" or "", file[3], " is in ", tarn.visible(file[1]), "\n")
  end
end

return outputs
