// SPDX-License-Identifier: MIT
// "Check your file": what the program took a weather file for, and how to say it
// otherwise.  A change is a map for the program (docs/methods/weather.md).

const DATES = { "%Y-%m-%d": "2015-01-31", "%m/%d/%Y": "1/31/2015, month first", "%d/%m/%Y": "31/1/2015, day first", "%d.%m.%Y": "31.1.2015",
  "%d-%m-%Y": "31-1-2015", "%Y/%m/%d": "2015/01/31", "%Y%m%d": "20150131", "%Y-%m-%dT%H:%M": "2015-01-31T13:00", "%Y-%m-%d %H:%M": "2015-01-31 13:00" };
const UNUSED = "not used", FIRST_LINES = 6;

class Sheet {
  // columns: what a table can hold; options: how a file is read; changed(): read it again
  constructor(root, columns, options, state, changed) {
    Object.assign(this, { root, columns, options, state, changed });
    this.map = null;			// as given with the file, or as said here
    this.part = Object.fromEntries(["title", "problem", "lines", "columns", "place", "other", "said", "picture"]
      .map((name) => [name, root.querySelector(`[data-part="${name}"]`)]));
  }

  // A new file: its first lines at once, as they are.
  open(name, bytes) {
    this.root.hidden = false;
    this.part.title.textContent = name;
    const code = bytes[0] === 0xff && bytes[1] === 0xfe ? "utf-16le" : bytes[0] === 0xfe && bytes[1] === 0xff ? "utf-16be" : "utf-8";
    this.part.lines.textContent = new TextDecoder(code).decode(bytes.subarray(0, 8192)).split(/\r?\n/).slice(0, FIRST_LINES).map((l) => l.slice(0, 300)).join("\n");
    this.problem("");
    for (const at of ["columns", "said", "picture"]) this.part[at].replaceChildren();
    this.forms(null);
  }

  problem(text) {
    this.part.problem.textContent = text || "";
    this.part.problem.hidden = !text;
  }

  // The place first; what else a reader may be told is folded.
  forms(site) {
    const PLACE = ["latitude", "elevation", "wind-height"], of = (o) => o.value !== "FILE";
    const form = (root, list) => optionForm(root, list, this.state, this.changed, site || {});
    form(this.part.place, this.options.filter((o) => PLACE.includes(o.name)));
    form(this.part.other, this.options.filter((o) => of(o) && !PLACE.includes(o.name)));
  }

  // What the program says of the file (examined.lua).
  show(facts) {
    const { file } = facts;
    this.file = file;
    this.problem(facts.mistake || facts.cannot);
    if (file) {
      const site = file.site || {};
      this.forms({ latitude: site.latitude, elevation: site.elevation, "wind-height": site.wind_height });
      this.table(file);
    }
    this.mark(facts);
    const span = file && file.days ? [`${file.days.toLocaleString("en")} days, ${file.first} to ${file.last}; read as ${this.shape(file)}.`] : [];
    const list = span.concat(facts.said || [], facts.notes || []);
    this.part.said.replaceChildren(...list.map((s) => element("li", {}, s)));
    const figure = facts.figure ? new DOMParser().parseFromString(facts.figure, "text/html").body.childNodes : [];
    this.part.picture.replaceChildren(...Array.from(figure, (n) => document.importNode(n, true)));
  }

  // The question beside the entry that answers it.
  mark({ field, mistake, cannot }) {
    const name = { units: "file-units", totals: "totals", "evaporation.latitude": "latitude" }[field] || (field || "").replace("_", "-");
    const box = /^[a-z-]+$/.test(name) && this.root.querySelector(`#f-option-${name}-box`);
    if (!box) return;
    Line.mark(box, mistake || cannot);
    for (let at = box.closest("details"); at; at = at.parentNode.closest("details")) at.open = true;
  }

  // A refusal of the answers that the file or its place is the reason for; an option of
  // a command behind it is no word of the page.
  refuse(message) {
    const text = message.replace(/\s*\(--[^()]*\)\s*$/, "").trim();
    this.problem(text);
    this.mark({ field: /latitude/.test(text) ? "latitude" : "", mistake: text });
  }

  shape(file) {
    const between = { ",": "commas", ";": "semicolons", "\t": "tabs" }[file.delimiter] || "columns";
    return `${between}${file.header_line ? `, headings in line ${file.header_line}` : ""}${file.date ? `, dates in ${file.date}` : ""}`;
  }

  // A row for each column of the file: heading, first values, what it is, its unit.
  table(file) {
    const rows = Array.from(file.fields || []).map((f) => {
      const name = f.name || `column ${f.index}`, used = (file.columns || []).find((c) => c.index === f.index) || {};
      const values = [f.first, f.second, f.third].filter((x) => x !== undefined && x !== "").join("  ");
      return element("tr", {}, element("th", { scope: "row" }, name), element("td", {}, values), element("td", {}, this.uses(f, name)), element("td", {}, this.unit(f, used, name)),
        element("td", {}, used.present ? [used.min, used.mean, used.max].map((x) => Number(x.toPrecision(4))).join(" / ") + " " + used.unit : ""));
    });
    const heads = ["In the file", "first values", "taken for", "in the unit", "least / mean / most"].map((h) => element("th", { scope: "col" }, h));
    this.part.columns.replaceChildren(element("table", { class: "words" }, element("thead", {}, element("tr", {}, ...heads)), element("tbody", {}, ...rows)));
  }

  uses(f, name) {
    const choices = ["date"].concat(this.columns.map((c) => c.name));
    if (f.use && !choices.includes(f.use)) choices.unshift(f.use);
    const select = element("select", { "aria-label": `${name}: taken for`, id: "use-" + f.index, onchange: () => this.say(f, select.value, "") },
      element("option", { value: "" }, UNUSED), ...choices.map((c) => element("option", { value: c }, named(c))));
    select.value = f.use || "";
    return select;
  }

  unit(f, used, name) {
    if (f.use === "date") return this.menu(f, `${name}: written as`, Object.entries(DATES), this.file.date_format, (v) => this.say(f, "date", v));
    const column = this.columns.find((c) => c.name === f.use);
    if (!column) return "";
    return this.menu(f, `${name}: unit`, column.units.map((u) => [u, u]), used.file_unit, (v) => this.say(f, f.use, v));
  }

  menu(f, label, choices, value, put) {
    const known = value && !choices.some(([v]) => v === value) ? [[value, value]].concat(choices) : choices;
    const select = element("select", { "aria-label": label, id: "unit-" + f.index, onchange: () => put(select.value) },
      element("option", { value: "" }, "?"), ...known.map(([v, words]) => element("option", { value: v }, words)));
    select.value = value || "";
    return select;
  }

  // What a column is, said by hand: the rest stays as the program took it.
  say(f, use, unit) {
    const { file } = this, map = this.map || { layout: file.layout || "none", columns: {} }, place = f.name ? { name: f.name } : { index: f.index };
    map.columns = map.columns || {};
    for (const [c, at] of Object.entries(map.columns)) if (at && (at.name === place.name && at.index === place.index)) delete map.columns[c];
    if (f.use && f.use !== "date" && f.use !== use && map.layout !== "none") map.columns[f.use] = false;
    if (map.date && use !== "date" && map.date.name === f.name) delete map.date;
    if (use === "date") map.date = Object.assign({}, place, { format: unit || "%Y-%m-%d" });
    else if (use) map.columns[use] = Object.assign({}, place, unit ? { unit } : {});
    this.map = map;
    this.changed();
  }
}
