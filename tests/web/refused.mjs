// SPDX-License-Identifier: MIT
// What is refused, in the program's words; and nothing of it is saved.
import { readdirSync, readFileSync, writeFileSync } from "node:fs";
import { basename, join } from "node:path";
import { pathToFileURL } from "node:url";
import { MAP, POND, SEATTLE, anew, browser, check, done, download, file, folder, native, open, say, turn } from "./harness.mjs";

const plain = (text) => text.replace(/[\w./-]*\/(?=[\w-]+\.)/g, "").replace(/^[\w-]+\.json:(\d+:)?/, "POND:");

export async function refused() {
  const page = await open(), bad = readdirSync("tests/bad").filter((f) => f.endsWith(".csv"));
  for (const name of bad) {
    const want = native("topup", POND, "tests/bad/" + name);
    await anew(page, "water", () => page.setInputFiles('[data-opens="weather"]', "tests/bad/" + name));
    const got = await page.textContent("#water-error");
    check(plain(got) === plain(want.err), `${name}: page "${got}", program "${want.err}"`);
  }
  await turn(page, "water", true);
  const good = JSON.parse(readFileSync(await download(page, "#save-json"), "utf8"));
  const broken = {
    depht: (d) => { d.basin.depht = 1; }, range: (d) => { d.stream.width = 5000; }, missing: (d) => { delete d.overflow_level; },
    order: (d) => { d.target = d.overflow_level + 0.1; }, text: (d) => { d.bed.lip_head = "much"; }, shape: (d) => { d.basin.shape = "round"; },
    months: (d) => { d.bed.plant_factor = [1, 2]; }, weekday: (d) => { d.supply = { weekdays: ["moonday"] }; },
    span: (d) => { d.supply = { closed: [{ from: "07-01", to: "2015-08-01" }] }; }, section: (d) => { d.streem = { length: 1 }; },
    basin: (d) => { d.basin = { table: [[0, 1], [1]] }; }, floor: (d) => { d.basin.shelves[0].width = 3; },
    layers: (d) => { d.bed.layers[1].porosity = 1.5; }, both: (d) => { d.bed.area = 2; }, currency: (d) => { delete d.costs.currency; },
  };
  for (const [name, change] of Object.entries(broken)) {
    const d = JSON.parse(JSON.stringify(good)), path = join(folder, `bad-${name}.json`);
    change(d);
    writeFileSync(path, JSON.stringify(d));
    const want = native("topup", path, SEATTLE, "--map", MAP).err;
    await anew(page, "water", () => page.setInputFiles('[data-opens="pond"]', path));
    const got = await page.textContent("#water-error");
    check(got !== "" && plain(got) === plain(want), `pond ${name}: page "${got}", program "${want}"`);
    if (name === "range") check(await page.isVisible("#f-stream-width-box .problem"), "a refusal is shown at its field");
  }
  say(`refused in the program's words: ${bad.length} weather files, ${Object.keys(broken).length} ponds`);
  await page.context().close();
}

// A file of the page that was cut short says so.
export async function cut() {
  const page = await browser.newPage(), whole = readFileSync(file, "utf8"), short = join(folder, "cut.html");
  writeFileSync(short, whole.replace(/(id="script">[^<]{3000})[^<]*/, "$1"));
  await page.goto(pathToFileURL(short).href);
  await page.waitForFunction(() => !document.getElementById("refused").hidden, null, { timeout: 20000 });
  check(/cannot begin here .*the whole file/.test(await page.textContent("#refused")), `a page that was cut: ${await page.textContent("#refused")}`);
  await page.close();
}

// No file is written of what is refused, and it is said why; old answers say so.
export async function saving() {
  const page = await open();
  const nothing = async (what, button, words) => {
    const come = page.waitForEvent("download", { timeout: 900 }).then(() => true, () => false);
    await page.click(button);
    check(!await come, `${what}: ${button} saves`);
    const why = await page.textContent("#refused");
    check(await page.isVisible("#refused") && words.test(why), `${what}: ${button} says "${why}"`);
  };
  await nothing("no weather yet", "#save-report", /Not saved\. Open a daily weather file/);
  await turn(page, "water", true);
  const trigger = await page.inputValue("#f-trigger"), length = await page.inputValue("#f-basin-length");
  await anew(page, "water", () => page.fill("#f-trigger", "0.5"));
  check(await page.isVisible("#water-stale") && await page.evaluate(() => document.getElementById("water-answers").classList.contains("stale")), "old answers are grey and say so");
  for (const button of ["#save-report", "#save-lua", "#water-save-csv"]) await nothing("a trigger over the target", button, /Not saved\. .*target/);
  await anew(page, "water", () => page.fill("#f-trigger", trigger));
  check(await page.isHidden("#water-stale") && await page.isHidden("#water-error"), "answers are new again");
  // what is no measure stays refused while other fields are entered
  await page.fill("#f-basin-length", "abc");
  await page.fill("#f-trigger", trigger);
  await page.waitForTimeout(400);
  check(await page.isVisible("#water-stale"), "a length of abc: old answers say so");
  await nothing("a length of abc", "#save-report", /length: 'abc' is not a number/);
  await page.fill("#f-basin-length", length);
  // typed a moment ago: the report is of it
  await page.fill("#f-name", "Renamed a moment ago");
  check(readFileSync(await download(page, "#save-report"), "utf8").includes("<h1>Renamed a moment ago</h1>"), "the report is of the entries of its moment");
  await anew(page, "water", () => page.setInputFiles('[data-opens="weather"]', "tests/bad/unknown_header.csv"));
  check(await page.isVisible("#water-stale"), "answers stay old while the weather is refused");
  await nothing("refused weather", "#save-report", /unknown_header\.csv/);
  // a name is text, whatever it holds
  await turn(page, "water", true);
  await anew(page, "water", () => page.fill("#f-name", "<img src=x onerror=alert(1)>"));
  check(await page.evaluate(() => document.querySelectorAll("#water-answers img").length) === 0, "a name is no markup");
  await page.context().close();
}
