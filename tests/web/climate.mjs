// SPDX-License-Identifier: MIT
// A climate in the place of a weather file: marked as the program marks it, and put aside by a file.
import { SEATTLE, anew, check, native, open, say } from "./harness.mjs";

const flat = (text) => text.replace(/\s+/g, " ");

export async function climate() {
  const page = await open(), LOUD = "A CLIMATE, NOT YOUR WEATHER: days drawn by chance (seed 1) from the monthly normals 1981-2010 of Austin, Texas, US.";
  const names = await page.$$eval("#climate option", (all) => all.map((o) => o.value).filter(Boolean));
  const listed = native("weather", "--climates").out;
  check(names.length >= 6 && names.every((name) => listed.includes(name)), `climates of the menu: ${names.join(", ")}`);
  await anew(page, "water", () => page.selectOption("#climate", "austin"));
  const said = flat(await page.textContent("#water-answers"));
  check(said.includes(LOUD) && await page.isVisible("#ribbon") && /A CLIMATE, NOT YOUR WEATHER: Austin/.test(await page.textContent("#ribbon-says")), `a climate is marked: ${said.slice(0, 300)}`);
  check(await page.evaluate(() => window.tarn.status.water) === 4, "a climate is in doubt");
  await page.click("#tab-whatif");
  check(/Open a daily weather file/.test(await page.textContent("#whatif-wants")), "a study wants a file");
  await page.click("#tab-water");
  await anew(page, "water", () => page.setInputFiles('[data-opens="weather"]', SEATTLE));
  check(await page.inputValue("#climate") === "", "a file puts the climate aside");
  await anew(page, "water", () => page.selectOption("#climate", "de_bilt"));
  check(await page.isHidden("#sheet") && flat(await page.textContent("#water-answers")).includes("De Bilt, Netherlands"), "a climate puts the file aside");
  say(`climates: ${names.length}`);
  await page.context().close();
}
