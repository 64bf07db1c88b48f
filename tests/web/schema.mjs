// SPDX-License-Identifier: MIT
// docs/build/pond.schema.json beside the program, by a validator from elsewhere.
import { execFileSync, spawnSync } from "node:child_process";
import { existsSync, readFileSync, readdirSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { POND, SEATTLE, MAP, check, folder, require, say, tarn } from "./harness.mjs";

const FOLDERS = ["weather-samples", "tests/good", "tests/bad/beds", "tests/bad/works", "tests/bad/ponds"];

export async function schema() {
  const Ajv = require("ajv/dist/2020");
  const valid = new Ajv({ strict: true, strictRequired: false, allErrors: true }).compile(JSON.parse(readFileSync("docs/build/pond.schema.json", "utf8")));
  let read = 0;
  for (const folderOf of FOLDERS) {
    for (const name of readdirSync(folderOf).filter((f) => f.endsWith(".lua"))) {
      const to = join(folder, "schema.json");
      if (spawnSync(tarn, ["convert", join(folderOf, name), "--to", to]).status !== 0) continue;
      read += 1;
      check(valid(JSON.parse(readFileSync(to, "utf8"))), `${name}: the program takes it, the schema does not: ${JSON.stringify((valid.errors || []).slice(0, 2))}`);
    }
  }

  execFileSync(tarn, ["convert", POND, "--to", join(folder, "good.json")]);
  const good = JSON.parse(readFileSync(join(folder, "good.json"), "utf8"));
  const broken = {
    "misspelt field": (d) => { d.basin.depht = 1; }, "misspelt section": (d) => { d.streem = {}; }, "no lip": (d) => { delete d.overflow_level; },
    "no basin": (d) => { delete d.basin; }, "a text for a number": (d) => { d.overflow_level = "3 ft"; }, "beyond its range": (d) => { d.stream.width = 5000; },
    "under its range": (d) => { d.fish.protein = 0.05; }, "an unknown word": (d) => { d.basin.shape = "round"; }, "no switch": (d) => { d.pump.check_valve = 1; },
    "eleven months": (d) => { d.bed.plant_factor = Array(11).fill(1); }, "a month out of range": (d) => { d.bed.plant_factor[3] = 9; },
    "no list": (d) => { d.pipes = { length: 2 }; }, "an empty list": (d) => { d.falls = []; }, "a layer without thickness": (d) => { delete d.bed.layers[0].thickness; },
    "a shape beside a table": (d) => { d.basin.table = [[0, 1], [1, 2]]; }, "a pair of one": (d) => { d.basin = { table: [[0, 1], [1]] }; },
    "a weekday": (d) => { d.supply = { weekdays: ["moonday"] }; }, "a weekday's number": (d) => { d.supply = { weekdays: [8] }; },
    "a span without end": (d) => { d.supply = { closed: [{ from: "07-01" }] }; }, "a date": (d) => { d.supply = { closed: [{ from: "7/1", to: "08-01" }] }; },
    "prices without currency": (d) => { delete d.costs.currency; }, "a fitting": (d) => { d.pipes = [{ length: 1, fittings: { "round elbow": 1 } }]; },
    "a rate": (d) => { d.treatment.rate = "nobody's"; }, "a footing": (d) => { d.yard.footings = ["18 in"]; }, "a withdrawal": (d) => { d.withdrawals = [{ weekdays: ["mon"] }]; },
    "a long name": (d) => { d.name = "x".repeat(101); }, "a name in two lines": (d) => { d.name = "a\nb"; },
  };
  for (const [what, change] of Object.entries(broken)) {
    const d = JSON.parse(JSON.stringify(good)), path = join(folder, "broken.json");
    change(d);
    writeFileSync(path, JSON.stringify(d));
    check(spawnSync(tarn, ["topup", path, SEATTLE, "--map", MAP]).status === 2, `${what}: the program takes it`);
    check(!valid(d), `${what}: the schema takes it`);
  }
  check(valid(Object.assign({ $schema: "pond.schema.json" }, good)), "$schema is accepted");
  check(existsSync("docs/build/pond.schema.json") && read >= 19, `${read} descriptions`);
  say(`schema: ${read} descriptions of the project valid, ${Object.keys(broken).length} broken ones refused by program and schema`);
}
