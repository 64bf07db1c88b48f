-- Rates of the leak report as the reader wants them.
local u = tarn.units

local rates = {}

-- A rate at the ruler, mm/d, over a time.
function rates.drop(view, mm_d, days) return view:show("depth", mm_d * (days or 1) / 1000) end

function rates.drop_range(view, e, days)
  return view:range("depth", e.low * (days or 1) / 1000, e.high * (days or 1) / 1000)
end

function rates.volume_range(view, e) return view:range("volume", e.low, e.high) end

-- What the owner gives on the command line, to metres.
function rates.depth_of(view, x) return x and x * (view.name == "us" and u.inch or u.mm) end
function rates.area_of(view, x) return x and x * (view.name == "us" and u.ft2 or 1) end

return rates
