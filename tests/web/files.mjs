// SPDX-License-Identifier: MIT
// Files that a hand gives: known by what stands in them, wherever they fall.
import { readFileSync, writeFileSync } from "node:fs";
import { basename, join } from "node:path";
import { LOG, MAP, MEASURED, POND, SEATTLE, STUDY, anew, check, done, folder, open, say, turn } from "./harness.mjs";

// Drops files on the first element that fits, as a hand would.
export const drop = (page, at, paths) => page.evaluate(([where, list]) => {
  const data = new DataTransfer();
  for (const [name, text] of list) data.items.add(new File([text], name));
  for (const type of ["dragover", "drop"]) {
    document.querySelector(where).dispatchEvent(new DragEvent(type, { dataTransfer: data, bubbles: true, cancelable: true }));
  }
}, [at, paths.map((path) => [basename(path), readFileSync(path, "utf8")])]);

const KINDS = [["pond", POND, "water"], ["weather", "weather-samples/csls_hancock_daily.csv", "water"], ["log", LOG, "leak"], ["measured", MEASURED, "commission"], ["study", STUDY, "whatif"]];
const has = (page, kind) => page.evaluate((k) => (k === "pond" ? window.tarn.pond.name : (window.tarn.files[k] || {}).path) || "", kind);

export async function dropped() {
  const measured = join(folder, "measured.csv");
  writeFileSync(measured, "name,value,unit\ndate,2016-02-29,\nwatts,164,W\n");
  let falls = 0;
  for (const [kind, path, chapter] of KINDS.concat([["measured", measured, "commission"]])) {
    for (const at of ["#chapter-water .drop", "#chapter-leak .drop", "header.cover", "#water-right"]) {
      const page = await open();
      if (at.includes("leak")) await page.click("#tab-leak");
      if (kind === "pond") await page.evaluate(() => { window.tarn.pond.name = ""; });
      await drop(page, at, [path]);
      await page.waitForFunction(([k, name]) => (k === "pond" ? window.tarn.pond.name : (window.tarn.files[k] || {}).path === name), [kind, basename(path)], { timeout: 20000 });
      if (kind !== "pond" && kind !== "weather") check(await page.isVisible("#chapter-" + chapter), `${basename(path)} dropped on ${at} opens ${chapter}`);
      check(await page.isHidden("#refused"), `${basename(path)} dropped on ${at}: ${await page.textContent("#refused")}`);
      falls += 1;
      await page.context().close();
    }
  }
  say(`${falls} files dropped in a place of their own or of others are known by what stands in them`);
}

// Several at a time, in any order; the same one twice; what is refused.
export async function several() {
  const page = await open();
  await page.evaluate(() => { delete document.body.dataset.done; });
  await drop(page, "#chapter-water .drop", [LOG, SEATTLE, POND, MAP]);
  await done(page, "leak");
  check(await has(page, "weather") === basename(SEATTLE) && await has(page, "log") === basename(LOG), "weather, its map, log and pond at a time");
  check(await page.isHidden("#leak-error"), `four files at a time: ${await page.textContent("#leak-error")}`);
  await turn(page, "water");
  for (let i = 0; i < 2; i++) {
    await anew(page, "water", () => page.setInputFiles('[data-opens="weather"]', "weather-samples/csls_hancock_daily.csv"));
    check(await has(page, "weather") === "csls_hancock_daily.csv", "the same file once more");
  }
  await page.setInputFiles('[data-opens="pond"]', "tests/bad/ponds/negative-depth.lua");
  await page.waitForFunction(() => /depth/.test(document.getElementById("water-error").textContent), null, { timeout: 20000 });
  const broken = join(folder, "broken.json");
  writeFileSync(broken, "{ \"basin\": { ");
  await page.setInputFiles('[data-opens="pond"]', broken);
  await page.waitForFunction(() => /broken\.json/.test(document.getElementById("opened").textContent), null, { timeout: 20000 });
  check(await page.isVisible("#opened"), "a description that is refused says so beside the pond");
  await page.context().close();
}
