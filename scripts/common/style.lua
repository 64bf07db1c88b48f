-- SPDX-License-Identifier: MIT
-- How an HTML report looks: on a screen, light and dark, on a phone, on paper.
local svg = require "common.svg"

-- The drawings' colours in the dark.
local DARK = {
  ink = "#e4e8e2", faint = "#a9b4ad", grid = "#3a4641", paper = "#1f2825", water = "#7fbcd6", water_soft = "#33535f",
  rain = "#5e8ea5", sun = "#d9a441", earth = "#b08d4c", stone = "#75817a", plant = "#8cbf7d", warn = "#f0906a",
  warn_soft = "#5a3327",
}

local function variables(colors)
  local out = {}
  for name, value in pairs(colors) do out[#out + 1] = ("--%s: %s"):format(name:gsub("_", "-"), value) end
  table.sort(out)
  return table.concat(out, "; ")
end

local RULES = [[
* { box-sizing: border-box }
html { font-size: 100%; -webkit-text-size-adjust: 100%; scroll-padding-top: 1rem }
body { margin: 0 auto; max-width: 58rem; padding: 1.75rem 1.25rem 3rem; background: var(--ground); color: var(--ink);
  font: 1rem/1.55 Charter, "Bitstream Charter", "Source Serif 4", Georgia, "Times New Roman", serif }
header { border-bottom: 3px solid var(--water); margin-bottom: 1.25rem }
h1 { font-size: 1.75rem; line-height: 1.2; margin: 0 0 .6rem; font-weight: 600; text-wrap: balance }
h2 { font-size: 1.2rem; line-height: 1.3; margin: 2.4rem 0 .5rem; font-weight: 600 }
h2::before { content: ""; display: block; width: 2.2rem; border-top: 2px solid var(--water); margin-bottom: .45rem }
h3 { font-size: 1rem; margin: 1.2rem 0 .3rem }
p, li { max-width: 44rem } p { margin: .55rem 0 } ul { padding-left: 1.2rem } li { margin: .2rem 0 }
.answer { border-left: 3px solid var(--water); padding: .1rem 0 .1rem 1rem }
.answer > p:first-child { font-size: 1.18rem; line-height: 1.45; margin-top: 0 }
a { color: var(--water) } :focus-visible { outline: 2px solid var(--water); outline-offset: 2px }
nav { margin: 1.3rem 0 0; font-size: .9rem } nav ul { display: flex; flex-wrap: wrap; gap: .1rem 1.1rem; list-style: none;
  margin: 0; padding: 0 } nav li { margin: 0; max-width: none } nav a { display: inline-block; padding: .15rem 0 }
.scroll { overflow-x: auto; margin: .7rem 0 }
table { border-collapse: collapse; font: .875rem/1.45 system-ui, "Segoe UI", Roboto, "Helvetica Neue", Arial, sans-serif;
  font-variant-numeric: tabular-nums }
th, td { padding: .22rem .6rem; text-align: right; white-space: nowrap; vertical-align: bottom }
th { font-weight: 400 } th:first-child, td:first-child { text-align: left }
.words th, .words td { text-align: left; white-space: normal; vertical-align: top }
thead th { border-bottom: 1.5px solid var(--ink); font-weight: 600 }
tbody tr { border-bottom: 1px solid var(--grid) } tr.sum { border-top: 1.5px solid var(--ink); font-weight: 600 }
tr.sum th { font-weight: 600 } tr.rule { border-top: 1.5px solid var(--faint) }
b.alarm { color: var(--warn) } .found { list-style: none; padding-left: 0 }
td.alarm { color: var(--warn); font-weight: 700 }
.bars tbody tr { border: 0 } .bars td, .bars th { padding-top: .08rem; padding-bottom: .08rem }
.bars { width: 100% } .bars td:last-child { width: 100%; min-width: 8rem; text-align: left }
.bars i { display: block; height: .7em; background: var(--water) }
figure { margin: 1.3rem 0 } figure .scroll { margin: 0 } figure svg { display: block; width: 100%; min-width: 38rem; height: auto }
figure .natural { background: #fff; color: #23302b; border-radius: 3px }
figcaption { font-size: .9rem; color: var(--faint); margin-top: .35rem; max-width: 44rem }
code { font: .85em/1 ui-monospace, "DejaVu Sans Mono", Consolas, monospace } p code, li code, .date { white-space: nowrap }
pre { font: .8rem/1.45 ui-monospace, "DejaVu Sans Mono", Consolas, monospace; background: var(--paper); border: 1px solid var(--grid);
  padding: .6rem .8rem; margin: .3rem 0; overflow: auto; max-height: 24rem }
footer { margin-top: 3rem; padding-top: .6rem; font-size: .85rem; color: var(--faint); border-top: 1px solid var(--grid) }
@media (max-width: 40rem) { body { padding: 1.1rem .9rem 2rem } h1 { font-size: 1.45rem } th, td { padding: .22rem .45rem } }
@media screen and (max-width: 40rem) {
  figure .scroll:not(.still) + figcaption::before { content: "Wider than the screen: swipe the drawing sideways. "; color: var(--ink) } }
@page { margin: 13mm 14mm }
@media print {
  :root { LIGHT; --ground: #fff; --paper: #fff } body { max-width: none; padding: 0; font-size: 9.5pt; line-height: 1.4; color-scheme: light }
  * { -webkit-print-color-adjust: exact; print-color-adjust: exact }
  nav { display: none } h1 { font-size: 17pt } h3 { break-after: avoid } h2 { break-after: avoid; break-inside: avoid; margin: 1rem 0 .3rem } table { font-size: 8pt }
  figure { margin: .7rem 0 } li { margin: .1rem 0 } .scroll { margin: .4rem 0 }
  tr, figure, li, p { break-inside: avoid } thead { display: table-header-group } p, li { orphans: 3; widows: 3 }
  .scroll { overflow: visible } figure svg { min-width: 0; max-height: 88mm } .plot svg { max-height: none }
  pre { max-height: none; overflow: visible; white-space: pre-wrap; font-size: 6.5pt; line-height: 1.3; border: 0; padding: 0 }
  th, td { padding: .1rem .45rem } a { color: inherit; text-decoration: none }
}
]]

local light = variables(svg.colors)

return (":root { %s; --ground: #fbfaf6; color-scheme: light dark }\n@media (prefers-color-scheme: dark) { :root { %s; --ground: #181f1d } }\n")
  :format(light, variables(DARK)) .. RULES:gsub("LIGHT", light)
