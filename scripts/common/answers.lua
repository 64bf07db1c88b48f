-- SPDX-License-Identifier: MIT
-- Options that answer an error of the library (its 'settle' and 'answers'): which there are, and which of them read a file,
-- tried before they are offered.
local args = require "common.args"

local answers = {}

-- The option that gives an answer; all others are fields of a --map file.
local OPTIONS = { columns = "column", units = "file-units", unit = "unit", dates = "dates", decimal = "decimal", missing = "missing",
  duplicates = "duplicates", order = "order", outliers = "outliers", station = "station", rain = "dry-gaps", bridge = "bridge" }
local FIELDS = { date_format = "date = { format = \"...\" }" }
local MOST_READS = 16           -- of one file, for the trial
local MOST_SHOWN = 4

-- What may settle a weather that has gaps, the mildest first.
answers.AIDS = { {}, { totals = "spread" }, { bridge = 31 }, { dry_gaps = true }, { bridge = 31, dry_gaps = true },
  { totals = "spread", bridge = 31, dry_gaps = true } }

-- A copy of the options with others in their place.
function answers.with(options, others)
  local all = {}
  for k, v in pairs(options) do all[k] = v end
  for k, v in pairs(others) do all[k] = v end
  return all
end

local function key(name) return (name:gsub("-", "_")) end

local function option_of(list, name)
  for _, option in ipairs(list) do
    if option.name == name then return option end
  end
end

-- Those of the options that are in the list, as words of a command; of: only where they differ from these.
function answers.words(list, options, of)
  local words = {}
  for _, option in ipairs(list) do
    local value = options[key(option.name)]
    if value and not (of and of[key(option.name)] == value) then
      words[#words + 1] = "--" .. option.name
      if option.value then
        words[#words + 1] = args.quoted(type(value) == "number" and ("%.14g"):format(value) or value)
      end
    end
  end
  return table.concat(words, " ")
end

-- The option that answers an error, as "--dates NAME"; nil where none does.  list: of options.
function answers.hint(list, why)
  if not why.settle or why.settle == "nothing" or why.settle == "place" then return nil end
  local option = OPTIONS[why.settle] and option_of(list, OPTIONS[why.settle])
  local words = option and "--" .. option.name .. (option.value and " " .. option.value or "")
  if why.settle == "columns" then words = words .. ", or --map FILE, see docs/methods/weather.md" end
  if words then return words end
  return (FIELDS[why.settle] or why.settle) .. " in a --map file, see docs/methods/weather.md"
end

-- The options with one answer more.
local function answered(list, options, settle, answer)
  local option = option_of(list, OPTIONS[settle])
  local k = key(option.name)
  if option.joined and options[k] then answer = options[k] .. "," .. answer end
  return answers.with(options, { [k] = answer })
end

-- A file that has many days more than once has other rows than days.
local function many_left_out(file) return file.duplicates * 20 > file.rows end

--[[
  answers.that_read(list, options, why, read) -> list of options, how many were tried

  The answers to the error 'why' with which the file is read and no value is doubtful; an answer that leads to another
  question is asked on.  read(options): what the file was taken for, the weather, why not.
]]
function answers.that_read(list, options, why, read)
  local found, reads = {}, 0
  local function try(from, error_now, settled)
    if not OPTIONS[error_now.settle] or settled[error_now.settle] and error_now.settle ~= "missing" then return end
    for _, answer in ipairs(error_now.answers) do
      if reads == MOST_READS then return end
      reads = reads + 1
      local now = answered(list, from, error_now.settle, answer)
      local file, weather, again = read(now)
      if again then
        try(now, again, answers.with(settled, { [error_now.settle] = true }))
      elseif many_left_out(file) then
        reads = reads - 1             -- that is no answer, but another file
      elseif #weather:doubts() == 0 then
        found[#found + 1] = now
      end
    end
  end
  try(options, why, {})
  return found, reads
end

-- What came of it, to be added to the message of an error.
function answers.sentence(list, options, why, read)
  local hint = answers.hint(list, why)
  local found, reads = answers.that_read(list, options, why, read)
  if reads == 0 then return hint and (" (%s)"):format(hint) or "" end
  if #found == 0 then
    return (" (%s; tried: no answer reads the file with values that can be)"):format(hint)
  end
  local words = {}
  for i, now in ipairs(found) do
    words[i] = i <= MOST_SHOWN and answers.words(list, now, options) or "..."
    if i > MOST_SHOWN then break end
  end
  return ("; tried: %s %s values that can be"):format(table.concat(words, ", or "),
    #found > 1 and "give" or reads > 1 and "alone gives" or "gives")
end

-- The first aid with which a weather with gaps is run, to be added to the message of an error.  run(options): days, or nil.
function answers.aid_sentence(list, options, why, run)
  local tried = {}
  for _, aid in ipairs(answers.AIDS) do
    local now = answers.with(options, aid)
    local words = answers.words(list, now, options)
    if words ~= "" and not aid.totals then
      local days = run(now)
      if days then return ("; tried: %s runs %d days"):format(words, days) end
      tried[#tried + 1] = words
    end
  end
  return (" (%s; tried: no days are run by %s)"):format(answers.hint(list, why), table.concat(tried, ", "))
end

return answers
