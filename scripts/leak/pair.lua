-- SPDX-License-Identifier: MIT
-- The bucket test: what the pond fell beside a bucket, pump off and on.
local rates = require "leak.rates"

local u = tarn.units

local pair = {}

-- ---- what the command line says ------------------------------------------------------

local PAIR_OPTIONS = { "off_hours", "off_drop", "off_bucket", "on_hours", "on_drop", "on_bucket" }

function pair.asked(asked)
  for _, name in ipairs(PAIR_OPTIONS) do
    if asked[name] then return true end
  end
end

-- What a bucket test must have, told by the names of its options.
function pair.check(asked)
  if not asked.off_hours and not asked.on_hours then tarn.mistake("a bucket test needs --off-hours or --on-hours") end
  for _, name in ipairs { "off", "on" } do
    local hours, option = asked[name .. "_hours"], "--" .. name
    if hours and not (hours > 0) then tarn.mistake(option .. "-hours must be above 0") end
    if hours and not asked[name .. "_drop"] then tarn.mistake(option .. "-drop is missing beside " .. option .. "-hours") end
    if hours and not asked[name .. "_bucket"] and not asked.evaporation then
      tarn.mistake(option .. "-bucket is missing (or --evaporation, where no bucket stood)")
    end
    if (asked[name .. "_rain"] or 0) > 0 then
      tarn.mistake(option .. "-rain: rain voids the test; repeat it in a dry spell")
    end
  end
  if asked.area and not (asked.area > 0) then tarn.mistake("--area must be above 0") end
end

local function side_of(asked, view, name)
  if not asked[name .. "_hours"] then return nil end
  local rate = asked.evaporation and rates.depth_of(view, asked.evaporation) * 1000
  local rain = asked[name .. "_rain"]
  return {
    hours = asked[name .. "_hours"], drop = rates.depth_of(view, asked[name .. "_drop"]),
    bucket = rates.depth_of(view, asked[name .. "_bucket"]),
    weather = not asked[name .. "_bucket"] and rate or nil,
    rain = rain and rates.depth_of(view, rain) * 1000 or nil,
  }
end

-- A pond of upright walls where only areas are known.
function pair.plain_pond(asked, view)
  if not asked.area then
    tarn.mistake("the pond is missing: give POND.lua, or --area and, beside it, --bed and --stream")
  end
  local side = math.sqrt(rates.area_of(view, asked.area))
  return tarn.pond {
    basin = { shape = "rectangle", length = side, width = side, depth = 1.2 },
    overflow_level = 1.1, bed = { area = rates.area_of(view, asked.bed) or 0 }, stream = { area = rates.area_of(view, asked.stream) or 0 },
  }
end

local SIDE_TITLES = {
  off = { "Pump off", "the pond's shell and its edges" },
  on = { "Pump on", "pond, stream, falls, bed and pipes together" },
}

-- The verdict of a half, as its advice has it.
local SAYS = {
  gains = "less was lost than evaporation takes (is the fill valve shut, did it rain, were two readings swapped?)",
}

local function half_verdict(r, name)
  return SAYS[r.advice[name].word] or r[name].verdict
end

-- Falls of a day or two: a tenth of a millimetre counts.
local function fine(view, m)
  return view.name == "metric" and ("%.1f mm"):format(m * 1000) or view:show("depth", m)
end

-- What a half of the test says, as a sentence or two.
local function told(view, r, name)
  local half, side, advice, matters = r[name], r.sides[name], r.advice[name], rates.matters(view, r.matters)
  local title, what = SIDE_TITLES[name][1], SIDE_TITLES[name][2]
  local line = ("%s, %g h: the pond fell %s, evaporation explains %s. Unexplained: %s/day, %s/day, best %s (%s). Verdict: %s.")
    :format(title, side.hours, fine(view, side.drop), fine(view, half.expected),
      rates.drop_range(view, half.unexplained_mm_d), rates.volume_range(view, half.unexplained_m3_d),
      view:cell("volume", half.unexplained_m3_d.mean), what, half_verdict(r, name))
  if advice.word ~= "loses" then
    line = line .. (" This test finds a loss of %s/day or more nine times in ten."):format(rates.drop(view, half.resolvable_mm_d))
  end
  if advice.longer == "go_on" then
    line = line .. (" For %s/day go on for %d h."):format(matters, advice.go_on)
  elseif advice.longer == "never" then
    line = line .. (" No number of hours finds %s/day here: evaporation is too uncertain. Choose a cool, calm spell, or cover bed and stream.")
      :format(matters)
  end
  return line
end

-- The test of the command line, worked out.
function pair.of(asked, view, pond, matters)
  local sides = { off = side_of(asked, view, "off"), on = side_of(asked, view, "on") }
  local r = tarn.pair {
    pond = pond, off = sides.off, on = sides.on, matters = matters,
    reading_error = rates.depth_of(view, asked.reading_error),
  }
  r.sides = sides
  return r
end

-- Unexplained losses by part, for a figure: { name, interval of m3/d }
function pair.losses(r)
  local list = {}
  for _, name in ipairs { "off", "on" } do
    if r[name] then list[#list + 1] = { SIDE_TITLES[name][1], r[name].unexplained_m3_d } end
  end
  if r.upper_mm_d then list[#list + 1] = { "On minus off", r.upper_m3_d } end
  return list
end

-- The verdicts alone, where nothing else answers.
function pair.answer(page, r)
  local list = {}
  for _, name in ipairs { "off", "on" } do
    if r[name] then list[#list + 1] = ("%s: %s."):format(SIDE_TITLES[name][1], half_verdict(r, name)) end
  end
  if r.upper_mm_d then list[#list + 1] = ("On minus off: %s."):format(r.upper_verdict) end
  page:paragraph(table.concat(list, " "))
end

local NEXT = {
  again = "Shut the fill valve at its stop, wait for a dry spell, and test again: a pond cannot lose less than the bucket.",
  test_off = "Repeat with the pump off, for as long: it tells the pond's shell from all that the pump feeds. Let the level settle for an hour before the first reading. Fish need air meanwhile.",
  watch_edge = "The pond loses water with the pump off. Let it fall: where it settles marks the height. Look along the edge for soil, mulch or moss that touches the water, and at the lowest point of the liner.",
  test_on = "Repeat with the pump on, for as long: a loss that shows only then lies in stream, falls, bed or pipes, or is splash.",
  look_above = "More is lost while the pump runs. Lay cardboard along the falls to see where drops land; lead the pump's hose straight to the pond for two days: if the loss stops, it is stream or falls. If it is all splash, write splash = %.3g * gpd into the description.",
  baseline = "Nothing is found that evaporation does not explain. Keep the four readings as the pond's own baseline.",
}

function pair.put(page, view, r)
  local list = {}
  for _, name in ipairs { "off", "on" } do
    if r[name] then list[#list + 1] = told(view, r, name) end
  end
  if r.upper_mm_d then
    list[#list + 1] = ("On minus off: %s/day, %s/day, best %s, beyond what stream and bed evaporate: stream, falls, bed, pipes and splash, which this test cannot tell apart. Verdict: %s.")
      :format(rates.drop_range(view, r.upper_mm_d), rates.volume_range(view, r.upper_m3_d),
        view:cell("volume", r.upper_m3_d.mean), r.upper_verdict)
  end
  page:heading("The bucket test")
  page:list(list)
  page:heading("Next")
  page:paragraph(NEXT[r.advice.next]:format((r.splash and r.splash.mean or 0) / u.gpd))
end

return pair
