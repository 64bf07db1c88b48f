// SPDX-License-Identifier: MIT
// For everyone: an accessibility checker, a phone, paper.
import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { check, open, require, result, say, turn } from "./harness.mjs";

const axe = readFileSync(require.resolve("axe-core/axe.min.js"), "utf8");
const lesserNames = new Set();
export async function audit(page, what) {
  await page.evaluate(axe);
  const found = await page.evaluate(() => window.axe.run(document, { resultTypes: ["violations"] }));
  const grave = found.violations.filter((v) => ["serious", "critical"].includes(v.impact));
  for (const v of grave) check(false, `accessibility, ${what}: ${v.id}: ${v.help}: ${v.nodes.slice(0, 3).map((n) => n.html.slice(0, 120)).join(" | ")}`);
  result.passed += 1;
  for (const v of found.violations) lesserNames.add(v.id);
  return found.violations.length;
}

export async function everyone() {
  let lesser = 0;
  for (const [what, options] of [["desktop", {}], ["dark", { colorScheme: "dark" }], ["phone", { viewport: { width: 360, height: 740 }, isMobile: true, hasTouch: true }]]) {
    const page = await open(options);
    lesser += await audit(page, what + ", empty");
    for (const tab of ["water", "bed", "sheet", "leak", "commission", "whatif", "about"]) {
      if (tab === "about") await page.click("#tab-about");
      else await turn(page, tab, true);
      lesser += await audit(page, `${what}, ${tab}`);
      const wide = await page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
      check(wide <= 0, `${what}, ${tab}: ${wide} px wider than the screen`);
      if (process.env.SHOTS) await page.screenshot({ path: join(process.env.SHOTS, `${what}-${tab}.png`), fullPage: true });
    }
    if (what === "phone") {
      await page.click("#tab-water");
      await page.evaluate(() => scrollTo(0, 0));
      await page.waitForTimeout(200);
      await page.click("#peek");
      await page.waitForTimeout(300);
      check(await page.isHidden("#peek") && await page.evaluate(() => document.getElementById("water-right").getBoundingClientRect().top < 400), "phone: the bar leads to the answers");
      const over = await page.evaluate(() => {
        const boxes = Array.from(document.querySelectorAll("#system label, .cover-tools button"), (b) => b.getBoundingClientRect());
        return boxes.some((a, i) => boxes.slice(i + 1).some((b) => a.left < b.right - 1 && b.left < a.right - 1 && a.top < b.bottom - 1 && b.top < a.bottom - 1));
      });
      check(!over, "phone: buttons lie on each other");
    }
    if (what === "desktop") {
      await page.focus("#tab-about");
      await page.keyboard.press("ArrowRight");
      check(await page.isVisible("#chapter-water") && !await page.isVisible("#chapter-about"), "tabs follow the keyboard");
      await page.focus('[data-zoom="in"]');
      await page.keyboard.press("Enter");
    }
    await page.context().close();
  }
  say(`accessibility: nothing serious in 24 views; ${lesser} lesser findings (${Array.from(lesserNames).join(", ")})`);
}

export async function paper() {
  for (const scheme of ["light", "dark"]) {
    const page = await open({ colorScheme: scheme });
    await turn(page, "water", true);
    const pdf = await page.pdf({ format: "Letter", printBackground: true });
    const pages = (pdf.toString("latin1").match(/\/Type\s*\/Page\b/g) || []).length;
    check(pdf.length > 20000 && pages >= 2 && pages <= 12, `print (${scheme}): ${pages} pages, ${pdf.length} bytes`);
    if (process.env.SHOTS) writeFileSync(join(process.env.SHOTS, `paper-${scheme}.pdf`), pdf);
    if (scheme === "light") say(`print: ${pages} pages, ${Math.round(pdf.length / 1000)} kB`);
    await page.context().close();
  }
}
