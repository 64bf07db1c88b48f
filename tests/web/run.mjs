// The page in a real browser, headless, against the native build.
//     make web-test        or: node tests/web/run.mjs build
// Environment: SHOTS=folder keeps pictures; ONLY=speed,bed runs some parts.
import { execFileSync, spawnSync } from "node:child_process";
import { mkdtempSync, readdirSync, readFileSync, statSync, writeFileSync } from "node:fs";
import { createRequire } from "node:module";
import { cpus, loadavg, tmpdir } from "node:os";
import { basename, join, resolve } from "node:path";
import { pathToFileURL } from "node:url";

const build = resolve(process.argv[2] || "build"), tarn = join(build, "tarn"), file = join(build, "web/tarn.html");
const require = createRequire(join(build, "web/npm/"));
const { chromium } = require("playwright-core");
const axe = readFileSync(require.resolve("axe-core/axe.min.js"), "utf8");
const folder = mkdtempSync(join(tmpdir(), "tarn-web-")), url = pathToFileURL(file).href;
const POND = "weather-samples/courtyard-pond.lua", SEATTLE = "weather-samples/seattle_daily_2012_2015.csv", MAP = "weather-samples/seattle-map.lua";

let passed = 0;
const failures = [], measured = [];
function check(ok, what) {
  if (ok) { passed += 1; return; }
  failures.push(what);
  console.log("FAILED: " + what);
}

function native(...args) {
  return JSON.parse(execFileSync(tarn, ["tests/web/dump.lua", ...args], { maxBuffer: 1 << 28 }).toString());
}

// Relative to the larger, but for what is nothing beside a drop of water.
const near = (a, b) => a === b || Math.abs(a - b) <= 1e-9 * Math.max(Math.abs(a), Math.abs(b)) || Math.abs(a - b) < 1e-13;

function same(got, want, what) {
  check(got === want || near(got, want), `${what}: page ${got}, native ${want}`);
}

const browser = await chromium.launch({ executablePath: "/usr/bin/chromium", args: ["--no-sandbox", "--disable-gpu", "--disable-quic",
  "--no-first-run", "--disable-background-networking", "--disable-component-update", "--disable-sync"] });
const requests = [];

async function open(options) {
  const context = await browser.newContext(Object.assign({ viewport: { width: 1360, height: 900 }, acceptDownloads: true }, options));
  const page = await context.newPage();
  page.on("request", (r) => { if (!/^(file|blob|data):/.test(r.url())) requests.push(r.url()); });
  page.on("pageerror", (e) => check(false, "script error: " + e.message));
  page.on("console", (m) => { if (m.type() === "error") check(false, "console: " + m.text()); });
  await page.goto(url);
  await page.waitForFunction(() => window.tarn && window.tarn.core);
  return page;
}

const done = (page) => page.waitForFunction(() => document.body.dataset.done, null, { timeout: 60000 });

async function sample(page) {
  await page.click("#sample");
  await page.waitForTimeout(50);
  await done(page);
}

async function openPond(page, json) {
  await page.evaluate(() => { window.before = window.tarn.pond; });
  await page.setInputFiles("#json-file", json);
  await page.waitForFunction(() => window.tarn.pond !== window.before);
}

async function download(page, button) {
  const [d] = await Promise.all([page.waitForEvent("download"), page.click(button)]);
  const to = join(folder, d.suggestedFilename());
  await d.saveAs(to);
  return to;
}

// The page's job in the native dump's shape.
const job = (page) => page.evaluate(() => {
  const { months, years, totals, facts, band, endurance, count } = window.tarn.job, days = window.tarn.allDays(), weeks = window.tarn.periods("week"), columns = {};
  for (const name of Object.keys(days)) columns[name] = Array.from(days[name]);
  return { days: columns, count, weeks, months, years, totals, facts, band: band.map((b) => b.totals.topup), endurance: endurance && Array.from(endurance) };
});

const DAY = ["rain_mm", "open_water_mm", "grass_mm", "rain", "runoff", "tank", "topup", "evaporation", "bed", "stream", "splash",
  "seepage", "withdrawal", "overflow", "shortfall", "unmet", "level", "area", "volume", "held", "in_tank"];
const PERIOD = ["rain", "runoff", "topup", "evaporation", "bed", "stream", "splash", "seepage", "overflow", "drop_mm", "start_level",
  "end_level", "lowest_level", "days", "topped_up", "spilled"];

function compare(got, want, what) {
  let worst = 0, cells = 0;
  check(got.count === want.days.length, `${what}: ${got.count} days, native ${want.days.length}`);
  for (const name of DAY) {
    want.days.forEach((day, i) => {
      const a = got.days[name][i], b = day[name];
      cells += 1;
      if (!near(a, b)) check(false, `${what}: ${name} of ${day.date}: page ${a}, native ${b}`);
      if (b !== 0) worst = Math.max(worst, Math.abs(a - b) / Math.max(Math.abs(b), 1e-4));
    });
  }
  for (const kind of ["weeks", "months", "years"]) {
    check(got[kind].length === want[kind].length, `${what}: ${kind}`);
    want[kind].forEach((p, i) => PERIOD.forEach((name) => { if (!near(got[kind][i][name], p[name])) check(false, `${what}: ${kind} ${p.first} ${name}`); }));
  }
  PERIOD.forEach((name) => same(got.totals[name], want.totals[name], `${what}: totals ${name}`));
  check(got.band.length === want.band.length, `${what}: ${got.band.length} other methods, native ${want.band.length}`);
  got.band.sort().forEach((t, i) => same(t, want.band.slice().sort()[i], `${what}: band`));
  if (want.endurance) {
    const other = want.endurance.filter((d, i) => (d === false ? -1 : d) !== got.endurance[i]).length;
    check(other === 0, `${what}: endurance differs on ${other} days`);
  }
  passed += 1;
  return `${cells} figures, worst ${worst.toExponential(1)} relative`;
}

// ---- same numbers as the native build ------------------------------------------------

async function numbers() {
  const page = await open();
  await sample(page);
  measured.push("sample against native: " + compare(await job(page), native("ledger", POND, SEATTLE, MAP), "sample"));

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
  measured.push(`ledger CSV: ${b.length - 1} lines, ${differ} cells differ from the runner's in their last digit`);

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
  execFileSync(tarn, ["convert", "weather-samples/courtyard-full.lua", "--to", full]);
  await openPond(page, full);
  await done(page);
  const piped = await job(page), other = native("ledger", full, SEATTLE, MAP);
  compare(piped, other, "pump, pipes and falls");
  same(piped.facts.transit, other.facts.transit, "water in transit");
  await page.context().close();
}

// ---- a file of 30 years ----------------------------------------------------------------

function thirtyYears() {
  const lines = readFileSync("weather-samples/de_bilt_daily_1980_2019.csv", "utf8").split("\n");
  const to = join(folder, "de_bilt_1980_2009.csv");
  writeFileSync(to, lines.filter((l, i) => i === 0 || /^(19|200)/.test(l)).join("\n") + "\n");
  return to;
}

// Processor time of the page's main thread, ms: what a quiet machine would take.
async function work(page, action) {
  const cdp = await page.context().newCDPSession(page);
  await cdp.send("Performance.enable", { timeDomain: "threadTicks" });
  const now = async () => (await cdp.send("Performance.getMetrics")).metrics.find((m) => m.name === "ThreadTime").value * 1000;
  const before = await now(), result = await action();
  return { result, ms: await now() - before };
}

// Drops a file as a hand would: a drop event with the file in it.
async function drop(page) {
  return page.evaluate(async () => {
    const data = new DataTransfer();
    data.items.add(window.dropped);
    delete document.body.dataset.done;
    const begun = performance.now();
    document.getElementById("drop").dispatchEvent(new DragEvent("drop", { dataTransfer: data, bubbles: true, cancelable: true }));
    await new Promise((seen, lost) => {
      const look = () => (performance.now() - begun > 20000 ? lost(new Error(document.getElementById("weather-error").textContent)) : document.querySelector("#level-chart canvas") && window.tarn.job && window.tarn.job.count > 5000 ? requestAnimationFrame(() => setTimeout(seen, 0)) : setTimeout(look, 1));
      look();
    });
    return performance.now() - begun;
  });
}

// Makes the file beforehand, so that only the drop is timed.
const hold = (page, path) => page.evaluate(([name, text]) => { window.dropped = new File([text], name, { type: "text/csv" }); },
  [basename(path), readFileSync(path, "utf8")]);

async function speed() {
  const long = thirtyYears(), times = [], works = [], pond = join(folder, "de-bilt.json");
  let page;
  execFileSync(tarn, ["convert", POND, "--to", pond]);
  const d = JSON.parse(readFileSync(pond, "utf8"));
  Object.assign(d.evaporation, { latitude: 52.1, elevation: 2, wind_height: 10 });
  writeFileSync(pond, JSON.stringify(d));
  for (let i = 0; i < 3; i++) {
    if (page) await page.context().close();
    page = await open();
    await openPond(page, pond);
    await hold(page, long);
    await page.waitForTimeout(300);
    const { result, ms } = await work(page, () => drop(page));
    times.push(result);
    works.push(ms);
  }
  await done(page);
  const again = await page.evaluate(() => { document.getElementById("level-chart").id = "old"; window.tarn.job = null; }).then(() => drop(page));
  await done(page);
  const t = await page.evaluate(() => window.tarn.timing);
  measured.push(`30-year file, drop to picture: ${times.map((x) => x.toFixed(0)).join(", ")} ms in a fresh page, ${again.toFixed(0)} ms again in the same; processor time ${works.map((x) => x.toFixed(0)).join(", ")} ms (reading ${t.read.toFixed(0)} ms; all with band and endurance ${t.all.toFixed(0)} ms)`);
  measured.push("30 years against native: " + compare(await job(page), native("ledger", pond, long), "30 years"));
  check(Math.min(...times) < 3000, "30-year file is drawn within 3 s even on a busy machine");
  await page.context().close();
}

// ---- the bed ----------------------------------------------------------------------------

const slide = (page, id, step) => page.evaluate(async ([name, value]) => {
  const input = document.getElementById(name), begun = performance.now();
  input.value = value;
  input.dispatchEvent(new Event("input", { bubbles: true }));
  await new Promise((r) => requestAnimationFrame(() => requestAnimationFrame(r)));
  return { frame: performance.now() - begun, work: window.tarn.timing.bed };
}, [id, step]);

async function bed() {
  const page = await open();
  await page.click("#tab-bed");
  const judged = await page.evaluate(() => window.tarn.check());
  const want = native("bed", POND);
  for (const name of ["area", "depth", "loading", "mass", "water", "residence", "clean", "clogged", "rise", "pond", "oxygen_out", "surface_share", "turnover"]) {
    same(judged[name], want[name], "bed as described: " + name);
  }
  await page.selectOption("#b-question", "find");
  const times = [];
  for (let step = 300; step <= 800; step += 25) times.push(await slide(page, "b-flow", step));
  const frames = times.map((t) => t.frame).sort((a, b) => a - b), works = times.map((t) => t.work).sort((a, b) => a - b);
  measured.push(`slider to redraw, 21 moves: work ${works[10].toFixed(0)} ms (most ${works[20].toFixed(0)}), with the frames that the test waits for ${frames[10].toFixed(0)} ms`);
  // a key moves a slider, and a number follows
  const before = await page.textContent("#b-clogging-out");
  await page.focus("#b-clogging");
  for (let i = 0; i < 40; i++) await page.keyboard.press("ArrowRight");
  check(await page.textContent("#b-clogging-out") !== before, "a slider follows the arrow keys");
  await page.fill("#b-surface_share", "0.3");
  await page.waitForTimeout(100);
  await page.click("#b-write");
  await page.waitForTimeout(200);
  await page.click("#tab-water");
  const json = await download(page, "#save-json"), after = native("bed", json);
  await page.click("#tab-bed");
  const got = await page.evaluate(() => window.tarn.check());
  for (const name of ["area", "depth", "loading", "mass", "clogged", "pond", "turnover"]) same(got[name], after[name], "plan written into the pond: " + name);
  await page.context().close();
}

// ---- the bucket test ----------------------------------------------------------------------

async function bucket() {
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

// ---- what is refused, in the runner's words -------------------------------------------------

// The runner's message, without the program's name, the folder and what only
// a command line can be told.
function message(args) {
  const r = spawnSync(tarn, args);
  return r.status === 0 ? null : r.stderr.toString().trim().replace(/^tarn: /, "").replace(/tests\/bad\//g, "");
}

async function refused() {
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
  const good = JSON.parse(execFileSync(tarn, ["tests/web/dump.lua", "ledger", POND, SEATTLE, MAP], { maxBuffer: 1 << 28 }) && readFileSync(await save(page), "utf8"));
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
  measured.push(`refused in the runner's words: ${files} weather files, ${Object.keys(bad).length} ponds tried`);
  await page.context().close();
}

async function save(page) {
  return download(page, "#save-json");
}

// ---- a file that nobody knows, mapped by hand --------------------------------------------------

async function mapped() {
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

// ---- for everyone ----------------------------------------------------------------------------

const lesserNames = new Set();
async function audit(page, what) {
  await page.evaluate(axe);
  const found = await page.evaluate(() => window.axe.run(document, { resultTypes: ["violations"] }));
  const grave = found.violations.filter((v) => ["serious", "critical"].includes(v.impact));
  for (const v of grave) check(false, `accessibility, ${what}: ${v.id}: ${v.help}: ${v.nodes.slice(0, 3).map((n) => n.html.slice(0, 120)).join(" | ")}`);
  passed += 1;
  for (const v of found.violations) lesserNames.add(v.id);
  return found.violations.length;
}

async function everyone() {
  let lesser = 0;
  for (const [what, options] of [["desktop", {}], ["dark", { colorScheme: "dark" }], ["phone", { viewport: { width: 360, height: 740 }, isMobile: true, hasTouch: true }]]) {
    const page = await open(options);
    lesser += await audit(page, what + ", empty");
    await sample(page);
    for (const tab of ["water", "bed", "leak", "about"]) {
      await page.click("#tab-" + tab);
      await page.waitForTimeout(150);
      lesser += await audit(page, `${what}, ${tab}`);
      const wide = await page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
      check(wide <= 0, `${what}, ${tab}: ${wide} px wider than the screen`);
      if (process.env.SHOTS) await page.screenshot({ path: join(process.env.SHOTS, `${what}-${tab}.png`), fullPage: true });
    }
    if (what === "desktop") {
      await page.focus("#tab-about");
      await page.keyboard.press("Home");
      check(await page.isVisible("#chapter-water") && !await page.isVisible("#chapter-about"), "tabs follow the keyboard");
      await page.focus('[data-zoom="in"]');
      await page.keyboard.press("Enter");
    }
    await page.context().close();
  }
  measured.push(`accessibility: nothing serious in 15 views; ${lesser} lesser findings (${Array.from(lesserNames).join(", ")})`);
}

async function paper() {
  for (const scheme of ["light", "dark"]) {
    const page = await open({ colorScheme: scheme });
    await sample(page);
    const pdf = await page.pdf({ format: "Letter", printBackground: true });
    const pages = (pdf.toString("latin1").match(/\/Type\s*\/Page\b/g) || []).length;
    check(pdf.length > 20000 && pages >= 2 && pages <= 8, `print (${scheme}): ${pages} pages, ${pdf.length} bytes`);
    if (process.env.SHOTS) writeFileSync(join(process.env.SHOTS, `paper-${scheme}.pdf`), pdf);
    if (scheme === "light") measured.push(`print: ${pages} pages, ${Math.round(pdf.length / 1000)} kB`);
    await page.context().close();
  }
}

const weight = statSync(file).size;
measured.push(`page weight: ${Math.round(weight / 1000)} kB, all in`);
check(weight < 600000, `page weighs ${weight} bytes`);
check(!/https?:\/\/(?!www\.w3\.org)[a-z]/i.test(readFileSync(file, "utf8").replace(/<!--[\s\S]*?-->|\/\*[\s\S]*?\*\//g, "")), "no address in the page");
const wanted = process.env.ONLY ? process.env.ONLY.split(",") : null;
for (const part of [numbers, mapped, speed, bed, bucket, refused, everyone, paper]) {
  if (wanted && !wanted.includes(part.name)) continue;
  try {
    await part();
  } catch (error) {
    check(false, `${part.name}: ${error.stack}`);
  }
}
check(requests.length === 0, `the page asked the network: ${requests.join(" ")}`);
await browser.close();

measured.push(`on ${cpus().length} cores with a load of ${loadavg()[0].toFixed(1)}`);
for (const line of measured) console.log(line);
console.log(`${passed} checks passed, ${failures.length} failed`);
process.exit(failures.length ? 1 : 0);
