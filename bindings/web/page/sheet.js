// SPDX-License-Identifier: MIT
// "Check your file": what the program took a weather file for, and how to say it
// otherwise.  A change is a map for the program (docs/methods/weather.md).

const DATES = { "%Y-%m-%d": "2015-01-31", "%m/%d/%Y": "1/31/2015, month first", "%d/%m/%Y": "31/1/2015, day first", "%d.%m.%Y": "31.1.2015",
  "%d-%m-%Y": "31-1-2015", "%Y/%m/%d": "2015/01/31", "%Y%m%d": "20150131", "%Y-%m-%dT%H:%M": "2015-01-31T13:00", "%Y-%m-%d %H:%M": "2015-01-31 13:00" };
const UNUSED = "not used", FIRST_LINES = 6, MOST_BUTTONS = 6;
const PLACE = ["latitude", "elevation", "wind-height"];

// Options in words of the page: their meaning and choices.
const WORDED = {
  duplicates: ["rows of a date that is there already", { first: "the first one counts", last: "the last one counts" }],
  order: ["rows that are not in order of time", { sort: "are sorted" }],
  outliers: ["values that cannot be", { missing: "are left out" }],
  station: ["of several in the file", {}],
};

class Sheet {
  // columns: what a table can hold; options: how a file is read; changed(): read it again
  constructor(root, columns, options, state, changed) {
    Object.assign(this, { root, columns, options, state, changed });
    this.given = this.map = null;	// as given with the file; as said here
    this.answered = false;
    this.part = Object.fromEntries(["title", "book", "problem", "answers", "lines", "columns", "place", "other", "said", "picture"]
      .map((name) => [name, root.querySelector(`[data-part="${name}"]`)]));
  }

  // A new file, with a map or null: its first lines at once, as they are.  Nothing said of the
  // one before counts for it, but the place where it is the same file again.
  open(name, bytes, map, again) {
    this.given = map;
    this.forget(again);
    this.stations = {};
    this.root.hidden = false;
    const { top } = this.root.getBoundingClientRect();
    if (top < 0 || top > innerHeight / 2) this.root.scrollIntoView({ block: "start" });
    this.part.title.textContent = name;
    const code = bytes[0] === 0xff && bytes[1] === 0xfe ? "utf-16le" : bytes[0] === 0xfe && bytes[1] === 0xff ? "utf-16be" : "utf-8";
    this.part.lines.textContent = new TextDecoder(code).decode(bytes.subarray(0, 8192)).split(/\r?\n/).slice(0, FIRST_LINES).map((l) => l.slice(0, 300)).join("\n");
    this.problem("", []);
    for (const at of ["columns", "said", "picture"]) this.part[at].replaceChildren();
    this.forms(null);
  }

  // A menu of a workbook's sheets; book: null if the file is none.
  workbook(book, choose) {
    this.part.book.hidden = !book;
    if (!book) return;
    const menu = element("select", { id: "book-sheet", onchange: () => choose(menu.value) }, ...book.sheets.map((s) => element("option", { value: s.name }, `${s.name} (${s.rows.length} rows)`)));
    menu.value = book.name;
    this.part.book.replaceChildren(element("label", { for: "book-sheet" }, "Sheet of the workbook; the one with most rows is taken first: "), menu);
  }

  // Why the file is refused, what can be answered with one click, and the way back.
  problem(text, answers) {
    const button = (words, act) => element("button", { type: "button", onclick: act }, words), said = this.part.answers;
    this.part.problem.textContent = text || "";
    this.part.problem.hidden = !text;
    if (answers.length > MOST_BUTTONS) {
      const select = element("select", { "aria-label": "Answers", onchange: () => this.answer(answers[select.value]) },
        element("option", { value: "" }, "choose one"), ...answers.map(([, , words], i) => element("option", { value: i }, words)));
      said.replaceChildren(select);
    } else said.replaceChildren(...answers.map((a) => button(a[2], () => this.answer(a))));
    if (this.answered) said.append(button("Take back what was answered", () => { this.forget(true); this.changed(); }));
  }

  // Nothing said of a file counts any longer, but its place if it is to be kept.
  forget(place) {
    for (const o of Object.keys(this.state)) if (!place || !PLACE.includes(o)) delete this.state[o];
    this.map = this.given && JSON.parse(JSON.stringify(this.given));
    this.answered = false;
  }

  has([key, value]) {
    const [part, name] = key.split("."), said = key in this.state ? this.state[key] : ((this.map || {})[part] || {});
    return [].concat(name ? said[name] : said).includes(value);
  }

  // An answer is an option of the form, or else of the map.
  answer([key, value]) {
    this.answered = true;
    if (this.options.some((o) => o.name === key)) this.state[key] = value;
    else this.put(key, value);
    this.changed();
  }

  // An option of the map, "duplicates" or "units.solar"; undefined takes it away.
  put(key, value) {
    const [part, name] = key.split(".");
    this.map = this.map || {};
    if (name) this.map[part] = Object.assign({}, this.map[part], { [name]: value });
    else if (part === "missing" && this.map.missing !== undefined) this.map.missing = [].concat(this.map.missing, value);
    else this.map[part] = value;
  }

  // The place first; what else a reader may be told is folded.
  forms(site) {
    const form = (root, list) => optionForm(root, list, this.state, this.changed, site || {});
    form(this.part.place, this.options.filter((o) => PLACE.includes(o.name)));
    form(this.part.other, this.options.filter((o) => o.value !== "FILE" && !PLACE.includes(o.name)).map((o) => this.worded(o)));
  }

  // An option in words of the page; stations are known once the file was refused for them.
  worded(option) {
    const words = WORDED[option.name];
    if (!words) return option;
    const choices = Object.entries(option.name === "station" ? this.stations : words[1]);
    return Object.assign({}, option, { meaning: words[0], choices: choices.length ? choices : undefined });
  }

  // What the program says of the file (examined.lua).
  show(facts) {
    const { file } = facts, answers = (facts.answers || []).filter((a) => !this.has(a));
    this.file = file;
    for (const [key, value] of answers) if (key === "station") this.stations[value] = value;
    this.problem(facts.mistake || facts.cannot, answers);
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

  // The entry that answers the question, where no click does.
  mark({ field, answers, mistake, cannot }) {
    if (!(mistake || cannot) || (answers || []).length) return;
    const name = { units: "file-units", totals: "totals", "evaporation.latitude": "latitude" }[field] || (field || "").replace("_", "-");
    const box = /^[a-z-]+$/.test(name) && this.root.querySelector(`#f-option-${name}-box`);
    if (!box) return;
    Line.mark(box, "to be answered here");
    for (let at = box.closest("details"); at; at = at.parentNode.closest("details")) at.open = true;
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
    select.classList.toggle("asked", !value);
    return select;
  }

  // What a column is, said by hand: the rest stays as the program took it.
  say(f, use, unit) {
    const { file } = this, map = Object.assign({ layout: file.layout || "none" }, this.map), place = f.name ? { name: f.name } : { index: f.index };
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
