-- SPDX-License-Identifier: MIT
-- The year as the ledger sees it: normal drop, top-up, frost.
local inputs = require "common.inputs"
local stats = require "common.stats"
local u = tarn.units

local season = {}

-- Two readings of a ruler to 1/16 inch: what a week's drop cannot tell.
season.RULER = 0.1 * u.inch
-- Lowest temperature of a day at which falls can freeze faster than water is
-- added: common practice, no source.
season.HARD_FROST = -8

-- Whole weeks of a ledger by the month of their Thursday; 'at' is the index of
-- each date in the list of dates.
local function weeks_by_month(ledger, dates, at)
  local by = {}
  for month = 1, 12 do by[month] = {} end
  for _, week in ipairs(ledger:weeks()) do
    if week.complete then
      local thursday = dates[at[week.first] + 3]
      table.insert(by[tonumber(thursday:sub(6, 7))], week)
    end
  end
  return by
end

-- Top-up of a mean week by month, m3: of whole months, as the top-up report has them.
local function topup_by_month(ledger)
  local sum, days = {}, {}
  for _, m in ipairs(ledger:months()) do
    if m.complete then
      sum[m.month], days[m.month] = (sum[m.month] or 0) + m.topup, (days[m.month] or 0) + m.days
    end
  end
  for month, total in pairs(sum) do sum[month] = 7 * total / days[month] end
  return sum
end

--[[
  season.run(pond, weather, options) -> { ledger, months, methods,
  dates }; a month (false without a whole week) is
  { drop_low, drop, drop_high [m a week], topup, topup_high [m3 a week], weeks }

  low and high: P10 and P90 of the weeks, the widest of all methods that the
  weather allows.  Top-up: the mean of whole months, a week's share.  Drop: what the losses alone take, no rain, no top-up.
]]
function season.run(pond, weather, options)
  local ledger = options.hinted(pond.run, pond, weather, { method = options.method })
  local dates, at = {}, {}
  for i, day in ipairs(ledger:days()) do
    dates[i], at[day.date] = day.date, i
  end
  local months, chosen, mean = {}, weeks_by_month(ledger, dates, at), topup_by_month(ledger)
  for month = 1, 12 do
    local weeks = chosen[month]
    local drop, topup = stats.pick(weeks, "drop_mm"), stats.pick(weeks, "topup")
    months[month] = #weeks > 0 and {
      weeks = #weeks,
      drop_low = stats.percentile(drop, 10), drop = stats.percentile(drop, 50), drop_high = stats.percentile(drop, 90),
      topup = mean[month] or stats.mean(topup), topup_high = stats.percentile(topup, 90),
    } or false
  end
  local methods = { ledger:report().title }
  for _, method in ipairs(pond:methods(weather)) do
    local ok, other = inputs.tried(pond.run, pond, weather, { method = method })
    if ok and method ~= ledger:report().method then
      methods[#methods + 1] = other:report().title
      for month, weeks in ipairs(weeks_by_month(other, dates, at)) do
        local m = months[month]
        if m then
          local drop, topup = stats.pick(weeks, "drop_mm"), stats.pick(weeks, "topup")
          m.drop_low = math.min(m.drop_low, stats.percentile(drop, 10))
          m.drop_high = math.max(m.drop_high, stats.percentile(drop, 90))
          m.topup_high = math.max(m.topup_high, stats.percentile(topup, 90))
        end
      end
    end
  end
  for _, m in ipairs(months) do
    if m then
      m.drop_low, m.drop, m.drop_high = m.drop_low / 1000, m.drop / 1000, m.drop_high / 1000
      m.look = m.drop_high + season.RULER
      m.act = 2 * m.drop_high + season.RULER
    end
  end
  return { ledger = ledger, months = months, methods = methods, dates = dates }
end

--[[
  season.frost(weather, dates, south) -> nil without temperatures, or
  { hard = days a year at or under HARD_FROST, first =, last = "MM-DD" of the
    earliest first and the latest last frost, degree_days = the coldest winter's }
  A winter runs from July to June (south of the equator from January).
]]
function season.frost(weather, dates, south)
  local tmin, tmax = weather:column("tmin"), weather:column("tmax")
  if not tmin or #tmin ~= #dates then return nil end
  local lows, means, first, last = {}, {}, nil, nil
  for i, date in ipairs(dates) do
    lows[i] = tmin[i] or 0 / 0
    if tmin[i] and tmax and tmax[i] then means[#means + 1] = (tmin[i] + tmax[i]) / 2 end
    if tmin[i] and tmin[i] <= 0 then
      local month = tonumber(date:sub(6, 7))
      local key = ("%02d %s"):format(south and month or (month + 5) % 12 + 1, date:sub(6))
      if not first or key < first then first = key end
      if not last or key > last then last = key end
    end
  end
  return {
    hard = tarn.flow.freeze_risk_days(lows, season.HARD_FROST) / #dates * 365.25,
    first = first and first:sub(4), last = last and last:sub(4),
    degree_days = #means == #dates and tarn.flow.freezing_degree_days(means) or nil,
  }
end

return season
