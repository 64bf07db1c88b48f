-- SPDX-License-Identifier: MIT
-- The `tarn topup` line for a weather file: tried on a plain pond, not guessed.
local answers = require "common.answers"
local args = require "common.args"
local inputs = require "common.inputs"

local trial = {}

-- Any pond will do: the weather decides whether a ledger runs.
local POND = { basin = { shape = "rectangle", length = 4, width = 3, depth = 1 },
  overflow_level = 0.9, target = 0.85, trigger = 0.8 }

-- A latitude that stands in for one that is not known, so that all else can be tried.
trial.LATITUDE = 45

-- The table as these options read the file; nil, why not, where they do not fit it.  A file that can be read no longer is
-- nobody's answer: that goes on up.
local function read(path, options)
  local _, weather, why = tarn.weather.examine(path, inputs.map(path, options))
  if weather then weather, why = inputs.joined(weather, options) end
  if why and not why.path and not why.line then error(why, 0) end
  return weather, why
end

-- The run of a ledger on a table with these options, as topup makes it: days that are run, what ready did; or nil, why not.
local function run(path, weather, options, latitude)
  local description = answers.with(POND, { evaporation = { latitude = latitude } })
  local ok, ready, done = inputs.tried(inputs.ready, path, weather, options, description)
  if not ok then return nil, tostring(ready) end
  local pond = tarn.pond(description)
  local ran, ledger = inputs.tried(pond.run, pond, ready, {})
  if not ran then return nil, tostring(ledger) end
  return done.days, done
end

--[[
  trial.lines(path, weather, asked, place_known) -> list of { options =, days =, left_out = }, why

  The first aid with which a ledger runs, then the first that runs more days, and so on.  Without any: why the options
  as they are fail.  weather: the table as the options read it; only other totals read the file again.
]]
function trial.lines(path, weather, asked, place_known)
  local lines, most, why = {}, 0, nil
  local latitude = not place_known and trial.LATITUDE or nil
  local spread, not_spread
  for _, aid in ipairs(answers.AIDS) do
    local options = answers.with(asked, aid)
    local table_now, days, done = weather, nil, nil
    if aid.totals and asked.totals ~= aid.totals then
      if not spread and not not_spread then spread, not_spread = read(path, options) end
      table_now, done = spread, not_spread and tostring(not_spread)
    end
    if table_now then days, done = run(path, table_now, options, latitude) end
    if not days then
      why = why or done
    elseif days > most then
      most = days
      lines[#lines + 1] = { options = options, days = days, left_out = done.left_out }
    end
    if days and done.left_out == 0 then break end
  end
  return lines, why
end

-- The aids that were tried, for where none helps; those that were asked for are in all of them.
function trial.tried(asked)
  local words = {}
  for i, aid in ipairs(answers.AIDS) do
    words[i] = answers.words(inputs.weather_options, answers.with(asked, aid), asked)
  end
  for i = #words, 1, -1 do
    if words[i] == "" then table.remove(words, i) end
  end
  return table.concat(words, ", ")
end

-- The line, with the options by the names of inputs.with_years; unknown: more words, for the reader to fill in.
function trial.command(path, options, unknown)
  local words = { "tarn topup POND.lua", args.quoted(path:find "^%-" and "./" .. path or path) }
  local said = answers.words(inputs.with_years {}, options)
  if said ~= "" then words[3] = said end
  return table.concat(table.move(unknown, 1, #unknown, #words + 1, words), " ")
end

return trial
