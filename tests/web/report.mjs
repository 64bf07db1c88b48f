// SPDX-License-Identifier: MIT
// The saved report: one file without scripts or addresses, with the same words.
import { readFileSync } from "node:fs";
import { pathToFileURL } from "node:url";
import { audit } from "./everyone.mjs";
import { LOG, check, done, download, open, sample, say } from "./harness.mjs";

async function look(page, path, what) {
  const other = await page.context().newPage();
  other.on("console", (m) => check(false, `${what}: console: ${m.text()}`));
  other.on("request", (r) => check(r.url().startsWith("file:"), `${what} asks for ${r.url()}`));
  await other.goto(pathToFileURL(path).href);
  const found = await audit(other, what);
  const wide = await other.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
  check(wide <= 0, `${what}: ${wide} px wider than the screen`);
  return { other, found };
}

export async function report() {
  for (const [what, options] of [["report", {}], ["report, dark", { colorScheme: "dark" }], ["report, phone", { viewport: { width: 360, height: 740 } }]]) {
    const page = await open(options);
    const bare = readFileSync(await download(page, "#save-report"), "utf8");
    check(bare.includes("no weather was read") && bare.includes("&quot;basin&quot;"), `${what} before any weather`);
    const notices = await page.textContent("#licences");
    for (const words of ["Rich Felker", "Arm Limited", "Sun Microsystems", "Leon Sorokin", "THE SOFTWARE IS PROVIDED"]) check(notices.includes(words), `the page's licences lack: ${words}`);
    await sample(page);
    await page.click("#tab-bed");
    await page.click("#tab-leak");
    await page.setInputFiles("#log-file", LOG);
    await page.waitForFunction(() => window.tarn.fit().result);
    await page.click("#tab-water");
    await page.waitForTimeout(300);
    await done(page);
    const headline = await page.textContent("#headline p"), before = await page.innerHTML("#results .figures");
    const path = await download(page, "#save-report"), text = readFileSync(path, "utf8");
    check(!/<script|<button|<input|javascript:|\son\w+=/i.test(text), `${what} holds something live`);
    check(!/https?:\/\/|url\(|@import/i.test(text), `${what} holds an address`);
    check(await page.innerHTML("#results .figures") === before, `${what}: saving changes nothing on the page`);
    const { other } = await look(page, path, what);
    const body = await other.textContent("main"), pictures = await other.evaluate(() => document.querySelectorAll("svg.chart").length);
    for (const words of [headline, "Method and assumptions", "What it rests on", "basin.length", "backflow", "In the yard", "outside what weather explains", "Area against depth"]) {
      check(body.includes(words), `${what} lacks: ${words}`);
    }
    const negative = await other.evaluate(() => Array.from(document.querySelectorAll("svg.chart text")).filter((t) => /under the overflow/.test(t.parentNode.textContent) && /^-\d/.test(t.textContent)).length);
    check(negative === 0, `${what}: ${negative} depths under the overflow are negative`);
    check(pictures === 7, `${what}: ${pictures} pictures`);
    const again = JSON.parse(await other.textContent("pre"));
    check(JSON.stringify(again) === JSON.stringify(await page.evaluate(() => window.tarn.pond)), `${what}: the description in it`);
    const pdf = await other.pdf({ format: "Letter" }), pages = (pdf.toString("latin1").match(/\/Type\s*\/Page\b/g) || []).length;
    check(pages >= 3 && pages <= 14, `${what} on paper: ${pages} pages`);
    if (what === "report") say(`report: ${Math.round(text.length / 1000)} kB, ${pages} pages on paper`);
    await page.context().close();
  }
}
