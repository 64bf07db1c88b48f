-- SPDX-License-Identifier: MIT
-- What a script leaves behind: files, all or none, and the page.
local inputs = require "common.inputs"

local outputs = {}

-- The number of the system's for a file that is not there.
outputs.NONE = select(3, io.open "no such folder/no such file")

-- Text of a file, whole; a pipe that the run has read before is empty by now.
function outputs.text(path)
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
    local text = path and outputs.text(path) or ""
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
  outputs.pages(everything, full, short) -> the page that is printed, function() -> the page with all of it, for files

  full, short   functions that compose a page; each is called when it is first wanted
]]
function outputs.pages(everything, full, short)
  local page = everything and full() or short()
  local whole = everything and page
  return page, function()
    if not whole then
      whole = full()
      put_old_names(whole)
    end
    return whole
  end
end

--[[
  One rule for all commands: a file "-" is standard output.  Then nothing else
  goes there: a page is not printed, and what the program says of its files goes
  to the error output.
]]

-- Writes one file whole, or to standard output; returns where words go.
function outputs.write(path, text)
  if path ~= "-" then
    tarn.write_file(path, text)
    return io.stdout
  end
  io.write(text)
  return io.stderr
end

--[[
  outputs.finish(page, files): writes the files, prints the page, says where the
  files are; returns the exit status, which the page has from what was found.

  files  list of { path or nil, function() return text end, what it is }, all
         composed before one is written: a mistake leaves none behind
]]
function outputs.finish(page, files)
  local ready, standard = {}, nil
  put_old_names(page)
  for _, file in ipairs(files) do
    local text = file[1] and file[2]()
    if file[1] == "-" then
      standard = text
    elseif file[1] then
      ready[#ready + 1] = { file[1], text, file[3] }
    end
  end
  tarn.write_files(ready)
  if standard then io.write(standard) else page:print() end
  for i, file in ipairs(ready) do
    (standard and io.stderr or io.stdout):write(i == 1 and not standard and "\n" or "", file[3], " is in ",
      tarn.visible(file[1]), "\n")
  end
  return page.status
end

return outputs
