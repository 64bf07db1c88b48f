-- SPDX-License-Identifier: MIT
--[[
  The page's way into the program (page.c calls these by name, with texts):

      start(command, ...)   begins a question: the script of that name, run on the
                            arguments as on a command line
      step()                its next item as JSON; nothing once it is over
      form()                all that the page asks, as JSON: the fields that
                            describe a pond, units, columns of weather, options
      glance(path, units)   what a pond holds, in a few words, as JSON; or a mistake and its field
      description(path, units)   a description (.lua, .json) as JSON, by the names of
                            now, and notes: what its file leaves in doubt
      kind(path, here)      which kind of file it is, as JSON (files.lua)
      examine(pond, refused, path, ...)   what a weather file was taken for, as JSON (examined.lua)

  A script runs in a coroutine that pauses whenever it has added a block to its
  page (scripts/common/page.lua): the first answers are on the screen while the
  rest is computed, and a newer question ends an older one.  The answer's figures
  are drawn after the first chapter, others at the end.  Items of a question:

      { kind = "title", title = }
      { kind = "block", at =, block = "paragraph" ..., html = }
      { kind = "block", at =, block = "heading", text = }
      { kind = "block", at =, block = "figure", caption = }           its html follows
      { kind = "block", at =, block = "found", html = }               again, when all chapters are known
      { kind = "rest" }                                               figures come next
      { kind = "plot", at =, plot = }                                 its numbers, as JSON
      { kind = "end", status =, files = { path, ... } }  or  { kind = "mistake", message =, status =, field = path or nothing }
]]
local args = require "common.args"
local doubts = require "common.doubts"
local files = require "files"
local html = require "common.html"
local inputs = require "common.inputs"
local json = require "common.json"
local new_page = require "common.page"
local view_of = require "common.view"
local plan = require "bed.plan"
local six = require "common.six_questions"
local examined = require "examined"

local page = {}

local COMMANDS = { "topup", "bed", "sheet", "leak", "commission", "whatif" }
local ANSWER = "the answer"

-- ---- a page that tells each block --------------------------------------------

local Page = getmetatable(new_page "").__index
local adders = { "found", "heading", "paragraph", "list", "table", "bars", "code", "figure" }

local function each_figure(self, f)
  for at, block in ipairs(self.blocks) do
    if block.kind == "figure" then f(at, block) end
  end
end

-- Draws what is not drawn yet; a hand that moves on before that need not wait.
local function draw(self)
  coroutine.yield { kind = "rest" }
  each_figure(self, function(at, block)
    if block.drawn then return end
    block.drawn = true
    coroutine.yield { kind = "block", at = at, block = "figure", html = html.block(block, block.chapter) }
  end)
end

local function tell(self)
  local block, at = self.blocks[#self.blocks], #self.blocks
  if block.kind == "heading" then
    self.chapter, self.chapters = block[1], (self.chapters or 0) + 1
    if self.chapters == 2 then draw(self) end
  end
  block.chapter = self.chapter or ANSWER
  local item = { kind = "block", at = at, block = block.kind }
  if block.kind == "heading" then item.text = block[1]
  elseif block.kind == "figure" then item.caption = block[2]
  else item.html = html.block(block, block.chapter) end
  coroutine.yield(item)
end

for _, name in ipairs(adders) do
  local add = Page[name]
  Page[name] = function(self, ...)
    if #self.blocks == 0 and not self.told then
      self.told = true
      coroutine.yield { kind = "title", title = self.title }
    end
    add(self, ...)
    tell(self)
  end
end

-- What was found leads to chapters: those that there are, which only the end knows.
local function lead(self)
  local ids, at_found = {}, nil
  for at, block in ipairs(self.blocks) do
    if block.kind == "heading" then ids[block[1]] = "c" .. at end
    if block.kind == "found" then at_found = at end
  end
  if not at_found then return end
  coroutine.yield { kind = "block", at = at_found, block = "found", html = html.block(self.blocks[at_found], nil, nil, ids) }
end

function Page:print()
  draw(self)
  lead(self)
  each_figure(self, function(at, block)
    if block[3].plot then coroutine.yield { kind = "plot", at = at, plot = html.plot(block) } end
  end)
end

-- Files that the question at hand has written.
local written
local write_file, write_files = tarn.write_file, tarn.write_files
function tarn.write_file(path, ...)
  write_file(path, ...)
  table.insert(written, path)
end
function tarn.write_files(files)
  write_files(files)
  for _, file in ipairs(files) do table.insert(written, file[1]) end
end

-- A command line is of no use on the page.
function args.again() return nil end

-- The room in a yard takes long to find; most sliders leave it alone.
local plan_of, before = plan.of, nil
function plan.of(pond, description, located)
  before = plan_of(pond, description, located, before)
  return before
end

-- ---- questions --------------------------------------------------------------

local scripts, running = {}, nil

local function script(name)
  scripts[name] = scripts[name] or assert(loadfile(("scripts/%s.lua"):format(name), "t"))
  return scripts[name]
end

function page.start(name, ...)
  local command = script(name)
  written, inputs.at_fault, inputs.old_names = json.list {}, nil, {}
  arg = { [0] = name, ... }
  table.insert(arg, "--full")         -- a page has room for chapters
  running = coroutine.create(command)
end

-- What the program refuses has the user's mistake as its text; anything else is
-- a fault of its own.
local function refusal(thread, why)
  local mistake = rawequal(debug.getregistry()["tarn.mistake"], why)
  return { kind = "mistake", message = tostring(why), status = mistake and 2 or 1, field = inputs.at_fault,
    trace = not mistake and debug.traceback(thread) or nil }
end

function page.step()
  if not running then return nil end
  local thread = running
  local ok, item = coroutine.resume(thread)
  if not ok then
    running, item = nil, refusal(thread, item)
  elseif coroutine.status(thread) == "dead" then
    running, item = nil, { kind = "end", status = item or 0, files = written }
  end
  return json.line(item)
end

-- ---- what the page asks -------------------------------------------------------

-- The options and files of a script, as its command line has them.
local function spec_of(name)
  local read, spec = args.read, nil
  args.read = function(given)
    spec = given
    error "enough"
  end
  pcall(script(name))
  args.read = read
  local options = json.list {}
  for _, option in ipairs(spec.options) do
    if not option.printed then                                         -- of a terminal alone
      local shown = {}
      for key, value in pairs(option) do shown[key] = value end
      shown.offers = nil
      shown.choices = option.choices or option.offers and json.list(option.offers())
      shown.meaning = option.meaning:gsub("^with %-%-full: ", "")        -- the page has all
      options[#options + 1] = shown
    end
  end
  return { positions = json.list(spec.positions), options = options, purpose = spec.purpose }
end

local function schema()
  local sections = json.list {}
  for i, section in ipairs(tarn.pond_fields()) do
    local rows, beside = json.list {}, json.list(section.beside or {})
    for k, row in ipairs(section) do
      if row.kind ~= "choice" then row.choices = nil end
      rows[k] = row
    end
    sections[i] = { section = section.section, rows = rows, beside = beside }
  end
  return sections
end

local function columns()
  local list = json.list(tarn.weather.columns())
  for _, c in ipairs(list) do c.units = json.list(c.units) end
  return list
end

local function climates()
  local list = json.list {}
  for i, c in ipairs(tarn.climates()) do list[i] = { name = c.name, place = c.place, kind = c.kind } end
  return list
end

-- The questions that a pond begins with.
local function beginning()
  local function asked(list)
    local out = json.list {}
    for i, q in ipairs(list) do
      out[i] = { key = q.key, ask = q.ask, hint = q.hint, list = q.list and json.list {} }
      for k, item in ipairs(q.list or {}) do out[i].list[k] = { word = item.word, meaning = item.meaning } end
    end
    return out
  end
  return { questions = asked(six.QUESTIONS), more = asked(six.MORE), assumed = six.ASSUMED, steps = { us = six.steps "us", metric = six.steps "metric" } }
end

function page.form()
  local units, commands = {}, {}
  for name, factor in pairs(tarn.units) do
    if type(factor) == "number" then units[name] = factor end
  end
  for _, name in ipairs(COMMANDS) do commands[name] = spec_of(name) end
  return json.line { begin = beginning(), sections = schema(), units = units, columns = columns(),
    commands = commands, weather = json.list(inputs.weather_options), climates = climates(), version = tarn.version }
end

function page.glance(path, system)
  inputs.at_fault = nil
  local ok, pond = inputs.tried(inputs.pond, path)
  if not ok then return json.line { mistake = tostring(type(pond) == "table" and pond.text or pond), field = inputs.at_fault } end
  local view, facts = view_of(system), pond:facts()
  return json.line { volume = view:show("volume", facts.full_volume), area = view:show("area", facts.full_area),
    step = system == "metric" and ("1 cm of it is %s"):format(view:show("volume", facts.full_area * tarn.units.cm))
      or ("1 in of it is %s"):format(view:show("volume", facts.full_area * tarn.units.inch)) }
end

function page.description(path, system)
  local ok, result = pcall(tarn.description, path)
  local notes, names = json.list {}, #inputs.old_names
  if ok then              -- its numbers come to be in their fields' units
    local read, pond = pcall(tarn.pond, result)
    if read then
      for _, line in ipairs(doubts.of_pond(pond, view_of(system))) do table.insert(notes, "CHECK THE DESCRIPTION: " .. line) end
    elseif type(pond) == "table" and pond.mistake == "unit" then ok, result = false, pond.text end
  end
  if not ok then return json.line { mistake = tostring(result) } end
  result = inputs.renamed(result)
  for i = names + 1, #inputs.old_names do table.insert(notes, ("%s is called %s now"):format(table.unpack(inputs.old_names[i]))) end
  return json.line { description = result, notes = notes }
end

function page.examine(...)
  local said = examined.of(...)
  for _, name in ipairs { "said", "notes", "answers" } do said[name] = said[name] and json.list(said[name]) end
  for _, name in ipairs { "fields", "columns" } do
    if said.file and said.file[name] then said.file[name] = json.list(said.file[name]) end
  end
  return json.line(said)
end

function page.kind(path, here) return json.line { kind = files.kind(path, here) } end

return page
