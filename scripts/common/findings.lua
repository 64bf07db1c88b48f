-- SPDX-License-Identifier: MIT
--[[
  What the checks of the library found, in words: the first lines of every report,
  and the exit status of every command.

      list = findings.of(view, checks ...)      checks: lists of the library's findings
      findings.add(list, verdict, text, place)  one more, in words already
      page:found(list)                          before anything else
      findings.described(list, view, checks, place)   what a description says twice (common.doubts)
      findings.status(list)                     0, or 4 for a doubt, 3 for a no

  An entry: { verdict = "forbids" or "doubt", text =, places = { chapters, the first that
  the report has is named } }.
]]
local text = require "common.text"

local findings = {}

local OK, NO, DOUBT = 0, 3, 4 -- exit status
local LISTED = 6              -- of which the first lines speak one by one

-- Names of the checks, kind of quantity (common.view) or "" for a bare number, and
-- the chapters that have more of it.
local BED, FLOW, LEVELS = { "Every check" }, { "Demand and flow" }, { "Levels", "When the pump stops and starts" }
local STORM, LEDGER = { "Overflow and storm" }, { "Take note", "What if" }
local LEAK = { "What the log says" }
local CHECKS = {
  loading = { "Surface loading of the bed", "loading", BED }, area = { "Area of the bed", "area", BED },
  ammonia = { "Ammonia nitrogen in the pond", "", BED }, outlet = { "Concentration after one pass", "", BED },
  flow = { "Flow for the ammonia", "flow", FLOW },
  turnover = { "Flow for the turnover", "flow", FLOW }, falls = { "Flow for the falls", "flow", FLOW },
  breath = { "Flow for the bed's oxygen", "flow", FLOW },
  oxygen = { "Oxygen at the bed's outlet", "", BED }, bod = { "BOD on the bed's plan", "", BED },
  solids = { "Solids on the bed's plan", "", BED }, section = { "BOD on the inlet's section", "", BED },
  head = { "Head of the clogged bed", "head", BED }, lip = { "Water at the bed's far side, over its lip", "head", BED },
  room = { "Sides of the bed, as times those that the yard holds", "", BED },
  stop = { "Water that SPILLS at every stop of the pump", "volume", LEVELS },
  start = { "A start of the pump BARES THE INTAKE: the level falls to", "depth", LEVELS },
  storm = { "The design storm runs OVER THE EDGE: room left to it", "depth", STORM },
  openings = { "The overflow's openings, as clogged, pass the storm's peak under no head", "small_flow", STORM },
  intake = { "Speed in the intake", "speed", STORM },
  dry = { "Days on which a loss found no water", "days", LEDGER },
  starved = { "Days on which the pond held too little water to start its pump", "days", LEDGER },
  under_intake = { "Days that ended under the intake", "days", LEDGER },
  refused = { "Days on which top-up was wanted and not allowed", "days", LEDGER },
  unmet = { "Top-up wanted and not given, on the worst day", "volume", LEDGER },
  log = { "Unexplained loss of the log, 90 % interval", "loss", LEAK },
  held = { "This log cannot show a leak: something fills the pond", "", LEAK },
  off = { "Unexplained loss with the pump off, 90 % interval", "loss", { "The bucket test" } },
  on = { "Unexplained loss with the pump on, 90 % interval", "loss", { "The bucket test" } },
  factor = { "Times the expected evaporation that the log wants", "", LEAK },
  low_readings = { "Readings under the pump's intake, where it runs dry", "days", { "Interval by interval" } },
  suction = { "Water over the floor at the intake minimum, over the suction", "depth", STORM },
  mouth = { "Water from the pump minimum up to the intake minimum, over the suction", "depth", STORM },
}

-- "0.41 mg/L", in the reader's unit.
local function shown(view, kind, unit, x)
  if kind == "days" then return text.number(x) end
  if kind ~= "" then return view:show(kind, x) end
  return (unit == "-" and "%.3g" or "%.3g " .. unit):format(x)
end

-- A check that has no words yet is said by its name: no finding is left out.
local function words(id)
  return CHECKS[id] or { id, "", {} }
end

local function sentence(f, view)
  local name, kind = words(f.id)[1], words(f.id)[2]
  local function show(x) return shown(view, kind, f.unit, x) end
  if not f.value then return name .. "." end
  local limit = f.low and f.high and (", %s to %s"):format(show(f.low), show(f.high))
    or f.low and ", at least " .. show(f.low) or f.high and f.high > 0 and ", at most " .. show(f.high) or ""
  return ("%s: %s%s%s."):format(name, show(f.value), limit, f.guess and "; the figure is a guess" or "")
end

-- What a description says twice: words where a figure says too little.
local TOLD = {
  told_valve = "%s come back at a stop, though a check valve holds the pipes full: which is so?",
  told_supply = "without a trigger no top-up is ever wanted, so that this never opens.",
  told_tank = "a roof of %s feeds a tank without capacity.",
  told_large = "a pond of %s is large or deep for a garden: are all units given (16 * ft, not 16)?",
  told_unsized = "the bed is NOT counted: it has no size yet (length and width, or area). `tarn bed` proposes one.",
  told_lift = "%s, under the bed's own lip (by bed.drop, at least %s): the pump lifts to the bed's water all the same.",
  told_efficiency = "the flow against its head takes %s of that: more than small pumps reach.",
  told_density = "with its porosity the solid stone would have %s, where 2000 to 3300 is stone.",
}
local KINDS = { m = "depth", m2 = "area", m3 = "volume", ["m3/s"] = "flow", kg = "mass" }

local function told(f, view)
  local function show(x) return shown(view, KINDS[f.unit] or "", f.unit, x) end
  if TOLD[f.id] then return TOLD[f.id]:format(show(f.value), f.low and show(f.low)) end
  local low, high = f.low and show(f.low), f.high and show(f.high)
  return ("%s; by %s it would be %s."):format(show(f.value), f.source, low and high and low .. " to " .. high
    or low and "at least " .. low or "at most " .. high)
end

--[[
  What the description of a pond says twice and not alike.

  checks  as pond:findings() gives them
  place   function(path of a field) -> where it stands: "my-pond.lua:12"
]]
function findings.described(list, view, checks, place)
  for _, f in ipairs(checks) do
    if f.verdict ~= "holds" and f.id:find "^told_" then
      findings.add(list, f.verdict, ("%s %s: %s"):format(place(f.path), f.path, told(f, view)), { "Inputs" })
    end
  end
end

-- The checks that do not hold, in words; what a description says twice is left to
-- findings.described.
function findings.of(view, ...)
  local list = {}
  for _, checks in ipairs { ... } do
    for _, f in ipairs(checks) do
      if f.verdict ~= "holds" and not f.id:find "^told_" then
        findings.add(list, f.verdict, sentence(f, view), words(f.id)[3])
      end
    end
  end
  return list
end

-- Of a pond's checks those of its levels, for reports that speak of no storm and
-- no intake.
function findings.levels(checks)
  local out = {}
  for _, f in ipairs(checks) do
    if CHECKS[f.id] and CHECKS[f.id][3] == LEVELS then out[#out + 1] = f end
  end
  return out
end

function findings.add(list, verdict, sentence_, places)
  list[#list + 1] = { verdict = verdict, text = sentence_, places = places or {} }
end

local function count(list, verdict)
  local n = 0
  for _, f in ipairs(list) do n = n + (f.verdict == verdict and 1 or 0) end
  return n
end

function findings.status(list)
  return count(list, "forbids") > 0 and NO or #list > 0 and DOUBT or OK
end

-- "2 checks say NO, and 1 is in doubt."
function findings.counted(list)
  local no, doubt = count(list, "forbids"), count(list, "doubt")
  if #list == 0 then return "No check says no, and none is in doubt." end
  local said = no > 0 and ("%d %s NO"):format(no, no == 1 and "check says" or "checks say") or "No check says no"
  return doubt == 0 and said .. "." or ("%s, and %d %s in doubt%s"):format(said, doubt, doubt == 1 and "is" or "are",
    no > 0 and "." or ":")
end

-- Chapter of an entry, among those that the report has.
local function place_of(f, has)
  for _, chapter in ipairs(f.places) do
    if has[chapter] then return chapter end
  end
end

--[[
  The worst first: entries with .lead, .text and .place.

  has   [title of a chapter] = true; nil where the chapters are not known yet
]]
function findings.worst_first(list, has)
  local out, left = {}, {}
  for _, verdict in ipairs { "forbids", "doubt" } do
    for _, f in ipairs(list) do
      local place = has and place_of(f, has) or not has and f.places[1] or nil
      if f.verdict == verdict and #out < LISTED then
        out[#out + 1] = { lead = verdict == "forbids" and "NO" or "In doubt", text = f.text, place = place }
      elseif f.verdict == verdict then
        left[#left + 1] = place
      end
    end
  end
  local more = #list - #out
  if more > 0 then
    out[#out + 1] = { lead = "And", text = ("%d more."):format(more), place = left[1] }
  end
  return out
end

-- As plain sentences: "NO: ... (Every check)".
function findings.sentences(list, has)
  local out = {}
  for i, f in ipairs(findings.worst_first(list, has)) do
    out[i] = ("%s: %s%s"):format(f.lead, f.text, f.place and (' See "%s".'):format(f.place) or "")
  end
  return out
end

return findings
