-- SPDX-License-Identifier: MIT
-- Which of the page's files one is, by what stands in it, wherever it was dropped.
local questions = require "whatif.questions"

local files = {}

-- Names of a description's own fields and sections.
local function pond_names()
  local names = {}
  for _, section in ipairs(tarn.pond_fields()) do
    if section.section == "" then
      for _, row in ipairs(section) do names[row.name] = true end
      for _, row in ipairs(section.beside or {}) do names[row.name] = true end
    end
  end
  return names
end

local function shared(t, names)
  local n = 0
  for key in pairs(t) do n = n + (names[key] and 1 or 0) end
  return n
end

local function of_description(d)
  if d.columns and not d.basin then return "map" end
  local pond, study = shared(d, pond_names()), shared(d, questions.fields)
  if pond == 0 and study == 0 then return "measured" end
  return study > pond and "study" or "pond"
end

-- Does the first line name what it measures, as a file of measurements does?
local function is_measured(path)
  local file = io.open(path)
  local line = file and file:read "l"
  if file then file:close() end
  return line ~= nil and line:find "^%s*name%s*,%s*value" ~= nil
end

-- A table: a log if it has a level or a meter; one that no reader knows is what is
-- expected where it was dropped.
local function of_table(path, here)
  if is_measured(path) then return "measured" end
  if tarn.log.recognised(path) then return "log" end
  if here == "log" or here == "measured" then return pcall(tarn.weather.read, path) and "weather" or here end
  return "weather"
end

-- "pond", "study", "measured", "map", "log" or "weather"; here: what the place takes
-- where the file was dropped, "" if any.
function files.kind(path, here)
  if not path:lower():find "%.lua$" and not path:lower():find "%.json$" then return of_table(path, here) end
  local read, d = pcall(tarn.description, path)
  if read then return of_description(d) end
  return (here == "study" or here == "measured") and here or "pond"
end

return files
