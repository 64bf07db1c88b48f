// SPDX-License-Identifier: MIT
// The form asks every field that describes a pond, keeps what is typed, in the
// units of the reader, and the levels under the edge.
import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { POND, anew, check, done, download, folder, native, open, say, turn } from "./harness.mjs";

export async function entries() {
  const page = await open();
  await turn(page, "water", true);

  // every number, choice, switch and text of the schema has its line, where its section is one table
  const shown = new Set(await page.evaluate(() => Array.from(document.querySelectorAll("#pond-form [data-path]"), (e) => e.dataset.path)));
  const probe = join(folder, "fields.lua");
  writeFileSync(probe, 'for _, s in ipairs(tarn.pond_fields()) do for _, r in ipairs(s) do print(s.section == "" and r.name or s.section .. "." .. r.name) end end');
  const all = native(probe).out.trim().split("\n").filter((path) => !/^(layer|span|corner|pipes|falls|catchments|withdrawals|basin\.)/.test(path));
  const missing = all.filter((path) => !shown.has(path));
  check(missing.length === 0 && all.length > 100, `fields without a line in the form: ${missing.join(" ")}`);
  check(shown.has("bed.layers[2].porosity") && shown.has("pipes[1].length") && shown.has("basin.shelves[1].width"), "entries of lists have lines");

  // what is typed is what is meant
  const type = (id, text) => anew(page, "water", () => page.fill("#" + id, text));
  const pond = () => page.evaluate(() => window.tarn.pond);
  const near = (a, b) => Math.abs(a - b) < 1e-9;
  await type("f-basin-length", "12' 6\"");
  check(near((await pond()).basin.length, 12.5 * 0.3048), "feet and inches");
  await type("f-basin-length", "3 1/2 yd");
  check(near((await pond()).basin.length, 3.5 * 0.9144), "a fraction, another unit");
  await page.evaluate(() => { document.querySelector('[data-section="water"]').open = true; });
  await type("f-water-temp", "68");
  check(near((await pond()).water.temp, 20), "degrees Fahrenheit");
  await type("f-basin-length", "450 cm");
  check(near((await pond()).basin.length, 4.5), "centimetres where feet are asked");
  const before = await pond();
  await type("f-overflow_level", "4");
  check(near((await pond()).overflow_level, before.basin.depth - 4 * 0.0254), "levels count down from the edge");
  await type("f-basin-depth", "4");
  check(near((await pond()).overflow_level, 4 * 0.3048 - 4 * 0.0254), "the levels go along with the depth");
  await page.selectOption("#f-basin-shape", "ellipse");
  await type("f-basin-area_factor", "");
  check((await pond()).basin.shape === "ellipse", "a choice");
  await anew(page, "water", () => page.click("#system label:last-of-type"));
  check(near(Number(await page.inputValue("#f-basin-length")), 4.5), "the same length in metres");
  check(/\bL\b/.test(await page.textContent("#water-answers .answer")), `answers in litres: ${await page.textContent("#water-error")}`);

  // what is saved opens again, as JSON and as Lua
  const json = await download(page, "#save-json"), lua = await download(page, "#save-lua");
  const kept = JSON.stringify(await pond());
  for (const path of [json, lua]) {
    await anew(page, "water", () => page.setInputFiles('[data-opens="pond"]', path));
    const now = await pond();
    check(near(now.overflow_level, JSON.parse(kept).overflow_level) && now.bed.layers.length === 2, `${path} opens again`);
  }
  await page.reload();
  await page.waitForFunction(() => window.tarn && window.tarn.ready);
  check(near((await pond()).basin.length, 4.5), "the browser remembers the pond");
  await page.click("#afresh");
  check(!near((await pond()).basin.length, 4.5), "start afresh");
  say(`form: ${shown.size} lines; all ${all.length} fields of plain sections among them`);
  await page.context().close();
}
