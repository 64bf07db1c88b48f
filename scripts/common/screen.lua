-- SPDX-License-Identifier: MIT
-- What all reports share of the page that they are without --full: one screen, or one printed page.
local screen = {}

-- The option, and what it adds; printed: of a terminal alone, for a page in the browser has room for all.
function screen.option(adds)
  return { name = "full", printed = true, meaning = "print " .. adds .. " too" }
end

-- The pond in one line.
function screen.pond(pond, view)
  local f, shape = pond:facts(), pond:description().basin
  local size = type(shape) == "table" and shape.length and shape.width and shape.depth and ("%s x %s, %s deep; "):format(
    view:show("length", shape.length), view:show("length", shape.width), view:show("length", shape.depth)) or ""
  return ("%s%s when full, %s of surface."):format(size, view:show("volume", f.full_volume), view:show("area", f.full_area))
end

-- The last lines: cautions are never left out.  lines: before them, or nil
function screen.close(page, caution, more, lines)
  lines = lines or {}
  lines[#lines + 1] = caution
  lines[#lines + 1] = "More: " .. more
  page:heading("Before you rely on it")
  page:list(lines)
end

return screen
