// SPDX-License-Identifier: MIT
// Workbooks: a sheet of one is read as the same table in a CSV file is.  workbook.xlsx was
// written by openpyxl 3.0.9: a page of words, 48 hours, and the first 120 days of
// csls_hancock_daily.csv.
import { execFileSync } from "node:child_process";
import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { change, check, folder, give, native, open, say, text } from "./harness.mjs";

const BOOK = "tests/web/workbook.xlsx";
const figures = (facts) => facts.file.columns.map((c) => [c.name, c.file_unit, c.present, c.min, c.mean, c.max].join(" ")).sort().join("\n");

export async function workbooks() {
  const page = await open(), facts = () => page.evaluate(() => window.tarn.facts), csv = join(folder, "hancock.csv");
  writeFileSync(csv, readFileSync("weather-samples/csls_hancock_daily.csv", "utf8").split("\n").slice(0, 121).join("\n") + "\n");
  await give(page, csv);
  const want = await facts();
  await give(page, BOOK);
  const got = await facts();
  check(await page.inputValue("#book-sheet") === "Days" && await page.locator("#book-sheet option").count() === 3, "the sheet with most rows is taken, and said");
  check(figures(got) === figures(want) && got.file.columns.length === 6, `a sheet and the same table as CSV:\n${figures(got)}\n${figures(want)}`);
  check(got.file.first === "2018-02-15" && got.file.days === 120, `days of a sheet: ${got.file.first}, ${got.file.days}`);
  check(/workbook\.xlsx, sheet "Days"/.test(await page.textContent('[data-found="weather"]')), "the name has its sheet");
  await change(page, () => page.fill("#f-option-latitude", "44.1"));
  check(await page.isVisible("#water-answers .answer figure :is(svg, canvas)"), `a workbook's picture: ${await text(page, "problem")}`);
  await change(page, () => page.selectOption("#book-sheet", "Hours"));
  const hours = await facts(), tmax = hours.file.columns.find((c) => c.name === "tmax"), rain = hours.file.columns.find((c) => c.name === "rain");
  check(hours.file.days === 2 && hours.file.rows_a_day === 24 && tmax.max === 15.75 && rain.max === 0.1, `hours of a sheet: ${hours.mistake} ${JSON.stringify(hours.file.columns)}`);
  check(/2018-05-01T05:00,11.25,0.1,"wet, ""cold"""/.test(await text(page, "lines") + await page.evaluate(() => new TextDecoder().decode(window.tarn.files.weather.bytes))), "times, numbers and texts of a sheet");
  await change(page, () => page.selectOption("#book-sheet", "Read me"));
  check((await text(page, "problem")).length > 20, `a sheet without a table: ${await text(page, "problem")}`);
  // 30 years, and what is no workbook
  const long = join(folder, "long.xlsx");
  let made = false;
  try {
    execFileSync("/usr/bin/python3", ["-c", `import csv, datetime, sys, openpyxl
wb = openpyxl.Workbook(write_only=True)
ws = wb.create_sheet("De Bilt")
for i, r in enumerate(csv.reader(open("weather-samples/de_bilt_daily_1980_2019.csv"))):
    ws.append(r if i == 0 else [datetime.date.fromisoformat(r[0])] + [float(x) if x else None for x in r[1:]])
wb.save(sys.argv[1])`, long], { stdio: "ignore" });
    made = true;
  } catch (error) {
    say("a workbook of 40 years: not tried, for want of openpyxl");
  }
  if (made) {
    const begun = Date.now();
    await give(page, long);
    say(`a workbook of 40 years: read, checked and shown in ${Date.now() - begun} ms by the clock`);
    check((await facts()).file.days === 14610, "a workbook of 40 years");
  }
  await give(page, "tests/bad/workbook.csv");
  check(/save its sheet as CSV/.test(await text(page, "problem")) && await page.isHidden("#book-sheet"), `a workbook that cannot be opened: ${await text(page, "problem")}`);
  check(native("weather", BOOK).err.includes("save its sheet as CSV"), "the command line says how to save it");
  await page.context().close();
}
