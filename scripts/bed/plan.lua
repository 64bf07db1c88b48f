-- SPDX-License-Identifier: MIT
-- The library's plan of a described bed, with the description beside it: what
-- the sections of the page print.
local plan = {}

--[[
  plan.of(pond, description, located, before) -> job

  job.sized   the bed judged, with .methods of all size rules
  job.chosen  "described", "needed" or "fits" (smaller than needed)
  job.checks  every check, with value, limits and verdict
  located     as from inputs.pond: names the line of a mistake
  before      an earlier job or nil: its room serves where the yard is the same
]]
function plan.of(pond, description, located, before)
  local answer = located(pond.bed_plan, pond, before and before.answer)
  local job, facts = answer:result(), pond:facts()
  job.answer, job.located, job.d, job.facts = answer, located, description, facts
  job.bed, job.water, job.treatment = description.bed or {}, description.water or {}, description.treatment or {}
  job.volume, job.surface = facts.full_volume, facts.full_area
  job.stack = located(answer.stone, answer)
  return job
end

-- Beds about this one: "sizes", "flows", "map" or "full".
function plan.cells(job, grid)
  return job.located(job.answer.cells, job.answer, grid)
end

-- This bed under the rate described and those that are known.
function plan.rates(job)
  return job.located(job.answer.rates, job.answer)
end

function plan.chance(job)
  return job.located(job.answer.chance, job.answer)
end

-- The check of that name, nil if it could not be made.
function plan.check(job, id)
  for _, check in ipairs(job.checks) do
    if check.id == id then return check end
  end
end

return plan
