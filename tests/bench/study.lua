-- SPDX-License-Identifier: MIT
-- The bench's pond-days in plain Lua, one pond at a time (the first 20).
-- Prints ns per pond-day and the sum of top-up.

local f = assert(io.open(arg[1], 'rb'))
local bytes = f:read('a')
f:close()
local at = 1
local function read(n)
  local t = {}
  for i = 1, n do t[i], at = string.unpack('d', bytes, at) end
  return t
end

local n, days, segments = table.unpack(read(3))
days, segments = days // 1 | 0, segments // 1 | 0
local start, square, slope = {}, {}, {}
for i = 1, segments do
  start[i], square[i], slope[i] = table.unpack(read(3))
end
start[segments + 1] = math.huge
local rain, open_water, grass = read(days), read(days), read(days)
local sqrt = math.sqrt

local function run(p)
  local lip, coll, k_open, seep, stream, plant, splash, trigger, target,
    intake, v = table.unpack(p)
  local topup, over, low, under, seg = 0.0, 0.0, v, 0, 1
  for day = 1, days do
    local e = open_water[day]
    v = v + rain[day] * coll
    if v > lip then
      over = over + (v - lip)
      v = lip
    end
    while seg > 1 and v <= start[seg] do seg = seg - 1 end
    while v > start[seg + 1] do seg = seg + 1 end
    local area = sqrt(square[seg] + slope[seg] * (v - start[seg]))
    v = v - (area * (e * k_open + seep) + e * stream + grass[day] * plant +
             splash)
    if v < 0 then v = 0 end
    if v < trigger then
      topup = topup + (target - v)
      v = target
    end
    if v < low then low = v end
    if v < intake then under = under + 1 end
  end
  return topup
end

local ponds = {}
for i = 1, 20 do ponds[i] = read(11) end
local t0, total = os.clock(), 0.0
for i = 1, #ponds do total = total + run(ponds[i]) end
print((os.clock() - t0) * 1e9 / #ponds / days, string.format('%.17g', total))
