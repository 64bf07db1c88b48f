-- SPDX-License-Identifier: MIT
-- Records of ensembles: a run that may stop and go on, and CSV of its rows.
local records = {}

local SLICE_S = 5             -- how often the finished rows are put on disk
local MAGIC = "tarnrow1"      -- how a record begins: lib/tarn/study/record.c

local function slurp(path)
  local f = io.open(path, "rb")
  if not f then return nil end
  -- a device or a picture is not read to its end, which it may not have
  local head, why = f:read(#MAGIC)
  local rest = head == MAGIC and f:read "a"
  f:close()
  if why then tarn.mistake(("%s: %s"):format(path, why)) end
  if head and not rest then tarn.mistake(path .. ": is not a record of a study") end
  return (head or "") .. (rest or "")
end
records.slurp = slurp

-- A line that overwrites itself, while somebody looks on.
local function progress_line(rows)
  local start = os.time()
  return function(done)
    local spent = os.difftime(os.time(), start)
    if spent >= 1 and tarn.watched() then
      io.stderr:write(("\r%d of %d rows, %.0f s  "):format(done, rows, spent))
      return true
    end
  end
end

-- Ends the program after Ctrl-C or SIGTERM, and says what is kept of the samples, if any
-- were asked for; 'rows' as far as they came.
function records.stop(asked, samples, rows)
  local kept = ""
  if samples then
    local there = asked.record and io.open(asked.record, "rb")
    if there then there:close() end
    kept = there and "; the same command goes on from " .. asked.record or
      asked.record and "; nothing was finished yet" or "; nothing is kept without --record FILE"
  end
  local _, cause = tarn.study.interrupted()
  tarn.mistake(("stopped by %s%s%s"):format(cause or "Ctrl-C", rows and (" after %d of %d rows"):format(rows.done, rows.count) or "",
    kept))
end

local function part_of(text)
  if not text then return 1, 1 end
  local part, parts = text:match "^(%d+)/(%d+)$"
  part, parts = tonumber(part), tonumber(parts)
  if not part or part < 1 or part > parts then
    tarn.mistake(("--part must be like 2/8, got '%s'"):format(text))
  end
  return part, parts
end

-- What is asked of a part, before anything runs.
function records.check(asked)
  part_of(asked.part)
  if asked.part and not asked.record then tarn.mistake "--part needs --record FILE, where its rows are kept" end
end

-- Runs a piece of the study; what is wrong with the record is told by its file.
local function run_piece(study, options, path)
  local ok, rows = pcall(study.run, study, options)
  if ok then return rows end
  local why = tostring(rows):match "^record (.*)" or tostring(rows):match "^resume: (.*)"
  if not (path and why) then error(rows, 0) end
  tarn.mistake(("%s: %s"):format(path, why))
end

--[[
  Runs a study (or its part), putting what is finished into 'path' every few
  seconds, and going on from there if the file is from an earlier run.
]]
function records.run(study, asked)
  local part, parts = part_of(asked.part)
  if parts > #study then
    tarn.mistake(("--part %s: there are %d samples, which make no more than so many parts"):format(asked.part, #study))
  end
  local options = { threads = asked.threads, part = part, parts = parts, resume = asked.record and slurp(asked.record) }
  local rows, limit, told = nil, 2048, false
  repeat
    local from, start = rows and rows.done or 0, os.time()
    local show = progress_line(#study)
    options.limit = limit
    options.progress = function(done) told = show(from + done) or told end
    rows = run_piece(study, options, asked.record)
    options.resume = rows.record
    if asked.record then tarn.write_file(asked.record, rows.record) end
    local spent = os.difftime(os.time(), start)
    if spent < SLICE_S then limit = limit * 2 end
  until rows.stopped or rows.done == rows.count
  if told then io.stderr:write("\n") end
  if rows.stopped then records.stop(asked, true, rows) end
  return rows
end

-- One line a row: number, inputs, figures.
function records.csv(rows, inputs, values)
  local heads, names = { "row" }, {}
  for _, input in ipairs(inputs) do heads[#heads + 1] = input.field .. (input.times and "_times" or "") end
  for _, q in ipairs(tarn.study.quantities()) do
    if rows.values[q.name] then
      names[#names + 1] = q.name
      heads[#heads + 1] = q.unit == "-" and q.name or q.name .. "_" .. q.unit
    end
  end
  local out = { table.concat(heads, ",") }
  for i = 1, rows.done do
    local row = rows.first + i - 1
    local cells = { ("%d"):format(row) }
    for d in ipairs(inputs) do cells[#cells + 1] = ("%.9g"):format(values[d][(row - 1) % #values[d] + 1]) end
    for _, name in ipairs(names) do
      local x = rows.values[name][i]
      cells[#cells + 1] = x and ("%.9g"):format(x) or ""
    end
    out[#out + 1] = table.concat(cells, ",")
  end
  return table.concat(out, "\n") .. "\n"
end

return records
