// SPDX-License-Identifier: MIT
// The sheet "check your file": what a file was taken for, said otherwise, read again;
// every weather file of the project gives a picture.
import { readFileSync, readdirSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { MAP, POND, SEATTLE, anew, change, check, folder, give, native, open, say, text } from "./harness.mjs";
import { audit } from "./everyone.mjs";

export async function facts() {
  const page = await open(), place = async () => {
    await change(page, () => page.fill("#f-option-latitude", "52.1"));
    await change(page, () => page.fill("#f-option-elevation", "2"));
  };
  await give(page, "weather-samples/de_bilt_daily_1980_2019.csv");
  check(/latitude/.test(await text(page, "problem")) && await page.isVisible("#f-option-latitude-box .problem"), `the place is asked beside its entry: ${await text(page, "problem")}`);
  check(await page.isVisible('#sheet [data-part="picture"] svg'), "the weather's picture needs no place");
  await place();
  check(await page.isVisible("#sheet") && await page.isHidden('#sheet [data-part="problem"]'), `De Bilt: ${await text(page, "problem")}`);
  check((await text(page, "title")) === "de_bilt_daily_1980_2019.csv" && /14,610 days, 1980-01-01 to 2019-12-31/.test(await text(page, "said")), `De Bilt: ${await text(page, "said")}`);
  const lines = readFileSync("weather-samples/de_bilt_daily_1980_2019.csv", "utf8").split("\n").slice(0, 6).join("\n");
  check(await text(page, "lines") === lines, "the first lines, as they are");
  check(await page.inputValue("#use-2") === "tmin" && await page.inputValue("#unit-2") === "C" && await page.inputValue("#use-1") === "date", "columns are what they are taken for");
  check(await page.inputValue("#use-12") === "", "a column that is not used says so");
  check(await page.isVisible('#sheet [data-part="picture"] svg') && await page.isVisible("#water-answers figure svg"), "the weather and, below, the pond's picture at once");
  // another unit by the menu: read again
  await change(page, () => page.selectOption("#unit-9", "inch"));
  const most = (await page.evaluate(() => window.tarn.facts.file)).columns.find((c) => c.name === "rain");
  check(most === undefined || most.file_unit === "inch", `rain in inches: ${JSON.stringify(most)}`);
  check(/rain/.test(await text(page, "problem")), `rain of 25 times as much is refused or doubted: ${await text(page, "problem")}`);
  await change(page, () => page.selectOption("#unit-9", "mm"));
  check(await page.isHidden('#sheet [data-part="problem"]'), `and back: ${await text(page, "problem")}`);
  await change(page, () => page.selectOption("#use-8", ""));
  check(!(await page.evaluate(() => window.tarn.facts.file.columns)).some((c) => c.name === "wind"), "a column that is not to be used");
  check(await page.isVisible("#water-answers figure svg") && await page.isHidden("#water-error"), `without wind: ${await page.textContent("#water-error")}`);
  await audit(page, "the sheet");
  // the same file once more begins afresh
  await give(page, "weather-samples/de_bilt_daily_1980_2019.csv");
  check(await page.inputValue("#use-8") === "wind" && await page.inputValue("#f-option-latitude") === "52.1", "the same file again is read anew, at its place");
  await give(page, "weather-samples/csls_hancock_daily.csv");
  check(await page.inputValue("#f-option-latitude") === "", "another file is not at the place of the one before");
  await page.context().close();
}

// A file whose headings nobody knows, said by the menus; names are text, never markup.
export async function menus() {
  const page = await open(), own = join(folder, "own.csv"), evil = "<img src=x onerror=alert(1)>";
  writeFileSync(own, readFileSync(SEATTLE, "utf8").replace(/^.*\n/, `${evil},Wet,Hot,Cold,Blow,Sky\n`));
  await give(page, own);
  check(await page.isVisible('#sheet [data-part="problem"]') && await page.isHidden("#water-error"), "an unknown heading is refused on the sheet");
  const options = /(^|\s)--[a-z]/;
  check(!options.test(await page.textContent("#sheet")), `no option of a command on the sheet: ${(await page.textContent("#sheet")).match(options)}`);
  check(await page.evaluate(() => document.querySelectorAll("#sheet img").length) === 0, "a heading is no markup");
  for (const [i, use, unit] of [[2, "rain", "mm"], [3, "tmax", "C"], [4, "tmin", "C"], [5, "wind", "m/s"]]) {
    await change(page, () => page.selectOption("#use-" + i, use));
    await page.evaluate(([f, u, n]) => window.tarn.sheet.say(window.tarn.facts.file.fields[n - 1], f, u), [use, unit, i]);
    await page.waitForTimeout(300);
  }
  await change(page, () => page.selectOption("#use-1", "date"));
  await change(page, () => page.evaluate(() => window.tarn.sheet.say(window.tarn.facts.file.fields[0], "date", "%Y/%m/%d")));
  check(/latitude/.test(await text(page, "problem")), `said by the menus, the place is asked: ${await text(page, "problem")}`);
  check(await page.inputValue("#unit-3") === "C" && await page.inputValue("#use-3") === "tmax", "the menus have what was said");
  await page.fill("#f-option-latitude", "47.45");
  await page.fill("#f-option-elevation", "130");
  await anew(page, "water", () => page.fill("#f-option-wind-height", "10"));
  check(await page.isHidden("#water-error"), `said by the menus: ${await page.textContent("#water-error")}`);
  const want = native("topup", POND, SEATTLE, "--map", MAP).out.match(/takes ([\d,]+) US gal/)[1];
  check((await page.textContent("#water-answers .answer")).includes(want), `said by the menus: ${want} US gal as with a map`);
  await page.context().close();
}

// A click answers what a file is refused for; menus have the answer; it can be taken back.
export async function questions() {
  const page = await open(), buttons = '#sheet [data-part="answers"] button', click = (words) => change(page, () => page.click(`${buttons}:has-text("${words}")`));
  const said = () => page.evaluate(() => JSON.stringify(Object.assign({}, window.tarn.weatherState, window.tarn.sheet.map)));
  const CASES = [["tests/bad/american_date.csv", "the day first", /"dates":"european"/, "#f-option-dates", "european"], ["tests/good/stations.csv", "the last row", /"duplicates":"last"/, "#f-option-duplicates", "last"],
    ["tests/good/backwards.csv", "sort the rows", /"order":"sort"/, "#f-option-order", "sort"], ["tests/good/outliers.csv", "leave such days out", /"outliers":"missing"/, "#f-option-outliers", "missing"],
    ["tests/good/open_meteo_two_places.csv", "take 1", /"station":"1"/, "#f-option-station", "1"], [SEATTLE, "metric units", /"file-units":"metric"/, "#f-option-file-units", "metric"],
    ["tests/bad/minus_999.csv", "no value", /"missing":"-999"/], ["tests/bad/decimal_comma.csv", "decimal point", /"decimal":","/]];
  for (const [path, words, state, menu, value] of CASES) {
    await give(page, path);
    const why = await text(page, "problem");
    check(why.length > 15 && !/(^|\s)--[a-z]|say \w+ ?=/i.test(await page.textContent("#sheet")), `${path}: asked in words of the page: ${why}`);
    check(await page.isHidden("#water-error"), `${path}: the question is on the sheet alone`);
    await click(words);
    check(state.test(await said()), `${path}: ${words}: ${await said()}`);
    check(await text(page, "problem") !== why, `${path}: answered, and still ${why}`);
    if (menu) check(await page.inputValue(menu) === value, `${path}: the menu ${menu} has the answer`);
    await click("Take back");
    check(await said() === "{}" && await text(page, "problem") === why, `${path}: taken back: ${await said()}`);
  }
  // a menu acts at once, without a question before
  await give(page, "tests/good/stations.csv");
  await page.evaluate(() => { document.querySelector('#sheet [data-part="other"]').closest("details").open = true; });
  await change(page, () => page.selectOption("#f-option-duplicates", "first"));
  check(!/stands there again/.test(await text(page, "problem")), `duplicates by the menu: ${await text(page, "problem")}`);
  // what is no number is said at its entry, and asks nothing
  await give(page, "weather-samples/csls_hancock_daily.csv");
  await page.fill("#f-option-latitude", "52,1");
  check(/'52,1' is not a number/.test(await page.textContent("#f-option-latitude-box .problem")), "a latitude with a comma");
  await change(page, () => page.fill("#f-option-latitude", "44.1"));
  await page.fill("#f-option-elevation", "1083 feet");
  check(/is not a length/.test(await page.textContent("#f-option-elevation-box .problem")), "an elevation in feet, spelt out");
  await change(page, () => page.fill("#f-option-elevation", "1083 ft"));
  check(await page.isHidden('#sheet [data-part="problem"]') && await page.isVisible("#water-answers figure svg"), `the place: ${await text(page, "problem")}`);
  await page.context().close();
}

// Seven daily files, the place alone, and the picture is there; the same file repaired and
// dropped again after it was refused; on a phone the sheet is in sight.
const SEVEN = [["weather-samples/csls_hancock_daily.csv", 44.1, 330], ["weather-samples/de_bilt_daily_1980_2019.csv", 52.1, 2], ["tests/good/cimis.csv", 36.3, 85],
  ["tests/good/eccc.csv", 49.2, 4], ["tests/good/silo.csv", -27.5, 90], ["tests/good/noaa_dly.csv", 44.1, 330], ["tests/good/words_german.csv", 48.1, 520]];

export async function seven() {
  for (const [path, latitude, elevation] of SEVEN) {
    const page = await open({ viewport: { width: 390, height: 844 }, isMobile: true });
    await give(page, path);
    const top = await page.evaluate(() => document.getElementById("sheet").getBoundingClientRect().top);
    check(top >= -2 && top < 422, `${path}: on a phone the sheet begins at ${Math.round(top)} px`);
    const site = await page.evaluate(() => window.tarn.facts.file.site || {});
    if (site.latitude === undefined) await change(page, () => page.fill("#f-option-latitude", String(latitude)));
    if (site.elevation === undefined) await change(page, () => page.fill("#f-option-elevation", String(elevation)));
    check(await page.isHidden('#sheet [data-part="problem"]') && await page.isHidden("#water-error"), `${path}: ${await text(page, "problem")} ${await page.textContent("#water-error")}`);
    check(await page.isVisible('#sheet [data-part="picture"] svg') && await page.isVisible("#water-answers .answer figure :is(svg, canvas)"), `${path}: no picture`);
    await page.context().close();
  }
  const page = await open(), own = join(folder, "again.csv"), good = readFileSync("weather-samples/csls_hancock_daily.csv", "utf8");
  writeFileSync(own, good.replace(/^(.*\n.*\n)/, "$1$1"));
  await give(page, own);
  check(/./.test(await text(page, "problem")), "a header in the middle is refused");
  writeFileSync(own, good);
  await give(page, own);
  await change(page, () => page.fill("#f-option-latitude", "44.1"));
  check(await page.isVisible("#water-answers figure svg") && await page.isHidden('#sheet [data-part="problem"]'), `repaired and dropped again: ${await text(page, "problem")}`);
  say(`${SEVEN.length} daily files give a picture the first time, with the place alone`);
  await page.context().close();
}

// Each weather file that the project has, with its place alone.
export async function pictures() {
  const S = "weather-samples/", G = "tests/good/", page = await open();
  const list = readdirSync(S).filter((f) => /daily/.test(f) && /hancock_daily|de_bilt|fallon|nasa|seattle/.test(f) || /ghcn/.test(f)).map((f) => S + f)
    .concat(readdirSync(G).filter((f) => f.endsWith(".csv")).map((f) => G + f));
  const without = [], ledgers = [];
  for (const path of list) {
    await give(page, path);
    await change(page, () => page.fill("#f-option-latitude", "45"));
    await change(page, () => page.fill("#f-option-elevation", "100"));
    if (await page.isVisible('#sheet [data-part="picture"] svg')) {
      if (await page.isVisible("#water-answers figure") && await page.evaluate(() => !document.getElementById("water-answers").classList.contains("stale"))) ledgers.push(path);
    } else without.push([path, await text(page, "problem")]);
    const run = (command, ...files) => native(command, ...files, path, "--latitude", "45", "--elevation", "100").status !== 2;
    check(!run("weather") || await page.isVisible('#sheet [data-part="picture"] svg'), `${path} is read, and has no picture`);
    check(!run("topup", POND) || ledgers.includes(path), `${path} runs, and the page has no picture of the pond`);
    check(await page.isVisible('#sheet [data-part="lines"]') && (await text(page, "lines")).length > 0, `${path}: first lines`);
  }
  say(`${list.length} weather files dropped: ${list.length - without.length} give a picture of the weather the first time, ${ledgers.length} the pond's too`);
  for (const [path, why] of without) {
    say(`  no picture: ${path}: ${why.slice(0, 140)}`);
    check(why.length > 20, `${path}: no picture and no word why`);
  }
  await page.context().close();
}
