// SPDX-License-Identifier: MIT
// What is refused, in the runner's words.
import { execFileSync } from "node:child_process";
import { readdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { LOG, MAP, POND, SEATTLE, check, done, download, folder, message, open, openPond, sample, say, tarn } from "./harness.mjs";

export async function refused() {
  const page = await open();
  let files = 0;
  for (const name of readdirSync("tests/bad").filter((f) => f.endsWith(".csv"))) {
    const want = message(["weather", "tests/bad/" + name]);
    await page.setInputFiles("#weather-file", []);
    await page.setInputFiles("#weather-file", "tests/bad/" + name);
    await page.waitForFunction((n) => window.tarn.weather().name === n, name);
    const got = await page.evaluate(() => window.tarn.readError());
    files += 1;
    check(want === null ? got === "" : got !== "" && want.startsWith(got), `${name}: page "${got}", runner "${want}"`);
  }
  // ponds
  const good = JSON.parse(execFileSync(tarn, ["tests/web/dump.lua", "ledger", POND, SEATTLE, MAP], { maxBuffer: 1 << 28 }) && readFileSync(await download(page, "#save-json"), "utf8"));
  const bad = {
    depht: (d) => { d.basin.depht = 1; }, range: (d) => { d.stream.width = 5000; }, missing: (d) => { delete d.lip; },
    order: (d) => { d.target = d.lip + 0.1; }, text: (d) => { d.bed.head = "much"; }, shape: (d) => { d.basin.shape = "round"; },
    months: (d) => { d.bed.plant_factor = [1, 2]; }, weekday: (d) => { d.supply = { weekdays: ["moonday"] }; },
    span: (d) => { d.supply = { closed: [{ from: "07-01", to: "2015-08-01" }] }; }, section: (d) => { d.streem = { length: 1 }; },
    basin: (d) => { d.basin = { table: [[0, 1], [1]] }; }, floor: (d) => { d.basin.shelves[0].width = 3; },
    layers: (d) => { d.bed.layers[1].porosity = 1.5; }, both: (d) => { d.bed.area = 2; }, currency: (d) => { delete d.costs.currency; },
  };
  for (const name of Object.keys(bad)) {
    const d = JSON.parse(JSON.stringify(good)), path = join(folder, `bad-${name}.json`);
    bad[name](d);
    writeFileSync(path, JSON.stringify(d, null, 1));
    const want = message(["topup", path, SEATTLE, "--map", MAP]);
    await page.evaluate(() => { document.getElementById("pond-error").textContent = ""; });
    await page.setInputFiles("#json-file", path);
    await page.waitForFunction(() => document.getElementById("pond-error").textContent !== "", null, { timeout: 3000 }).catch(() => {});
    const got = await page.textContent("#pond-error");
    check(got !== "" && want && want.replace(/^[^:]*:(\d+:)? /, "") === got, `bad pond ${name}: page "${got}", runner "${want}"`);
  }
  say(`refused in the runner's words: ${files} weather files, ${Object.keys(bad).length} ponds tried`);
  await page.context().close();
}

// No file is written of what is refused, and it is said why: in the labels and
// units of the entries.
export async function saving() {
  const page = await open();
  const type = async (id, text) => { await page.fill("#" + id, text); await page.press("#" + id, "Tab"); };
  const nothing = async (what, button, words) => {
    const come = page.waitForEvent("download", { timeout: 700 }).then(() => true, () => false);
    await page.click(button);
    check(!await come, `${what}: ${button} saves`);
    const why = await page.textContent("#refused");
    check(await page.isVisible("#refused") && words.test(why), `${what}: ${button} says "${why}"`);
  };
  const shown = async (what, id, words) => {
    await page.waitForTimeout(250);
    const text = await page.textContent(id);
    check(words.test(text), `${what}: "${text}"`);
  };
  await sample(page);
  const trigger = await page.inputValue("#f-pond-trigger"), length = await page.inputValue("#f-basin-length");
  // saved at once after the entry, before the answers follow
  await type("f-pond-trigger", "0.5");
  await nothing("a trigger over the target", "#save-report", /Not saved.*target: must not lie under the trigger at 0\.5 in, got [\d.]+ in below the overflow$/);
  check(await page.isVisible("#stale"), "old answers say so");
  await nothing("a trigger over the target", "#save-json", /target: must not lie under/);
  await nothing("a trigger over the target", "#save-lua", /target: must not lie under/);
  await nothing("a trigger over the target", "#save-csv", /target: must not lie under/);
  await type("f-pond-trigger", trigger);
  await type("f-pond-lip", "500");
  await shown("a lip under the floor", "#pond-error", /^Levels, overflow: must be at most [\d.]+ in below the top edge, got 500 in$/);
  await type("f-pond-lip", "2");
  await type("f-bed-cover", "300");
  await shown("a cover too deep", "#f-bed-cover-box .problem", /^must be 0 to 39\.37 in, got 300 in$/);
  await type("f-bed-cover", "2");
  await type("f-shelf-0-depth", "80");
  await shown("a shelf too deep", "#pond-error", /^shelf, depth must be 0\.003281 ft to 49\.21 ft, got 80 ft$/);
  await type("f-shelf-0-depth", "1");
  // text that is no measure stays refused while other fields are entered
  await type("f-basin-length", "abc");
  await type("f-pond-trigger", trigger);
  await page.waitForTimeout(250);
  await nothing("a length of abc", "#save-report", /length: 'abc' is not a number/);
  await nothing("a length of abc", "#save-json", /length: 'abc' is not a number/);
  await type("f-basin-length", length);
  // typed a moment ago: the report is of it
  await type("pond-name", "Renamed a moment ago");
  const text = readFileSync(await download(page, "#save-report"), "utf8");
  check(text.includes("Renamed a moment ago</strong>") || /Renamed a moment ago takes about/.test(text), "the report's answer is of the entries of its moment");
  check(!text.includes("Counting the days"), "a report waits for its figures");
  // weather
  await page.setInputFiles("#weather-file", "tests/bad/bare_name.csv");
  await shown("a file without unit", "#weather-error", /tmin carries no unit: .*or choose its unit: C, F, K \(Below: How the file is read, Say which column is which\.\)$/);
  await type("f-pond-trigger", trigger);
  await page.waitForTimeout(250);
  check(await page.isVisible("#stale"), "answers stay old while the weather is refused");
  await nothing("refused weather", "#save-report", /bare_name\.csv/);
  await page.setInputFiles("#weather-file", "tests/bad/unknown_header.csv");
  await shown("an unknown header", "#weather-error", /say which column is which/);
  check(!/[{}=]/.test(await page.textContent("#weather-error")), "no syntax of the program in it");
  await page.setInputFiles("#weather-file", []);
  await sample(page);
  await done(page);
  // what this page cannot open
  await page.setInputFiles("#json-file", POND);
  await shown("a pond in Lua", "#pond-error", /tarn convert courtyard-pond\.lua --to courtyard-pond\.json/);
  await page.setInputFiles("#json-file", LOG);
  await shown("a log for a pond", "#pond-error", /this is not a pond/);
  await openPond(page, await download(page, "#save-json"));
  await page.context().close();
}
