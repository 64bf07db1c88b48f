// SPDX-License-Identifier: MIT
// Forms, made from what the program asks (page.lua, form): the fields that
// describe a pond, and the options of a command.

function element(tag, attributes, ...children) {
  const e = document.createElement(tag);
  for (const [name, value] of Object.entries(attributes || {})) {
    if (name.startsWith("on")) e.addEventListener(name.slice(2), value);
    else if (value !== undefined && value !== null && value !== false) e.setAttribute(name, value === true ? "" : value);
  }
  e.append(...children.filter((c) => c !== null && c !== undefined));
  return e;
}

const MONTHS = ["Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"];
const named = (name) => name.replace(/[_-]/g, " ");

// One line: label, entry, unit; put(value or undefined) is called on a change.
class Line {
  constructor(path, label, meaning, unit) {
    this.id = "f-" + path.replace(/\W+/g, "-");
    this.box = element("div", { class: "field", id: this.id + "-box", "data-path": path });
    this.words = element("label", { for: this.id }, named(label), meaning ? element("span", { class: "what" }, meaning) : null);
    this.unit = unit;
  }

  with(entry) {
    this.box.append(this.words, element("span", { class: "entry" }, entry, element("span", { class: "unit" }, this.unit || "")));
    return this.box;
  }

  // Marks a mistake; "typed": no value at all, which stays until it is typed anew.
  problem(text, typed) { Line.mark(this.box, text, typed); }

  static mark(box, text, typed) {
    const old = box.querySelector(":scope > .problem"), input = box.querySelector("input, select");
    if (old) old.remove();
    box.classList.toggle("bad", Boolean(text));
    box.classList.toggle("typed", Boolean(text && typed));
    if (input) input.setAttribute("aria-invalid", text ? "true" : "false");
    if (!text) return;
    box.append(element("p", { class: "problem", id: box.id + "-problem" }, text));
    if (input) input.setAttribute("aria-describedby", box.id + "-problem");
  }

  // read(text) gives the value, or throws words about it.
  text(value, read, put, placeholder) {
    const input = element("input", { type: "text", id: this.id, autocomplete: "off", placeholder });
    input.value = value;
    input.addEventListener("input", () => {
      const typed = input.value.trim();
      try {
        const v = typed === "" ? undefined : read(typed);
        this.problem("");
        put(v);
      } catch (error) {
        this.problem(error.message, true);
        put(null);
      }
    });
    return this.with(input);
  }

  number(si, asked, put, standard) {
    const line = this.text(units.edit(si, asked), (typed) => {
      const v = units.parse(typed, asked);
      if (Number.isNaN(v)) throw new Error(`'${typed}' is not a number${asked.si && asked.si !== "-" ? " or a measure" : ""}`);
      return v;
    }, put, units.edit(standard, asked) || undefined);
    return line;
  }

  choice(value, choices, put, standard) {
    const select = element("select", { id: this.id, onchange: () => put(select.value === "" ? undefined : select.value) },
      element("option", { value: "" }, standard === undefined || standard === null ? "" : `${named(String(standard))} (if not said)`),
      ...choices.map((c) => (Array.isArray(c) ? element("option", { value: c[0] }, c[1]) : element("option", { value: c }, named(c)))));
    select.value = value === undefined ? "" : value;
    return this.with(select);
  }

  tick(value, put, standard) {
    const input = element("input", { type: "checkbox", id: this.id, onchange: () => put(input.checked === Boolean(standard) ? undefined : input.checked) });
    input.checked = value === undefined ? Boolean(standard) : value;
    return this.with(input);
  }
}

// ---- a pond ------------------------------------------------------------------

// The description is the truth: a field that is left blank is not in it.
class PondForm {
  constructor(root, sections, changed) {
    Object.assign(this, { root, changed });
    this.sections = new Map(sections.map((s) => [s.section, s]));
    this.opened = new Set([""]);
  }

  show(pond) {
    const focus = document.activeElement && document.activeElement.id;
    this.pond = pond;
    this.root.replaceChildren(...this.group("", "", () => this.pond, true));
    if (focus && document.getElementById(focus)) document.getElementById(focus).focus();
  }

  // Levels count down from the top edge, as a ruler does.
  level(row) {
    const edge = () => (this.pond.basin || {}).depth;
    if (!["overflow_level", "target", "trigger", "intake"].includes(row.name) || edge() === undefined) return null;
    const line = new Line(row.name, row.name === "overflow_level" ? "overflow level" : row.name, row.meaning.replace(/^level above the floor/, "level") + "; below the top edge",
      units.asked("level", "m").label), v = this.pond[row.name];
    return line.number(v === undefined ? undefined : edge() - v, units.asked("level", "m"),
      (down) => this.store(() => this.pond, row.name, typeof down === "number" ? edge() - down : down));
  }

  // null: what is typed is no value, and the description keeps the last one.
  store(object, name, value) {
    if (value === undefined) delete object(true)[name];
    else if (value !== null) object(true)[name] = value;
    this.changed();
  }

  row(path, row, object) {
    const given = () => (object() || {})[row.name], put = (v) => this.store(object, row.name, v);
    const asked = units.asked(path, row.unit), line = () => new Line(path, row.name, row.meaning, asked.label);
    const special = path === row.name && this.level(row);
    if (special) return special;
    if (row.kind === "choice") return line().choice(given(), row.choices, put, row.default);
    if (row.kind === "switch") return line().tick(given(), put, row.default);
    if (row.kind === "months") return this.months(path, row, object, asked);
    const box = line().number(given(), asked, row.name === "depth" && path === "basin.depth" ? (v) => this.deeper(v) : put, row.default);
    return box;
  }

  // The levels go along with the floor: they are kept under the edge.
  deeper(v) {
    const old = (this.pond.basin || {}).depth;
    if (typeof v === "number" && old !== undefined) {
      for (const name of ["overflow_level", "target", "trigger", "intake"]) if (this.pond[name] !== undefined) this.pond[name] += v - old;
    }
    this.store(() => (this.pond.basin = this.pond.basin || {}), "depth", v);
  }

  months(path, row, object, asked) {
    const given = (object() || {})[row.name], again = () => this.show(this.pond);
    if (!Array.isArray(given)) {
      const box = new Line(path, row.name, row.meaning, asked.label).number(given, asked, (v) => this.store(object, row.name, v), row.default);
      box.append(element("button", { type: "button", class: "link", onclick: () => {
        this.store(object, row.name, Array(12).fill(given === undefined ? row.default : given));
        again();
      } }, "month by month"));
      return box;
    }
    const grid = element("div", { class: "months" });
    const box = element("div", { class: "field", "data-path": path, id: `f-${path.replace(/\W+/g, "-")}-box`, role: "group", "aria-label": named(path) + " by month" },
      element("span", { class: "label" }, named(row.name), element("span", { class: "what" }, row.meaning)), grid);
    MONTHS.forEach((month, i) => {
      const input = element("input", { type: "text", id: `f-${path.replace(/\W+/g, "-")}-${i + 1}`, autocomplete: "off", oninput: () => {
        const v = units.parse(input.value, asked);
        Line.mark(box, Number.isNaN(v) ? `${month}: '${input.value}' is not a number` : "", true);
        if (!Number.isNaN(v)) this.store(object, row.name, object()[row.name].map((x, k) => (k === i ? v : x)));
      } });
      input.value = units.edit(given[i], asked);
      grid.append(element("label", {}, month, input));
    });
    return box;
  }

  // What is no number: texts, words, dates, names of days, lists, tables.
  beside(path, b, object) {
    const given = () => (object() || {})[b.name], put = (v) => this.store(object, b.name, v);
    const line = () => new Line(path, b.name, b.meaning, "");
    if (b.name === "$schema") return null;
    if (b.kind === "table") return this.part(path, b, object);
    if (b.kind === "tables") return this.list(path, b, object);
    if (b.kind === "text" || b.kind === "date") return line().text(given() || "", (typed) => typed, put);
    if (b.kind === "word" && b.choices) return line().choice(given(), b.choices, put);
    const words = b.kind === "names" && b.choices ? b.choices.slice(0, 3).join(", ") + " ..." : "as JSON, in SI units";
    return line().text(given() === undefined ? "" : b.kind === "names" ? given().join(", ") : JSON.stringify(given()), (typed) => {
      if (b.kind === "names") return typed.split(/[\s,]+/).filter(Boolean).map((w) => (/^\d+$/.test(w) ? Number(w) : w));
      try { return JSON.parse(typed); } catch (error) { throw new Error("this is no list: " + error.message); }
    }, put, words);
  }

  fold(path, title, what, ...content) {
    const box = element("details", { class: "group", open: this.opened.has(path), "data-section": path },
      element("summary", {}, title, what ? element("span", { class: "what" }, " " + what) : null), ...content);
    box.addEventListener("toggle", () => (box.open ? this.opened.add(path) : this.opened.delete(path)));
    return box;
  }

  part(path, b, object) {
    const part = (make) => {
      const holder = object(make);
      if (make && !holder[b.name]) holder[b.name] = {};
      return (holder || {})[b.name];
    };
    if (path === "basin") this.opened.add(path);
    const box = this.fold(path, named(b.name), b.meaning, ...this.group(b.of, path, part, false));
    const given = part();
    if (given && b.name !== "basin") box.append(this.link("remove it: " + named(path), () => { delete object()[b.name]; }));
    return box;
  }

  link(words, act) {
    return element("p", {}, element("button", { type: "button", class: "link", onclick: () => { act(); this.changed(); this.show(this.pond); } }, words));
  }

  list(path, b, object) {
    const list = () => (object() || {})[b.name], given = list() || [];
    if (b.alone && !given.length) return null;
    const box = this.fold(path, `${named(b.name)}${given.length ? ": " + given.length : ""}`, b.meaning);
    given.forEach((_, i) => {
      const at = `${path}[${i + 1}]`;
      box.append(element("div", { class: "entry-of" }, element("h4", {}, `${named(b.name)} ${i + 1}`), ...this.group(b.of, at, () => list()[i], false)));
    });
    if (given.length < b.most) box.append(this.link("add to " + named(path), () => {
      object(true)[b.name] = given.concat(given.length ? JSON.parse(JSON.stringify(given[given.length - 1])) : {});
      this.opened.add(path);
    }));
    if (given.length > b.least) box.append(this.link("remove the last of " + named(path), () => { object()[b.name] = given.slice(0, -1); }));
    else if (given.length) box.append(this.link("remove all of " + named(path), () => { delete object()[b.name]; }));
    return box;
  }

  // What is given or must be, then the rest under "more", then parts.
  group(section, path, object, top) {
    const { rows, beside } = this.sections.get(section), given = object() || {};
    const at = (name) => (path ? path + "." : "") + name;
    const main = [], more = [], parts = [];
    for (const row of rows) (given[row.name] !== undefined || row.required || (top && row.hi !== 3) ? main : more).push(this.row(at(row.name), row, object));
    for (const b of beside) {
      const box = this.beside(at(b.name), b, object);
      if (!box) continue;
      if (b.kind === "table" || b.kind === "tables") parts.push(box);
      else (given[b.name] !== undefined || b.required || b.name === "name" ? main : more).push(box);
    }
    const rest = more.length ? [this.fold(path + "+", path ? "more of " + named(path) : "more", "", ...more)] : [];
    if (!main.length && rest.length) return [...more, ...parts];
    return top ? [parts.shift(), ...main, ...rest, ...parts] : [...main, ...rest, ...parts];
  }

  // Shows a refusal at its field, or at that of which this is a part.
  mark(message, field) {
    for (const box of this.root.querySelectorAll(".field.bad:not(.typed)")) Line.mark(box, "");
    if (!message || !field) return;
    const fits = Array.from(this.root.querySelectorAll(".field")).filter((box) => field.startsWith(box.dataset.path));
    const box = fits.sort((a, b) => b.dataset.path.length - a.dataset.path.length)[0];
    if (!box || box.classList.contains("typed")) return;
    Line.mark(box, message);
    for (let at = box.closest("details"); at; at = at.parentNode.closest("details")) at.open = true;
  }

  typed() {
    const box = this.root.querySelector(".field.typed");
    return box ? `${box.dataset.path}: ${box.querySelector(".problem").textContent}` : "";
  }
}

// ---- options of a command ----------------------------------------------------------

// What is typed for an option, as the program reads it; words about what is no number.
const NUMBER = /^[+-]?(\d+\.?\d*|\.\d+)(e[+-]?\d+)?$|^(\d+ +)?\d+\/\d+$/i;
function typedOption(option, typed) {
  const [, number, unit] = /^(.*?)\s*([a-z]*)$/i.exec(typed);
  if (option.kind === "number" && !NUMBER.test(typed)) throw new Error(`'${typed}' is not a number`);
  if (option.kind === "length" && !(NUMBER.test(number) && /^(|in|inch|ft|yd|mm|cm|m)$/.test(unit))) throw new Error(`'${typed}' is not a length, as 400 ft or 122 m`);
  return typed;
}

// state: name -> text or true; those that name a file are the page's own affair;
// given: name -> what is taken where nothing is said.
function optionForm(root, options, state, changed, given) {
  const focus = document.activeElement && document.activeElement.id;
  const standard = (o) => ((given || {})[o.name] === undefined ? undefined : String(given[o.name]));
  root.replaceChildren(...options.map((o) => {
    const line = new Line("option-" + o.name, o.name, o.meaning, o.kind === "length" ? "m" : o.value && !o.choices && !/^(NAME|N|M)$/.test(o.value) ? o.value.toLowerCase() : "");
    const put = (v) => { if (v === null) return; if (v === undefined || v === false) delete state[o.name]; else state[o.name] = v; changed(); };
    if (!o.value) return line.tick(state[o.name], put);
    if (o.choices) return line.choice(state[o.name], o.choices, put);
    return line.text(state[o.name] || "", (typed) => typedOption(o, typed), put, standard(o));
  }));
  if (focus && root.querySelector("#" + focus)) document.getElementById(focus).focus();
}

const optionArgs = (options, state) => options.filter((o) => state[o.name] !== undefined)
  .flatMap((o) => (o.value ? ["--" + o.name, state[o.name]] : ["--" + o.name]));
