-- SPDX-License-Identifier: MIT
-- The what-if report as it is printed without --full: one screen.
local screen = require "common.screen"
local sections = require "whatif.sections"
local text = require "common.text"

-- The scenarios, with fewer columns.
local function put_scenarios(page, job, view)
  local base, rows = job.scenarios[1], {}
  local typical = base.year_p50 and "year_p50" or "topup"
  local years, volume = base.year_p50 ~= nil, "\n" .. view:unit("volume")
  local heads = { "\n\nScenario", (years and "Middle\nyear" or "All\ndays") .. volume, "\n\nchange" }
  if years then heads[#heads + 1] = "Dry\nyear" .. volume end
  heads[#heads + 1], heads[#heads + 2] = "Days\nunder\nintake", "Days\nre-\nfused"
  for i, s in ipairs(job.scenarios) do
    local row = { s.name, view:cell("volume", s[typical]), sections.change(s[typical], base[typical]) }
    if years then row[#row + 1] = view:cell("volume", s.year_p90 or nil) end
    row[#row + 1], row[#row + 2] = ("%d"):format(s.under_intake), ("%d"):format(s.restricted)
    rows[i] = row
  end
  page:heading "What if"
  page:table(heads, rows)
end

-- What samples, tank and budget say, in a sentence each.
local function answers(job, view)
  local list = {}
  local function add(...) list[#list + 1] = string.format(...) end
  local spread = job.rows and tarn.spread(job.rows.values.year_p50)
  if spread and spread.count > 0 then
    add("With every input by chance within its range (%d samples) a middle year takes %s, 8 times in 10.", job.rows.done,
      view:range("volume", spread.p10, spread.p90))
  end
  if job.tank and job.file.tank.target then list[#list + 1] = sections.tank_answer(job, view) end
  local b = job.budget
  if b then
    add("Ordinance, in its own units: allowance %s, use %s a year; by the ledger, not to be mixed with it, %s of top-up in a mean year.",
      text.number(b.allowance, 0), text.number(b.use, 0), view:show("volume", job.season.a_year))
  end
  local simple = sections.simple(job)
  if #simple > 0 then
    add("Care: a method without sun and humidity says little of warmer weather: %s.", table.concat(simple, "; "))
  end
  return list
end

return function(page, job, view)
  put_scenarios(page, job, view)
  local list = answers(job, view)
  if #list > 0 then page:list(list) end
  screen.close(page, "Changes of climate are the user's; no forecast is made here. Rules on water use differ from place to place: look yours up.",
    "--full prints which input matters, samples, rain tanks, budget and what it rests on; --report FILE.html has them with pictures.")
end
