-- SPDX-License-Identifier: MIT
-- Reports as HTML: well-formed, fetching nothing, with the text's own numbers;
-- written whole or not at all.
local findings = require "common.findings"
local new_page = require "common.page"
local svg = require "common.svg"
local view_of = require "common.view"

-- ---- what an HTML file must be ---------------------------------------------------

-- Tags that close each other in order; what stands in script and style is no tag.
local function check_tags(source, what)
  local open = {}
  source = source:gsub("(<script[^>]*>).-(</script>)", "%1%2"):gsub("(<style[^>]*>).-(</style>)", "%1%2")
  assert(source:find "^<!DOCTYPE html>\n", what .. ": begins otherwise")
  for slash, name, attributes in source:sub(16):gmatch "<(/?)(%w+)([^<>]*)>" do
    if slash == "/" then
      local last = table.remove(open)
      assert(last == name, ("%s: </%s> closes <%s>"):format(what, name, tostring(last)))
    elseif attributes:sub(-1) ~= "/" then
      open[#open + 1] = name
    end
    local bare = attributes:gsub('[%w:-]+="[^"]*"', ""):gsub("%s", "")
    assert(bare == "" or bare == "/", ("%s: <%s%s> has an attribute without quotes"):format(what, name, attributes))
  end
  assert(#open == 0, what .. ": left open: " .. table.concat(open, " "))
  assert(not source:gsub("<[^<>]+>", ""):find "[<>]", what .. ": a bare < or >")
  assert(not source:gsub("&%a+;", ""):find "&", what .. ": a bare &")
end

local function check_fetches_nothing(source, what)
  assert(source:find([[http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline']], 1, true),
    what .. ": no policy")
  local rest = source:gsub('xmlns="http://www%.w3%.org/2000/svg"', "")
  for _, pattern in ipairs { "https?://", " src=", 'href="[^#]', "url%(", "@import", "<link", "<base", "<iframe" } do
    local at = rest:find(pattern)
    assert(not at, ("%s: %s in ...%s..."):format(what, pattern, rest:sub((at or 1) - 30, (at or 1) + 60)))
  end
end

local function numbers_of(text)
  local counts = {}
  for n in text:gmatch "%d[%d,.]*" do
    n = n:gsub("[,.]+$", "")
    counts[n] = (counts[n] or 0) + 1
  end
  return counts
end

-- All numbers of the text stand in the HTML, as often; but for bars, of which
-- HTML may have a figure.
local function check_same(text, source, what)
  text = text:gsub("[^\n]+  #*\n", "")
  local words = source:gsub("<script.-</script>", ""):gsub("<style.-</style>", ""):gsub("<svg.-</svg>", ""):gsub("<[^<>]+>", " ")
  local have, count = numbers_of(words), 0
  for n, times in pairs(numbers_of(text)) do
    count = count + times
    assert((have[n] or 0) >= times, ("%s: %s stands %d times in the text, %d in the HTML"):format(what, n, times, have[n] or 0))
  end
  assert(count > 5, what .. ": hardly a number")
end

-- ---- the page itself ---------------------------------------------------------------

local function dot()
  local d = svg.drawing(10, 10, "A <dot>")
  d:circle(5, 5, 2, { fill = svg.colors.water })
  return d:source()
end

local nasty = '</script><script>alert("x")</script> & <b>'
local function nasty_page()
  local page = new_page(nasty)
  page:paragraph("%s of `tarn topup` --first 2014-07-01", nasty)
  page:figure(dot, nasty, { plot = function()
    return { panels = { { label = nasty, unit = "in", first = "2014-01-01", digits = 1,
      series = { { name = nasty, kind = "line", color = svg.colors.water, values = { 1, false, 0 / 0, 1e300 } } } } } }
  end })
  page:heading(nasty)
  page:list { nasty }
  page:table({ "Over-\nflow\nL", nasty }, { { nasty, "NO" }, "-", { "in all", "7" } })
  page:bars({ { nasty, 1, nasty }, { "b", 0, "0" } }, nasty)
  page:bars({ { "drawn", 1, "unseen" } }, "unseen", true)
  page:code(nasty .. "\n")
  return page
end

local found = package.searchpath("report-assets", (package.path:gsub("%.lua", ".js")))
local kept = package.path

-- without what lets figures be zoomed
package.path = "/nowhere/?.lua"
local bare = nasty_page():html { { nasty, nasty } }
check_tags(bare, "page")
check_fetches_nothing(bare, "page")
assert(not bare:find "unseen", "bars that a figure shows")
assert(not bare:find "<script", "a script without assets")
assert(not bare:lower():find "zoom", "speaks of zoom without assets")
assert(bare:find('<circle cx="5" cy="5" r="2" fill="var(--water)"/>', 1, true), "colours follow light and dark")
assert(bare:find("Overflow<br />L", 1, true) and bare:find('<td class="alarm">NO</td>', 1, true) and
  bare:find '<tr class="sum"><th scope="row">in all', "table")
assert(bare:find("<code>tarn topup</code> <code>--first</code> <span class=\"date\">2014-07-01</span>", 1, true), "prose")

-- with it
local folder = os.tmpname()
os.remove(folder)
assert(os.execute("mkdir " .. folder))
local function put(name, text)
  local f = assert(io.open(folder .. "/" .. name, "wb"))
  f:write(text)
  f:close()
end
package.path = folder .. "/?.lua"
put("report-assets.js", "// sha256-QUJD/+0=\nlet a = 1;\n")
local live = nasty_page():html {}
check_tags(live, "page with assets")
check_fetches_nothing(live, "page with assets")
assert(live:find("; script-src 'sha256-QUJD/+0='; ", 1, true), "the policy knows the script by its digest")
assert(live:find("<script>let a = 1;\n</script>", 1, true), "the script is taken in as it stands")
local data = live:match '<script type="application/json">(.-)</script>'
assert(data:find('"values":[1,null,null,1e+300]', 1, true), data)
assert(data:find('"label":"\\u003c/script>\\u003cscript>alert(\\u0022x\\u0022)', 1, true), data)
assert(data:find('"color":"--water"', 1, true), data)
put("report-assets.js", "let a = 1;\n")
local ok, message = pcall(function() return nasty_page():html {} end)
assert(not ok and message:find "report%-assets%.js: is not what", message)
-- no figure to zoom in: no script
local plain = new_page "plain"
plain:figure(dot, "dot")
assert(not plain:html({}):find "<script")
package.path = kept

-- Markdown: a figure where its file is known, code fenced
local mark = new_page "Title"
mark:figure(dot, "A dot", { path = "dot.svg" })
mark:figure(dot, "Unseen")
mark:code "a\n"
mark:bars { { "b", 1, "1 L" } }
assert(mark:markdown() == "# Title\n\n![A dot](dot.svg)\n\n```\na\n```\n\n- b: 1 L\n\n", mark:markdown())

-- ---- the scripts ---------------------------------------------------------------------

local TARN = (os.getenv "TARN_BUILD" or "build") .. "/tarn"
local S, MAP = "weather-samples/", " --map weather-samples/seattle-map.lua"
local SEATTLE = " " .. S .. "seattle_daily_2012_2015.csv"
local POND = " " .. S .. "courtyard-pond.lua"

-- Output of a command and its exit status.
local function run(arguments)
  local pipe = assert(io.popen(TARN .. " " .. arguments .. " 2>&1"))
  local text = pipe:read "a"
  local _, _, status = pipe:close()
  return text, status
end

local function contents(path)
  local f = assert(io.open(path, "rb"))
  local text = f:read "a"
  f:close()
  return text
end

put("study.lua", (contents(S .. "courtyard-study.lua"):gsub("samples = 2000", "samples = 50")
  :gsub("sensitivity = 1024", "sensitivity = 32")))
local STUDY = " " .. folder .. "/study.lua"

-- command, exit status, figures, of them to be zoomed, files that it has read
local REPORTS = {
  { "topup" .. POND .. SEATTLE .. MAP, 0, 3, 1, 2 },
  { "topup" .. POND .. SEATTLE .. MAP .. " --units metric --first 2014-06-10 --last 2014-06-10", 0, 2, 1, 2 },
  { "bed --full" .. POND, 4, 2, 0, 1 },
  { "bed --full tests/good/crowded-bed.lua --units metric", 3, 2, 0, 1 },
  { "bed --full tests/good/unsized-bed.lua", 4, 2, 0, 1 },
  { "sheet --full" .. POND .. SEATTLE .. MAP .. " --materials", 4, 3, 0, 2 },
  { "leak --full" .. POND .. SEATTLE .. " " .. S .. "courtyard-log.csv" .. MAP .. " --intervals", 3, 2, 1, 3 },
  { "leak --full" .. POND .. " --off-hours 48 --off-drop 0.6 --off-bucket 0.5", 4, 1, 0, 1 },
  { "leak --area 150 --on-hours 48 --on-drop 1.4 --on-bucket 0.5", 3, 1, 0, 0 },
  { "whatif --full" .. POND .. SEATTLE .. STUDY .. MAP, 0, 2, 0, 3 },
  { "commission --full" .. POND .. " " .. S .. "courtyard-measured.lua", 3, 1, 0, 2 },
}

for i, report in ipairs(REPORTS) do
  local command, want, figures, zoomed, read = table.unpack(report)
  local path = ("%s/%d.html"):format(folder, i)
  local text, status = run(command .. " --report " .. path)
  assert(status == want, ("%s: exit status %d, want %d: %s"):format(command, status, want, text:sub(1, 300)))
  local page = text:match "^(.*)\n[^\n]+ is in [^\n]+\n$"
  assert(page, command .. ": does not say where the report is")
  -- the page is the same without the report
  assert(page == run(command), command .. ": another page with --report")
  local source = contents(path)
  check_tags(source, command)
  check_fetches_nothing(source, command)
  check_same(page, source, command)
  local _, count = source:gsub("<figure", "")
  assert(count == figures, ("%s: %d figures, want %d"):format(command, count, figures))
  _, count = source:gsub('<figure class="plot"', "")
  assert(count == (found and zoomed or 0), ("%s: %d figures can be zoomed"):format(command, count))
  _, count = (source:match '>Inputs</h2>(.*)$' or ""):gsub("<h3>", "")
  assert(count == read, ("%s: %d inputs at the end, want %d"):format(command, count, read))
  text, status = run(command .. " --report /nowhere/r.html")
  assert(status == 2 and text == "tarn: /nowhere/r.html: cannot write: No such file or directory\n", command .. ": " .. text)
end

-- A file that cannot be written takes those before it along.
for _, command in ipairs { "topup" .. POND .. SEATTLE .. MAP .. " --csv %s/a.csv --report %s/no/r.html",
  "bed" .. POND .. " --csv %s/a.csv --report %s/no/r.html",
  "sheet" .. POND .. SEATTLE .. MAP .. " --markdown %s/s.md --report %s/no/r.html" } do
  local place = folder .. "/empty"
  assert(os.execute("mkdir -p " .. place))
  local _, status = run((command:gsub("%%s", place)))
  assert(status == 2, command)
  assert(os.execute(("test -z \"$(ls %s)\""):format(place)), command .. ": something is left")
end
local text, status = run("bed --full" .. POND .. " --csv " .. folder .. "/x --report " .. folder .. "/x")
assert(status == 2 and text:find "named for two outputs", text)
text, status = run("commission --full" .. POND .. " " .. S .. "courtyard-measured.lua --report " .. S .. "courtyard-measured.lua")
assert(status == 2 and text:find "is an input of this run", text)

-- ---- what reports say ---------------------------------------------------------------

-- A field of the reader's units where its range is told.
text = run("whatif --full" .. POND .. SEATTLE .. STUDY .. MAP)
assert(text:find "splash 0 to 10 US gal/day" and text:find "seepage 0 to 0.0394 in/day", text)
text = run("whatif --full" .. POND .. SEATTLE .. STUDY .. MAP .. " --units metric")
assert(text:find "splash 0 to 37.9 L/day" and text:find "seepage 0 to 1 mm/day", text)

-- The loading is told with the range that it is weighed against.
text = run("bed --full tests/good/curve-bed.lua")
assert(text:find "1.3 x under 80 to 120", text)
text = run("bed --full" .. POND)
assert(text:find "inside 80 to 120", text)
assert(text:find("measured at 3.29 m/d (this bed is 25 x over)", 1, true), text)

-- Water comes up from an open chamber, or else out of a slotted pipe in stone.
put("chamber.lua", (contents(S .. "courtyard-pond.lua"):gsub("thickness = 8 %* inch, diameter = 2 %* inch,", "thickness = 8 * inch,")))
for name, says in pairs { [S .. "courtyard-pond.lua"] = { "24.0 in of stone,", "slotted pipe", "clean-out well" },
  [folder .. "/chamber.lua"] = { "24.0 in of stone and chamber,", "clean-out well", "slotted pipe" } } do
  text = run("bed --full " .. name .. " --drawing " .. folder .. "/bed.svg")
  local svg = contents(folder .. "/bed.svg")
  assert(text:find(says[1], 1, true), text)
  assert(svg:find(says[2], 1, true) and not svg:find(says[3], 1, true), svg)
end

-- A bed of layers has its stone in the sheet, layer by layer, as the bed's page has it.
text = run("sheet --full" .. POND .. SEATTLE .. MAP .. " --materials")
assert(text:find("bed, layer 1: coarse stone +0.65 +10 +0.75") and text:find("bed, layer 2: planting gravel +1.38 +10 +1.75"), text)
assert(text:find("No total of liner to order: stream liner", 1, true), text)

-- Neither a storm over the edge nor a start without top-up has a level.
local storm = contents(S .. "courtyard-pond.lua"):gsub("intensity = 2 ", "intensity = 9 ")
  :gsub("width = 14 %* inch, clogging", "width = 0.5 * inch, clogging")
put("storm.lua", storm)
text = run("sheet --full " .. folder .. "/storm.lua" .. SEATTLE .. MAP)
assert(text:find "runs OVER THE EDGE" and not text:find "Highest in the design storm", text)
put("still.lua", (contents(S .. "courtyard-pond.lua"):gsub("\n  target = [^\n]*", ""):gsub("\n  trigger = [^\n]*", "")))
text = run("sheet --full " .. folder .. "/still.lua" .. SEATTLE .. MAP)
assert(text:find "Edge of the basin" and not text:find "normal low", text)

-- A date is a day of the calendar.
for _, date in ipairs { "2016-02-30", "18 April", "2016-4-18", "2016-13-01", "16-04-18" } do
  put("m.csv", "name,value,unit\ndate," .. date .. ",\nwatts,164,W\n")
  text, status = run("commission --full" .. POND .. " " .. folder .. "/m.csv")
  assert(status == 2 and text:find(":2: date must be a day as YYYY-MM-DD, got '" .. date .. "'", 1, true), text)
end
put("m.csv", "name,value,unit\ndate,2016-02-29,\nwatts,164,W\n")
text, status = run("commission --full" .. POND .. " " .. folder .. "/m.csv")
assert(status == 0 and text:find "commissioning, 2016%-02%-29", text)

-- Markdown finds its drawings from where it stands.
assert(os.execute(("mkdir -p %s/a/b %s/c"):format(folder, folder)))
run("sheet --full" .. POND .. SEATTLE .. MAP .. (" --markdown %s/a/b/s.md --drawings %s/c/"):format(folder, folder))
assert(contents(folder .. "/a/b/s.md"):find("](../../c/levels.svg)", 1, true), contents(folder .. "/a/b/s.md"):sub(1, 900))

assert(os.execute("rm -r " .. folder))

-- A check without words of its own is said all the same, and decides the status.
local list = findings.of(view_of "metric", { { id = "unnamed", verdict = "forbids", value = 2, high = 1, unit = "m" } })
assert(#list == 1 and list[1].text == "unnamed: 2 m, at most 1 m." and findings.status(list) == 3)
