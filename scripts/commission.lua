-- SPDX-License-Identifier: MIT
-- commission: measurements of a finished pond against its design
local args = require "common.args"
local chart = require "common.chart"
local doubts = require "common.doubts"
local findings = require "common.findings"
local inputs = require "common.inputs"
local new_page = require "common.page"
local outputs = require "common.outputs"
local screen = require "common.screen"
local text = require "common.text"
local view_of = require "common.view"

local spec = {
  usage = "tarn commission POND.lua MEASURED [options]",
  purpose = "Checks what was measured when a pond was started, tells what a difference means and what to do next.",
  positions = {
    { name = "POND.lua", key = "pond", meaning = "description of the pond" },
    { name = "MEASURED", key = "measured", optional = true, meaning = "what was measured: a Lua table, or CSV of name,value,unit" },
  },
  options = {
    { name = "units", value = "us|metric", choices = { "us", "metric" }, meaning = "of the report (us)" },
    screen.option "how each figure is measured, and the reasons of what goes into the description",
    { name = "form", meaning = "print an empty form to fill in (CSV), in --units" },
    { name = "report", value = "FILE", kind = "output", meaning = "write the report as one HTML file, with pictures" },
  },
  more = "Names: date, pail_volume, pail_seconds, pump_off_rise, pump_on_drop, fill_volume, fill_level, watts.\n" ..
    "A Lua table multiplies units: return { pail_volume = 5 * gal, pail_seconds = 8, ... }",
}

-- name, kind of quantity, unit of the form (and in metric), what to measure
local FIELDS = {
  { "pail_volume", "volume", { "gal", "L" }, "held by the pail under one fall or the end of one pipe" },
  { "pail_seconds", "time", { "s", "s" }, "time to fill it, mean of three" },
  { "pump_off_rise", "depth", { "inch", "mm" }, "rise of the level from running at normal high to still, pump off" },
  { "pump_on_drop", "depth", { "inch", "mm" }, "fall of the level from still to running, pump on" },
  { "fill_volume", "volume", { "gal", "L" }, "by the meter, from empty to fill_level, stone in place" },
  { "fill_level", "length", { "inch", "cm" }, "level above the floor at which the meter was read" },
  { "watts", "power", { "W", "W" }, "at a plug-in meter" },
}
local NAMES = { "date" }
for i, field in ipairs(FIELDS) do NAMES[i + 1] = field[1] end

-- ---- what was measured ------------------------------------------------------------------

local function form(metric)
  local out = { "name,value,unit,what" }
  out[2] = "date,,YYYY-MM-DD,day of the measurements"
  for i, field in ipairs(FIELDS) do
    out[i + 2] = ("%s,,%s,%s"):format(field[1], field[3][metric and 2 or 1], '"' .. field[4] .. '"')
  end
  return table.concat(out, "\n") .. "\n"
end

local function unknown(where, name)
  local near = tarn.nearest(name, NAMES)
  tarn.mistake(("%s unknown name '%s'%s"):format(where, name, near and (": did you mean '" .. near .. "'?") or ""))
end

-- The unit of a row for each kind of quantity.
local ROW_UNIT = { depth = "m", length = "m", volume = "m3", time = "s", power = "W" }

local function trim(s) return s and s:match("^%s*(.-)%s*$") or "" end

-- CSV of name,value,unit[,what]; an empty value is not measured.
local function read_csv(path)
  local file, reason = io.open(path)
  if not file then tarn.mistake(reason) end
  local measured, lines, number = {}, {}, 0
  for line in file:lines() do
    number = number + 1
    local where = ("%s:%d:"):format(path, number)
    local name, value, unit = line:match("^%s*([%w_]+)%s*,([^,]*),?([^,]*)")
    value, unit = trim(value), trim(unit)
    if number > 1 and line:find("%S") then
      if not name then tarn.mistake(where .. " must be name,value,unit") end
      if measured[name] then tarn.mistake(("%s '%s' stands twice"):format(where, name)) end
      if name == "date" then
        measured.date = value ~= "" and value or nil
      elseif value ~= "" then
        local known
        for _, field in ipairs(FIELDS) do known = known or field[1] == name and field[2] end
        if not known then unknown(where, name) end
        local typed = trim(value .. " " .. unit)
        local x, why = tarn.typed(typed, ROW_UNIT[known])
        if not x then tarn.mistake(("%s %s: '%s' %s"):format(where, name, typed, why)) end
        measured[name] = x
      end
      lines[name] = number
    end
  end
  file:close()
  return measured, lines
end

-- A day of the calendar, as YYYY-MM-DD.
local function is_date(text)
  local year, month, day = tostring(text):match("^(%d%d%d%d)%-(%d%d)%-(%d%d)$")
  local noon = year and os.time { year = year, month = month, day = day, hour = 12 }
  return noon ~= nil and os.date("%Y-%m-%d", noon) == text
end

local function read(path)
  local measured, lines
  if path:find("%.csv$") then
    measured, lines = read_csv(path)
  else
    measured, lines = tarn.description(path), {}
    for name in pairs(measured) do
      local known = name == "date"
      for _, field in ipairs(FIELDS) do known = known or field[1] == name end
      if not known then unknown(path .. ":", tostring(name)) end
    end
  end
  if measured.date ~= nil and not is_date(measured.date) then
    tarn.mistake(("%s:%s date must be a day as YYYY-MM-DD, got '%s'"):format(path, lines.date and lines.date .. ":" or "",
      tostring(measured.date)))
  end
  for _, field in ipairs(FIELDS) do
    local x = measured[field[1]]
    if x and not (type(x) == "number" and x > 0 and x < 1e9) then
      tarn.mistake(("%s:%s %s must be a number above 0, got %s"):format(path,
        lines[field[1]] and lines[field[1]] .. ":" or "", field[1], tostring(x)))
    end
  end
  if (measured.pail_volume == nil) ~= (measured.pail_seconds == nil) then
    tarn.mistake(path .. ": pail_volume and pail_seconds belong together")
  end
  if (measured.fill_volume == nil) ~= (measured.fill_level == nil) then
    tarn.mistake(path .. ": fill_volume and fill_level belong together")
  end
  return measured
end

-- ---- comparing -------------------------------------------------------------------

-- Room that the stone described takes below a level, in proportion to the basin.
local function stone_below(pond, level)
  local ok, takeoff = inputs.tried(pond.takeoff, pond)
  if not ok or takeoff.displaced_by ~= "layers" then return 0 end
  return takeoff.displaced * pond:basin():volume(level) / pond:facts().full_volume
end

-- One check: { what, kind of quantity, design, measured, kind of measurement, low, high }
-- low, high: what a reading below or above may mean, and the next step.
local function checks_of(pond, measured)
  local works, chart, basin = pond:works(), pond:chart(), pond:basin()
  local pump = pond:description().pump or {}
  local list = {}
  local function add(check) list[#list + 1] = check end
  if measured.pail_volume then
    add { "Flow by the pail", "flow", works.bed_flow and works.bed_flow + works.falls_flow or works.flow,
      measured.pail_volume / measured.pail_seconds, "flow",
      low = "A clogged basket, a valve partly shut, air in the pipe, a lift or fittings beyond the description; or the pail missed water. Next: clean, time it again; if it stays, measure the lift and count the elbows.",
      high = "Less lift or fewer fittings than described, or jets shut. Next: correct the description; look at the falls' splash." }
  end
  if measured.pump_off_rise then
    add { "Rise when it stops", "depth", chart.rise, measured.pump_off_rise, "rise",
      low = "Less water stands in stream and bed than worked out, or a check valve holds the pipes. Next: give stream.depth and bed.lip_head as measured.",
      high = "More comes back: a pipe siphons its pool down, pipes drain further, the stream is rougher. Next: find the siphon (raise the mouth, or fit a check valve), then see that a stop does not spill." }
  end
  if measured.pump_on_drop then
    add { "Drop when it starts", "depth", chart.drop_trigger, measured.pump_on_drop, "drop",
      low = "The upper parts were not empty, or fill slowly: read again after half an hour.",
      high = "More than worked out goes up; if it keeps falling, water leaves above: walk the stream's and the bed's edge. Next: pump off, mark the level, wait a day." }
  end
  if measured.fill_volume then
    if measured.fill_level > basin:top() then
      tarn.mistake(("fill_level is above the basin's top at %.4g m"):format(basin:top()))
    end
    add { "Metered first fill", "volume", basin:volume(measured.fill_level) - stone_below(pond, measured.fill_level), measured.fill_volume, "fill",
      low = "Stone takes more room than figured, or the tape ran long: formulas are 10 to 30 % off on irregular ground. Next: the meter wins; see below.",
      high = "The dig is larger than drawn, the meter served something else, or water went behind the liner. Next: watch the level for two days, then let the meter win; see below." }
  end
  if measured.watts then
    add { "Power", "power", pump.watts or (pump.amps and pump.volts and pump.amps * pump.volts), measured.watts, "power",
      low = "The pump works against more head than planned, or is throttled: see the flow. If amps x volts was the design, less is as it should be.",
      high = "Debris in the impeller, low voltage, another model. Next: clean it; ask the electrician if it stays." }
  end
  for _, check in ipairs(list) do check.judged = tarn.measured(check[5], check[3], check[4]) end
  return list
end

local WORDS = { no_design = "no design figure", agrees = "agrees", low = "LOW", high = "HIGH" }

-- A share off the design, in percent with its sign.
local function percent_off(share)
  local whole = math.floor(100 * share + 0.5)
  return whole == 0 and "0 %" or ("%+d %%"):format(whole)
end

local function put_row(view, check)
  local kind, design, measured = check[2], check[3], check[4]
  local function show(x)
    if not x then return "-" end
    return kind == "power" and text.number(x) .. " W" or view:show(kind, x)
  end
  local judged = check.judged
  return { check[1], show(design), show(measured), judged.off and percent_off(judged.off) or "-", WORDS[judged.word] }
end

-- What was found: each figure that is off, or has nothing to be compared with.
local function found(pond, checks, view, place)
  local of_pond = pond:findings()
  local list = findings.of(view, findings.levels(of_pond))
  doubts.add_pond(list, pond, view, of_pond, place)
  for _, check in ipairs(checks) do
    if check.judged.verdict ~= "holds" then
      findings.add(list, check.judged.verdict, ("%s: %s."):format(check[1], check.judged.word == "no_design" and
        "the description gives nothing to compare with" or "measured " .. (check.judged.off and percent_off(check.judged.off) ..
        " off its design" or "where the design has none")), { "Differences and what to do next" })
    end
  end
  return list
end

-- How many agree, and which do not.
local function answer(checks)
  local off, agree, judged = {}, 0, 0
  for _, check in ipairs(checks) do
    local word, share = check.judged.word, check.judged.off
    judged = judged + (word ~= "no_design" and 1 or 0)
    if word == "agrees" then agree = agree + 1
    elseif word ~= "no_design" then
      off[#off + 1] = check[1]:lower() .. (share and " " .. percent_off(share) or "")
    end
  end
  return ("%d of %d figures agree with the design%s."):format(agree, judged,
    #off > 0 and "; off: " .. table.concat(off, ", ") or "")
end

-- The differences in percent, each beside the room that it has.
local function figure(checks)
  local rows, most = {}, 30
  for _, check in ipairs(checks) do
    local judged = check.judged
    if judged.off then
      local off, room = 100 * judged.off, 100 * judged.room
      most = math.max(most, math.abs(off) + 5)
      rows[#rows + 1] = { check[1], -room, room, off, ("%s, %s"):format(percent_off(judged.off), WORDS[judged.word]) }
    end
  end
  for _, row in ipairs(rows) do most = math.max(most, row[3] + 5) end
  return chart.rows { title = "Measured against design", description = "Difference of each figure from its design in percent, and the room within which it agrees",
    unit = "percent off the design", low = -most, high = most, label = 190, rows = rows, lines = { { 0, "design" } } }
end

-- ---- main ------------------------------------------------------------------------

local asked = args.read(spec)
if asked.form then
  io.write(form(asked.units == "metric"))
  return
end
if not asked.measured then tarn.mistake("MEASURED is missing; --form prints an empty form. Usage: " .. spec.usage) end
local view = view_of(asked.units or "us")
local pond, description, _, _, place = inputs.pond(asked.pond)
local measured = read(asked.measured)
local checks = checks_of(pond, measured)
if #checks == 0 then tarn.mistake(asked.measured .. ": nothing was measured") end

-- The table, and of each figure that is off what may be the reason.
local function put_checks(page)
  local rows, lines = {}, {}
  for i, check in ipairs(checks) do
    local word = check.judged.word
    rows[i] = put_row(view, check)
    if word == "no_design" then
      lines[#lines + 1] = check[1] .. ": the description gives nothing to compare with; put the measured figure into it."
    elseif word ~= "agrees" then
      lines[#lines + 1] = check[1] .. ": " .. check[word]
    end
  end
  page:paragraph(answer(checks))
  page:table({ "Check", "Design", "Measured", "Off by", "Verdict" }, rows)
  page:figure(function() return figure(checks) end, "How far each figure lies from its design; inside the bar it agrees")
  if #lines > 0 then
    page:heading("Differences and what to do next")
    page:list(lines)
  end
end

-- What goes into the description.  bare: without its reasons
local function to_write(bare)
  local lines = {}
  if measured.fill_volume then
    local basin = pond:basin()
    -- the meter counts water; the basin that holds it is larger by the stone
    local stone = stone_below(pond, measured.fill_level)
    local metered = (measured.fill_volume + stone) * basin:volume(basin:top()) / basin:volume(measured.fill_level)
    lines[#lines + 1] = ("Into the description: basin.metered = %.4g%s."):format(metered, bare and " (m3)" or
      (" (m3, to the top edge, scaled from the level at which the meter was read; of the basin without stone: %s)"):format(
        stone > 0 and view:show("volume", stone) .. " that the stone described takes are added" or
        "none is described, so what the meter counted. Stone laid before the fill belongs into build.wall_stone and floor_gravel first"))
  end
  if measured.pail_volume then
    -- a flow that is given is split as the pipes split it
    local works = pond:works()
    local falls = works.bed_flow and works.bed_flow + works.falls_flow or works.flow
    local share = falls and falls > 0 and works.flow / falls or 1
    lines[#lines + 1] = ("Into the description: pump.flow = %.0f * gph (the pail's%s)."):format(
      measured.pail_volume / measured.pail_seconds * share / tarn.units.gph,
      share > 1.001 and ", and the jets' in the proportion that was worked out" or "")
  end
  return lines
end

local BASELINE = "Then the baseline: fill valve shut, ruler and a bucket on a step, 48 h with the pump on and 48 h with it off, no rain. Keep the form; it is what a later \"is it leaking?\" is compared with."
local POWER = "Work on mains power and pumps with the plug out; wiring belongs to a licensed electrician."

local function begun()
  local page = new_page((description.name or "Pond") .. ": commissioning" .. (measured.date and ", " .. measured.date or ""))
  page:found(found(pond, checks, view, place))
  return page
end

local function full()
  local page, lines = begun(), to_write()
  put_checks(page)
  for _, field in ipairs(FIELDS) do
    if not measured[field[1]] then lines[#lines + 1] = ("Not measured: %s (%s)."):format(field[1], field[4]) end
  end
  lines[#lines + 1] = BASELINE
  lines[#lines + 1] = POWER
  page:heading("To be written down")
  page:list(lines)
  return page
end

-- One screen, where not all is asked for.
local function short()
  local page, lines, left = begun(), to_write(true), {}
  page:paragraph("%s", screen.pond(pond, view))
  put_checks(page)
  for _, field in ipairs(FIELDS) do
    if not measured[field[1]] then left[#left + 1] = field[1] end
  end
  if #left > 0 then lines[#lines + 1] = ("Not measured: %s."):format(table.concat(left, ", ")) end
  lines[#lines + 1] = BASELINE
  page:heading("To be written down")
  page:list(lines)
  screen.close(page, POWER, "--full prints how each figure is measured and what goes into the description; --report FILE.html has it with pictures.")
  return page
end

local page, whole = outputs.pages(asked.full, full, short)
return outputs.finish(page, {
  { asked.report, function() return whole():html(outputs.sources(asked.pond, asked.measured)) end, "The report with pictures" },
})
