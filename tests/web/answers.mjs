// SPDX-License-Identifier: MIT
// The answers on the page are the blocks of the native report, to the last byte;
// what the page saves is what the program writes.
import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { LOG, MAP, MEASURED, POND, SEATTLE, STUDY, anew, check, done, download, folder, native, open, reported, say, turn } from "./harness.mjs";

// Blocks of a chapter as the page has them.
const blocks = (page, chapter) => page.evaluate((name) => Array.from(document.querySelectorAll(`#${name}-answers .block`), (b) => b.html), chapter);
const headings = (page, chapter) => page.evaluate((name) => Array.from(document.querySelectorAll(`#${name}-answers h3`), (h) => h.textContent)
  .filter((h, i, all) => all.indexOf(h) === i), chapter);

// Names of files differ, anchors, and how long a step took; the page has no chapter
// of inputs.
const plain = (html) => html.replace(/[\w./-]*\/(?=[\w-]+\.(csv|lua|json))/g, "").replace(/courtyard-pond\.(lua|json)|pond\.json/g, "POND")
  .replace(/[\d.,]+ (ns|us|ms|s)\b/g, "TIME").replace(/<figure class="plot">/g, "<figure>").replace(/<script type="application\/json">[^]*?<\/script>\n/g, "")
  .replace(/ See <a href="#c\d+">Inputs<\/a>\./g, "").replace(/(<li><b[^]*?<a href="#)c\d+"/g, '$1"');

// The line of a block that the report does not have.
const other = (html, report) => String(html).split("\n").find((line) => !report.includes(plain(line)));


async function compare(page, chapter, ...args) {
  const { html: whole, status } = reported(...args), report = plain(whole), list = await blocks(page, chapter);
  let same = 0;
  for (const html of list) {
    const there = report.includes(plain(html ?? "nothing"));
    if (there) same += 1;
    check(there, `${chapter}: not in the native report: ${other(html, report)}`);
  }
  const [verdict, found] = [/^<p>/, /^<p class="counted">/].map((kind) => list.findIndex((html) => kind.test(html)));
  check(found >= 0 && (found < verdict) === /class="alarm"/.test(list[found]), `${chapter}: a NO stands over the verdict, a doubt below: ${list[found]}`);
  check(await page.evaluate((name) => window.tarn.status[name], chapter) === status, `${chapter}: the native exit status is ${status}`);
  const want = Array.from(report.matchAll(/<h2 id="c\d+">(.*?)<\/h2>/g), (m) => m[1]).filter((h) => h !== "Inputs" && h !== "At a glance");
  const got = await headings(page, chapter);
  for (const h of want) check(got.includes(h.replace(/&amp;/g, "&")), `${chapter}: chapter "${h}" is missing`);
  check(list.length >= want.length, `${chapter}: ${list.length} blocks`);
  return same;
}

export async function answers() {
  let same = 0;
  for (const units of ["us", "metric"]) {
    const page = await open(), weather = [SEATTLE, "--map", MAP, "--units", units];
    if (units === "metric") await page.click("#system label:last-of-type");
    await turn(page, "water", true);
    same += await compare(page, "water", "topup", POND, ...weather, "--full");
    await turn(page, "bed");
    same += await compare(page, "bed", "bed", POND, "--units", units);
    await leads(page);
    await turn(page, "sheet");
    same += await compare(page, "sheet", "sheet", POND, ...weather);
    await turn(page, "leak", true);
    same += await compare(page, "leak", "leak", POND, SEATTLE, LOG, ...weather.slice(1));
    await turn(page, "commission", true);
    same += await compare(page, "commission", "commission", POND, MEASURED, "--units", units);
    await turn(page, "whatif", true);
    same += await compare(page, "whatif", "whatif", POND, SEATTLE, STUDY, ...weather.slice(1));
    if (units === "us") await saved(page);
    await page.context().close();
  }
  say(`answers: ${same} blocks the same bytes as in the native reports, in two systems of units`);
}

// A click on the chapter that has more of what was found opens it.
async function leads(page) {
  const link = page.locator("#bed-answers .found a").first(), title = await link.textContent();
  const opened = () => page.evaluate((words) => Array.from(document.querySelectorAll("#bed-answers .chapter"))
    .find((c) => c.querySelector("h3").textContent === words).open, title);
  await page.evaluate(() => { for (const c of document.querySelectorAll("#bed-answers .chapter")) c.open = false; });
  check(!await opened(), `${title} is closed`);
  await link.click();
  check(await opened(), `a click on ${title} opens it`);
}

// Files that the page saves, beside the program's own.
async function saved(page) {
  const to = (ending) => join(folder, "native-saved." + ending), same = (got, want, what) => check(readFileSync(got, "utf8") === readFileSync(want, "utf8"), `${what} is the program's`);
  await page.click("#tab-water");
  const json = await download(page, "#save-json");
  native("convert", json, "--to", to("lua"));
  same(await download(page, "#save-lua"), to("lua"), "the pond in Lua");
  native("topup", POND, SEATTLE, "--map", MAP, "--csv", to("csv"));
  same(await download(page, "#water-save-csv"), to("csv"), "the daily ledger");
  const report = readFileSync(await download(page, "#save-report"), "utf8");
  check(!/<script|<button|<input|javascript:|\son\w+=/i.test(report), "a saved report holds something live");
  check(report.includes("default-src 'none'") && report.includes("Courtyard pond") && report.includes("<h2"), "a saved report is whole");
  await turn(page, "bed");
  native("bed", POND, "--csv", to("csv"), "--drawing", to("svg"));
  same(await download(page, "#bed-save-csv"), to("csv"), "the trade-off grid");
  same(await download(page, "#bed-save-drawing"), to("svg"), "the cross-section");
}

// A study of 1,000 ponds on the page's one thread.
export async function study() {
  const page = await open(), own = join(folder, "thousand.lua");
  writeFileSync(own, readFileSync(STUDY, "utf8").replace(/samples = 2000/, "samples = 1000"));
  await turn(page, "water", true);
  await page.click("#tab-whatif");
  const from = Date.now();
  await anew(page, "whatif", () => page.setInputFiles('[data-opens="study"]', own));
  const ms = Date.now() - from;
  check(await page.isHidden("#whatif-error"), `study: ${await page.textContent("#whatif-error")}`);
  check((await page.textContent("#whatif-answers")).includes("1,000"), "a study of 1,000 ponds");
  await compare(page, "whatif", "whatif", POND, SEATTLE, own, "--map", MAP);
  const csv = readFileSync(await download(page, "#whatif-save-csv"), "utf8"), to = join(folder, "thousand.csv");
  const r = native("whatif", POND, SEATTLE, own, "--map", MAP, "--csv", to);
  check([0, 3, 4].includes(r.status) && csv === readFileSync(to, "utf8"), "the table of 1,000 samples is the program's, byte for byte");
  say(`a study of 1,000 ponds, sensitivity and all: ${(ms / 1000).toFixed(1)} s`);
  await page.context().close();
}
