// SPDX-License-Identifier: MIT
// A falling level: a log of the ruler, and the bucket test.
import { execFileSync } from "node:child_process";
import { readFileSync, readdirSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { LOG, MAP, POND, SEATTLE, check, folder, message, native, open, same, sample, say, tarn } from "./harness.mjs";

const state = (page) => page.evaluate(() => { const { result, error, name } = window.tarn.fit(); return { result, error, name }; });

async function openLog(page, path) {
  await page.setInputFiles("#log-file", path);
  await page.waitForFunction((n) => window.tarn.fit().name === n, path.split("/").pop());
  return state(page);
}

const ESTIMATES = ["expected_mm", "evaporation_factor", "rain_factor", "unexplained_m3_d", "unexplained_mm_d", "sound_factor", "per_head_m3_d_m"];
const INTERVAL = ["days", "logged_mm", "expected_mm", "expected_sd_mm", "rain_mm", "open_water_mm"];

function compareFit(got, want, what) {
  const r = got.r, w = want.result;
  for (const name of ESTIMATES) if (w[name]) for (const end of ["mean", "low", "high"]) same(r[name][end], w[name][end], `${what}: ${name}.${end}`);
  for (const name of ["readings", "used", "wild", "days", "area", "logged_mm", "chance_of_loss", "noise", "resolvable_mm_d"]) same(r[name], w[name], `${what}: ${name}`);
  check(Boolean(r.change_found) === w.change.found, `${what}: change`);
  if (w.change.found) for (const part of ["before_mm_d", "after_mm_d"]) same(r["change_" + part].mean, w.change[part].mean, `${what}: ${part}`);
  check(got.intervals.length === want.intervals.length, `${what}: intervals`);
  want.intervals.forEach((v, i) => { for (const name of INTERVAL) if (v[name] !== undefined) same(got.intervals[i][name], v[name], `${what}: interval ${i} ${name}`); });
  want.path.forEach((p, i) => { for (const name of ["day", "logged", "expected", "low", "high"]) if (p[name] !== undefined) same(got.points[i][name], p[name], `${what}: point ${i} ${name}`); });
  if (got.info.meters > 1) {
    check(got.weeks.length === want.weeks.length, `${what}: ${got.weeks.length} weeks of the meter`);
    want.weeks.forEach((v, i) => { for (const name of ["days", "metered", "implied", "expected", "expected_high"]) same(got.weeks[i][name], v[name], `${what}: week ${i} ${name}`); });
  }
  if (want.holdout && got.holdout) for (const name of ["fitted", "predicted", "days", "rms_mm", "plain_rms_mm"]) same(got.holdout[name], want.holdout[name], `${what}: holdout ${name}`);
  if (want.calibration) same(got.calibrated.open_water_factor, want.calibration.open_water_factor, `${what}: calibration`);
  return want.path.length * 5 + want.intervals.length * INTERVAL.length + ESTIMATES.length * 3;
}

// The page's text without what makes it a page, the runner's without its lines.
const flat = (text) => text.replace(/\s+/g, " ").replace(/²/g, "2");

export async function log() {
  const page = await open();
  await page.click("#tab-leak");
  const alone = await openLog(page, LOG);
  check(/needs the weather of its days/.test(alone.error), "a log asks for weather");
  await page.click("#tab-water");
  await sample(page);
  await page.click("#tab-leak");
  const { result, error } = await state(page);
  check(error === "", "a log with weather: " + error);
  const figures = compareFit(result, native("leak", POND, SEATTLE, MAP, LOG), "log");
  say(`log of levels against native: ${figures} figures`);

  // the sentences of `tarn leak`
  const told = flat(await page.textContent("#log-results")), runner = flat(execFileSync(tarn, ["leak", POND, SEATTLE, LOG, "--map", MAP]).toString());
  for (const sentence of [/Expected drop at your ruler: [^.]*\.\d\d in \([^)]*\)\. You logged [\d.]+ in\./, /Outside what weather explains\. .*? alike in a log\./,
    /Something changed between .*? now\./, /Open water .*? rain [\d.]+ in\./, /Shut the fill valve, .* test is void\./, /The 12 that differ most, of \d+/, /5 set aside: [^.]*\./]) {
    const want = sentence.exec(runner);
    check(want && told.includes(want[0]), `log, sentence of the runner: ${want ? want[0] : sentence}`);
  }
  check(await page.textContent("#log-verdict") === "The log: outside what weather explains", "verdict of the log");
  const drawn = await page.evaluate(() => ({ readings: document.querySelectorAll("#log-results svg circle").length, bands: document.querySelectorAll("#log-results svg path").length }));
  check(drawn.readings === result.points.length && drawn.bands > 5, `picture of the log: ${JSON.stringify(drawn)}`);

  // a float valve's meter, read once a week
  const metered = join(folder, "metered.csv");
  writeFileSync(metered, "date,meter_gal\n" + Array.from({ length: 16 }, (_, i) => `${new Date(Date.UTC(2014, 4, 1 + 7 * i)).toISOString().slice(0, 10)},${1000 + 65 * i}`).join("\n") + "\n");
  const counted = await openLog(page, metered);
  check(counted.error === "", "metered log: " + counted.error);
  compareFit(counted.result, native("leak", POND, SEATTLE, MAP, metered), "metered log");
  check(/weeks stand above what weather explains/.test(await page.textContent("#log-results")), "weeks of the meter");

  // the ruler's zero elsewhere, another unit
  await openLog(page, LOG);
  await page.evaluate(() => { document.getElementById("log-options").open = true; });
  await page.fill("#g-zero", "40 in");
  await page.waitForFunction(() => window.tarn.fit().error !== "" || window.tarn.fit().result.options.zero);
  await page.fill("#g-zero", "");
  await page.selectOption("#g-unit", { label: "mm" });
  const wrong = await state(page), want = message(["leak", POND, SEATTLE, LOG, "--map", MAP, "--log-unit", "mm"]);
  check(wrong.error !== "" && want.endsWith(wrong.error), `log, another unit: page "${wrong.error}", runner "${want}"`);
  await page.selectOption("#g-unit", { index: 0 });
  check((await state(page)).error === "", "log, unit as its heading says");

  // broken logs, in the runner's words
  let refused = 0;
  for (const name of readdirSync("tests/bad/logs")) {
    const path = "tests/bad/logs/" + name, says = message(["leak", POND, SEATTLE, path, "--map", MAP]);
    const got = await openLog(page, path);
    refused += 1;
    check(says === null ? got.error === "" : got.error !== "" && says.replace("logs/", "").startsWith(got.error), `${name}: page "${got.error}", runner "${says}"`);
  }
  say(`logs refused in the runner's words: ${refused}`);

  // dropped while this chapter is open, a file is a log
  await page.evaluate(([name, text]) => {
    const data = new DataTransfer();
    data.items.add(new File([text], name, { type: "text/csv" }));
    dispatchEvent(new DragEvent("drop", { dataTransfer: data, bubbles: true, cancelable: true }));
  }, ["dropped-log.csv", readFileSync(LOG, "utf8")]);
  await page.waitForFunction(() => window.tarn.fit().name === "dropped-log.csv" && window.tarn.fit().error === "");
  await page.context().close();
}

export async function bucket() {
  const page = await open();
  await page.click("#tab-leak");
  await page.selectOption("#l-month", "7");
  for (const [id, v] of [["off-hours", "48"], ["off-drop", "1/2"], ["off-bucket", "3/8"], ["on-hours", "48"], ["on-drop", "1 1/4"], ["on-bucket", "3/8"]]) await page.fill("#l-" + id, v);
  const want = native("pair", POND), text = await page.textContent("#leak-results");
  const got = await page.evaluate(() => window.tarn.pair());
  for (const half of ["off", "on"]) {
    for (const name of ["mean", "low", "high"]) same(got[half][name], want[half].unexplained_mm_d[name], `bucket ${half} ${name}`);
    check(text.includes(want[half].verdict), `bucket ${half}: ${want[half].verdict}`);
  }
  check(text.includes("cannot tell apart"), "bucket: on minus off");
  await page.fill("#l-off-rain", "0.2");
  check(/the test is void/.test(await page.textContent("#leak-error")), "rain voids the test");
  await page.context().close();
}
