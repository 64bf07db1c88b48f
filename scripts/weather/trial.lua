-- SPDX-License-Identifier: MIT
-- The `tarn topup` line for a weather file: tried on a plain pond, not guessed.
local inputs = require "common.inputs"

local trial = {}

-- Any pond will do: the weather decides whether a ledger runs.
local POND = { basin = { shape = "rectangle", length = 4, width = 3, depth = 1 },
  overflow_level = 0.9, target = 0.85, trigger = 0.8 }

-- A latitude that stands in for one that is not known, so that all else can be tried.
trial.LATITUDE = 45

-- What may settle a weather that does not run, the mildest first.
local AIDS = { {}, { totals = "spread" }, { bridge = 31 }, { dry_gaps = true }, { bridge = 31, dry_gaps = true },
  { totals = "spread", bridge = 31, dry_gaps = true } }

local function with(asked, aid)
  local all = {}
  for k, v in pairs(asked) do all[k] = v end
  for k, v in pairs(aid) do all[k] = v end
  return all
end

-- The run of a ledger with these options, as topup makes it: days that are run, what ready did; or nil, why not.
local function run(path, options)
  local ok, weather, done = inputs.tried(inputs.weather, path, options, POND)
  if not ok then return nil, tostring(weather) end
  local pond = tarn.pond(POND)
  local ran, ledger = inputs.tried(pond.run, pond, weather, {})
  if not ran then return nil, tostring(ledger) end
  return weather:days(), done
end

--[[
  trial.lines(path, asked, place_known) -> list of { options =, days =, left_out = }, why

  The first aid with which a ledger runs, then the first that runs more days, and so on.  Without any: why the options
  as they are fail.
]]
function trial.lines(path, asked, place_known)
  local lines, most, why = {}, 0, nil
  for _, aid in ipairs(AIDS) do
    local options = with(asked, aid)
    local days, done = run(path, place_known and options or with(options, { latitude = trial.LATITUDE }))
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

-- A word that a shell reads back as it is.
local function quoted(word)
  if word:find "^[%w%./_:=,@+-]+$" then return word end
  return "'" .. word:gsub("'", "'\\''") .. "'"
end

-- The line, with the options by the names of inputs.weather_options; unknown: more words, for the reader to fill in.
function trial.command(path, options, unknown)
  local words = { "tarn topup POND.lua", quoted(path:find "^%-" and "./" .. path or path) }
  for _, option in ipairs(inputs.weather_options) do
    local value = options[option.name:gsub("-", "_")]
    if value then
      words[#words + 1] = "--" .. option.name
      if option.value then words[#words + 1] = quoted(type(value) == "number" and ("%.14g"):format(value) or value) end
    end
  end
  return table.concat(table.move(unknown, 1, #unknown, #words + 1, words), " ")
end

return trial
