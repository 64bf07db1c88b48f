-- SPDX-License-Identifier: MIT
-- The top-up report as it is printed without --full: one screen.
local beside = require "topup.beside"
local doubts = require "common.doubts"
local ranges = require "common.ranges"
local screen = require "common.screen"
local sections = require "topup.sections"
local text = require "common.text"

-- Top-up of each month that has any: the middle of its range, or the mean of the years.
local function month_bars(page, job, view)
  local bars, most = {}, 0
  for _, m in ipairs(job.forecast and job.forecast.months or {}) do
    local topup = m.a_week.p50 and m.a_week.p50 * m.days / 7
    if topup then
      bars[#bars + 1], most = { text.months[m.month], topup, view:show("volume", topup) }, math.max(most, topup)
    end
  end
  if most > 0 then page:bars(bars, "Top-up of a month, P50") end
end

-- How long the pond may be left, in the month in which that is shortest.
local function away(job)
  local worst
  for _, m in ipairs(job.absence and job.absence.months or {}) do
    if m.p10 and (not worst or m.p10 < worst.p10) then worst = m end
  end
  if not worst or worst.p10 > job.absence.horizon then return nil end
  return ("Left alone without top-up%s, the intake is bare after %s days in one start of ten in %s, after %s in half of them."):format(
    job.from and " from today's level" or "", text.number(worst.p10), text.months[worst.month],
    worst.p50 <= job.absence.horizon and text.number(worst.p50) or "over " .. job.absence.horizon)
end

-- Water that fills the pond up from the level of today.
local function to_fill(job, view)
  local basin, full = job.pond:basin(), job.facts.target or job.facts.trigger or job.facts.overflow_level
  local volume = basin:volume(full) - basin:volume(job.from)
  local where = job.facts.target and "normal high (the target)" or job.facts.trigger and "the trigger" or "the overflow"
  if volume <= 0 then return ("The level is at or above %s: nothing is to be added."):format(where) end
  return ("From today's level up to %s: %s."):format(where, view:show("volume", volume))
end

return function(page, job, view, more)
  page:paragraph("%s", screen.pond(job.pond, view))
  sections.glance(page, job, view)
  doubts.choices(page, job.weather)
  month_bars(page, job, view)
  beside.warnings(page, job, view)
  local lines = { away(job) }
  if job.from then table.insert(lines, 1, to_fill(job, view)) end
  local best = job.forecast and ranges.some(job.forecast) and ranges.best(job.forecast)
  if best then lines[#lines + 1] = best end
  screen.close(page, "An estimate: a meter and a ruler on the pond are better. Children drown in inches of water; fill through an air gap; wiring is a licensed electrician's; local codes rule.", more, lines)
end
