// SPDX-License-Identifier: MIT
// The same numbers as the native build, and a file that nobody knows.
import { execFileSync } from "node:child_process";
import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { MAP, POND, SEATTLE, check, compare, done, download, folder, job, native, open, openPond, same, sample, say, tarn } from "./harness.mjs";

export async function numbers() {
  const page = await open();
  await sample(page);
  say("sample against native: " + compare(await job(page), native("ledger", POND, SEATTLE, MAP), "sample"));

  const csv = readFileSync(await download(page, "#save-csv"), "utf8");
  const own = join(folder, "native.csv");
  execFileSync(tarn, ["topup", POND, SEATTLE, "--map", MAP, "--csv", own]);
  const a = csv.split("\n"), b = readFileSync(own, "utf8").split("\n");
  check(a[0] === b[0] && a.length === b.length, "ledger CSV: heads and rows as the runner's");
  let differ = 0;
  b.forEach((line, i) => line.split(",").forEach((cell, k) => {
    const other = a[i].split(",")[k];
    if (cell === other) return;
    differ += 1;
    // nine digits: the last one may round the other way
    check(Math.abs(cell - other) <= 1.1e-8 * Math.abs(cell) || Math.abs(cell - other) < 1e-13, `ledger CSV line ${i + 1}: ${other}, native ${cell}`);
  }));
  say(`ledger CSV: ${b.length - 1} lines, ${differ} cells differ from the runner's in their last digit`);

  // type, and compare with the runner on the saved description
  await page.fill("#f-basin-length", "20' 6\"");
  await page.fill("#f-pond-lip", "2 1/2");
  await page.fill("#f-stream-width", "50 cm");
  await page.waitForTimeout(200);
  await done(page);
  const json = await download(page, "#save-json"), lua = await download(page, "#save-lua"), got = await job(page);
  check(Math.abs(JSON.parse(readFileSync(json)).basin.length - 6.2484) < 1e-12, "20' 6\" is 6.2484 m");
  compare(got, native("ledger", json, SEATTLE, MAP), "typed, JSON");
  compare(got, native("ledger", lua, SEATTLE, MAP), "typed, Lua");
  const shown = await page.textContent("#headline strong");
  check(shown === `${Math.round(got.totals.topup / got.totals.days * 7 / 0.003785411784)} US gal a week`, `headline says ${shown}`);

  // metric shows the same water
  await page.check('#system input[value="metric"]', { force: true });
  check(/ L a week/.test(await page.textContent("#headline strong")), "metric headline");
  check(await page.inputValue("#f-basin-length") === "6.2484", "metric length");

  // open what was saved
  await page.click("#afresh");
  await openPond(page, json);
  await done(page);
  compare(await job(page), native("ledger", json, SEATTLE, MAP), "opened again");

  // pump curve, pipes and falls: what is in transit follows from them
  const full = join(folder, "full.json");
  execFileSync(tarn, ["convert", "weather-samples/courtyard-pond.lua", "--to", full]);
  await openPond(page, full);
  await done(page);
  const piped = await job(page), other = native("ledger", full, SEATTLE, MAP);
  compare(piped, other, "pump, pipes and falls");
  same(piped.facts.transit, other.facts.transit, "water in transit");
  await page.context().close();
}

export async function mapped() {
  const page = await open(), path = join(folder, "unknown.csv");
  writeFileSync(path, readFileSync(SEATTLE));
  await page.setInputFiles("#weather-file", path);
  await page.waitForSelector("#weather-error:not([hidden])");
  check(await page.isVisible("#question-form [data-answer=columns]"), "an unknown layout asks which column is which");
  const choose = async (heading, column, unit) => {
    const at = ["date", "precipitation", "temp_max", "temp_min", "wind", "weather"].indexOf(heading);
    await page.selectOption(`#q-column-${at}`, column);
    if (unit) await page.selectOption(`#q-unit-${at}`, unit);
  };
  await choose("date", "date");
  await page.selectOption("#q-format", "%Y/%m/%d");
  await choose("precipitation", "rain", "mm");
  await choose("temp_max", "tmax", "C");
  await choose("temp_min", "tmin", "C");
  await choose("wind", "wind", "m/s");
  await page.fill("#q-latitude", "47.45");
  await page.press("#q-latitude", "Tab");
  await page.fill("#q-elevation", "130");
  await page.press("#q-elevation", "Tab");
  await page.fill("#q-wind", "10");
  await page.press("#q-wind", "Tab");
  await page.waitForTimeout(200);
  await done(page);
  compare(await job(page), native("ledger", POND, SEATTLE, MAP), "mapped by hand");
  await page.context().close();
}
