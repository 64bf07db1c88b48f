// What is refused, in the runner's words.
import { execFileSync } from "node:child_process";
import { readdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { MAP, POND, SEATTLE, check, download, folder, message, open, say, tarn } from "./harness.mjs";

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
