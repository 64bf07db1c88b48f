// SPDX-License-Identifier: MIT
// The form asks every field that describes a pond, keeps what is typed, in the
// units of the reader, and the levels under the edge.
import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { isDeepStrictEqual } from "node:util";
import { MAP, POND, SEATTLE, anew, check, done, download, folder, native, open, say, turn } from "./harness.mjs";

export async function entries() {
  const page = await open();
  await turn(page, "water", true);

  // the sample is the description that the program reads
  const sample = join(folder, "sample.json");
  native("convert", POND, "--to", sample);
  const told = await page.evaluate(() => window.tarn.pond);
  check(isDeepStrictEqual(told, JSON.parse(readFileSync(sample, "utf8"))), "the sample is not that of the program");

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
  await page.evaluate(() => { document.querySelector('[data-section="storm"]').open = true; });
  const storm = await page.inputValue("#f-storm-intensity");
  await type("f-storm-intensity", "2");
  check(near((await pond()).storm.intensity, 50.8), "inches of rain an hour");
  await type("f-storm-intensity", storm);
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
  await page.evaluate(() => window.tarn.idle());
  check(JSON.stringify(await pond()) === "{}", "start afresh: nobody's pond");
  for (const path of [json, lua]) {
    const said = native("topup", path, SEATTLE, "--map", MAP);
    check(said.status !== 2 && !said.out.includes("CHECK THE DESCRIPTION"), `${path}: a number without unit: ${said.err}`);
  }
  check(!(await page.textContent("#water-answers")).includes("CHECK THE DESCRIPTION"), "the form's own description has a number without unit");
  say(`form: ${shown.size} lines; all ${all.length} fields of plain sections among them`);
  await page.context().close();
}

const WAS = [["", "overflow_level", "lip"], ["bed", "lip_head", "head"], ["bed", "available_head", "spare_head"], ["bed", "kind", "regime"],
  ["treatment", "target", "outlet"], ["treatment", "tanks_in_series", "tanks"]];

// A pond by the names of the version before, in the browser's memory and in a file;
// a file that leaves a unit out.
export async function kept() {
  const page = await open(), pond = () => page.evaluate(() => window.tarn.pond);
  const now = await pond(), old = JSON.parse(JSON.stringify(now)), at = (d, section) => (section ? d[section] ??= {} : d);
  const value = { lip_head: 0.02, available_head: 0.1, kind: "bog", target: 0.2, tanks_in_series: 4 };
  for (const [section, name, was] of WAS) {
    at(now, section)[name] ??= value[name];
    at(old, section)[was] = at(now, section)[name];
    delete at(old, section)[name];
  }
  const renamed = async (what) => {
    const d = await pond();
    for (const [section, name, was] of WAS) {
      check(at(d, section)[name] === at(now, section)[name] && at(d, section)[was] === undefined, `${what}: ${was} is ${name}, not ${at(d, section)[name]}`);
    }
  };
  await page.evaluate((d) => localStorage.setItem("tarn.pond", JSON.stringify({ pond: d, system: "us" })), old);
  await page.reload();
  await page.waitForFunction(() => window.tarn && window.tarn.ready);
  await renamed("kept by the browser");
  await turn(page, "water", true);
  check(await page.isHidden("#water-error"), `kept by the browser: ${await page.textContent("#water-error")}`);
  const path = join(folder, "old.json"), noted = () => page.textContent("#opened");
  writeFileSync(path, JSON.stringify(old));
  await anew(page, "water", () => page.setInputFiles('[data-opens="pond"]', path));
  await renamed("a file");
  for (const [, name, was] of WAS) check((await noted()).includes(`${was} is called ${name} now`), `a file: the page says that ${was} is ${name}`);
  const bare = join(folder, "bare.lua"), want = "basin.length = 24 has no unit; it was read as 24 m, beside basin.depth, which has one.";
  writeFileSync(bare, "return { basin = { length = 24, width = 14 * ft, depth = 3 * ft }, overflow_level = 2.5 * ft }\n");
  await anew(page, "water", () => page.setInputFiles('[data-opens="pond"]', bare));
  check(native("topup", bare, SEATTLE, "--map", MAP, "--full").out.replace(/\s+/g, " ").includes(want), "the program says that a number has no unit");
  check(await page.isVisible("#opened") && (await noted()).includes(want), `the page says that a number has no unit: ${await noted()}`);
  await page.click("#tab-about");		// where nothing is asked
  await page.click("#system label:last-of-type");
  await page.evaluate(() => window.tarn.idle());
  await page.click("#tab-water");
  await page.click("#afresh");
  await page.evaluate(() => window.tarn.idle());
  check(await page.isHidden("#opened"), "start afresh: nothing is left of the file");
  await page.context().close();
}
