// SPDX-License-Identifier: MIT
// Which heading of a weather file is which column, and in what unit: a map for the
// program (docs/methods/weather.md).

class ColumnForm {
  constructor(root, columns, changed) {
    Object.assign(this, { root, columns, changed });
    this.map = null;			// as given with the file, or as said here
  }

  static headings(bytes) {
    const lines = new TextDecoder().decode(bytes.subarray(0, 20000)).replace(/^\ufeff/, "").split(/\r?\n/).filter((l) => l.trim());
    const commas = (l) => l.split(",").length, most = Math.max(...lines.slice(0, 40).map(commas), 0);
    const cells = (l) => (l || "").split(",").map((h) => h.trim().replace(/^"|"$/g, ""));
    const at = lines.findIndex((l) => commas(l) === most);
    return { names: cells(lines[at]), sample: cells(lines[at + 1]) };
  }

  say(name, column) {
    const map = this.map || { layout: "none", columns: {} };
    map.layout = "none";
    map.columns = map.columns || {};
    for (const c of Object.keys(map.columns)) if (map.columns[c].name === name) delete map.columns[c];
    if (map.date && map.date.name === name) delete map.date;
    if (column === "date") map.date = { name, format: "%Y-%m-%d" };
    else if (column) map.columns[column] = { name };
    this.map = map.date || Object.keys(map.columns).length ? map : null;
    this.show(this.bytes);
    this.changed();
  }

  show(bytes) {
    this.bytes = bytes;
    if (!bytes) { this.root.replaceChildren(); return; }
    const { names, sample } = ColumnForm.headings(bytes), map = this.map || {}, used = map.columns || {};
    this.root.replaceChildren(...names.filter(Boolean).flatMap((name, i) => {
      const mine = map.date && map.date.name === name ? "date" : Object.keys(used).find((c) => used[c].name === name);
      const choices = ["date"].concat(this.columns.map((c) => c.name));
      const box = new Line("column-" + (i + 1), name, sample[i] ? `such as ${sample[i]}` : "", "").choice(mine, choices, (v) => this.say(name, v));
      if (!mine) return [box];
      const date = mine === "date", of = date ? map.date : used[mine];
      return [box, new Line("unit-" + (i + 1), date ? "written as" : "in the unit", date ? "%Y year, %m month, %d day" : (this.columns.find((c) => c.name === mine) || {}).meaning, "")
        .text(of[date ? "format" : "unit"] || "", (typed) => typed, (v) => { of[date ? "format" : "unit"] = v; this.changed(); })];
    }));
  }
}
