-- SPDX-License-Identifier: MIT
-- Rates of the leak report as the reader wants them.
local u = tarn.units

local rates = {}

-- A rate at the ruler, mm/d, over a time.
function rates.drop(view, mm_d, days) return view:show("depth", mm_d * (days or 1) / 1000) end

function rates.drop_range(view, e, days)
  return view:range("depth", e.low * (days or 1) / 1000, e.high * (days or 1) / 1000)
end

function rates.volume_range(view, e) return view:range("volume", e.low, e.high) end

-- A loss worth searching for, as it was given: an eighth of an inch is 0.125 in.
function rates.matters(view, mm_d)
  return view.name == "us" and ("%.3g in"):format(mm_d / 1000 / u.inch) or rates.drop(view, mm_d)
end

-- Days, to a tenth: the hours of readings differ.
function rates.days(x) return ("%.6g"):format(math.floor(10 * x + 0.5) / 10) end

-- What the owner gives on the command line, to metres.
function rates.depth_of(view, x) return x and x * (view.name == "us" and u.inch or u.mm) end
function rates.area_of(view, x) return x and x * (view.name == "us" and u.ft2 or 1) end

return rates
