// SPDX-License-Identifier: MIT
// The form of a pond, made from the rows that describe it. The description in
// 'app.pond' is the truth: a field that is left blank is not in it.

const form = (() => {
  const LEVELS = ["lip", "target", "trigger", "intake"];
  const LEVEL_WORDS = {
    lip: ["overflow", "below the top edge"], target: ["target", "top-up stops here, below the overflow"],
    trigger: ["trigger", "top-up starts here, below the overflow; blank: none"], intake: ["intake", "lowest level for the pump, below the overflow"],
  };
  // What is asked first; the rest of a section follows under "more".
  const GROUPS = [
    { section: "bed", title: "Planted bed", main: ["area", "length", "width", "depth", "porosity", "cover", "head", "plant_factor"] },
    { section: "stream", title: "Stream and falls", main: ["length", "width", "depth"] },
    { section: "pump", title: "Pump", main: ["flow", "drainback", "hours"] },
    { section: "", title: "Splash and wet edges", main: ["splash", "edges"] },
    { section: "evaporation", title: "Shelter and shade", main: ["shelter", "shade"] },
    { section: "costs", title: "Prices", main: ["water", "sewer"] },
    { section: "supply", title: "Top-up supply", main: ["rate"] },
  ];
  // Fields that the page turns into others.
  const TURNED = { bed: ["length", "width", "cover"], costs: ["water", "sewer", "power"] };
  const TITLES = { seepage: "Seepage", tank: "Rain tank", apron: "Paving that drains in" };

  let changed = () => {};

  const idOf = (section, name) => `f-${section || "pond"}-${name}`;
  const holder = (section) => (section ? app.pond[section] : app.pond);

  function store(section, name, v) {
    if (section && !app.pond[section]) app.pond[section] = {};
    const object = holder(section);
    if (section === "costs" && object.currency === undefined && name !== "currency") object.currency = "USD";
    if (v === undefined) delete object[name];
    else object[name] = v;
    const left = Object.keys(object || {}).filter((key) => key !== "currency");
    if (section && section !== "basin" && left.length === 0) delete app.pond[section];
    changed();
  }

  // 'typed': text that is no measure stays a problem until it is typed anew.
  function problem(box, text, typed) {
    box.classList.toggle("typed", Boolean(text && typed));
    const old = box.querySelector(".problem");
    if (old) old.remove();
    box.classList.toggle("bad", Boolean(text));
    const input = box.querySelector("input, select");
    if (input) input.setAttribute("aria-invalid", text ? "true" : "false");
    if (!text) return;
    const p = document.createElement("p");
    p.className = "problem";
    p.id = box.id + "-problem";
    p.textContent = text;
    box.append(p);
  }

  function el(tag, attributes, ...children) {
    const e = document.createElement(tag);
    for (const key of Object.keys(attributes || {})) {
      if (key.startsWith("on")) e.addEventListener(key.slice(2), attributes[key]);
      else if (attributes[key] !== undefined && attributes[key] !== false) e.setAttribute(key, attributes[key] === true ? "" : attributes[key]);
    }
    e.append(...children.filter((c) => c !== null && c !== undefined));
    return e;
  }

  // One line: label, entry, unit.
  function line(id, label, what, entry, unitLabel) {
    const words = el("label", { for: id }, label);
    if (what) words.append(el("span", { class: "what" }, what));
    return el("div", { class: "field", id: id + "-box" }, words, el("span", { class: "entry" }, entry, el("span", { class: "unit" }, unitLabel || "")));
  }

  // A number, written as the reader likes.
  function numberLine(id, label, what, unit, get, put, placeholder) {
    const input = el("input", { type: "text", id, autocomplete: "off", placeholder, inputmode: "text" });
    const box = line(id, label, what, input, unit.label);
    input.value = units.edit(get(), unit);
    input.addEventListener("input", () => {
      if (input.value.trim() === "") { problem(box); put(undefined); return; }
      const si = units.parse(input.value, unit);
      if (Number.isNaN(si)) { problem(box, `'${input.value}' is not a number${unit.label ? " or a measure" : ""}`, true); return; }
      problem(box);
      put(si);
    });
    input.addEventListener("change", () => {
      if (!box.classList.contains("bad")) input.value = units.edit(get(), unit);
    });
    return box;
  }

  const label = (name) => name.replace(/_/g, " ");

  function monthsLine(section, r) {
    const object = () => holder(section) || {}, id = idOf(section, r.name), unit = units.asked(fields.full(section, r.name), r.unit);
    const listed = Array.isArray(object()[r.name]);
    if (!listed) {
      const box = numberLine(id, label(r.name), fields.meaning(r), unit, () => object()[r.name], (v) => store(section, r.name, v), units.edit(r.default, unit));
      box.append(el("button", { type: "button", class: "link", onclick: () => {
        const v = object()[r.name] === undefined ? r.default : object()[r.name];
        store(section, r.name, Array(12).fill(v));
        build();
      } }, "month by month"));
      return box;
    }
    const grid = el("div", { class: "months" });
    charts.MONTHS.forEach((month, i) => {
      const input = el("input", { type: "text", id: `${id}-${i + 1}`, autocomplete: "off" });
      input.value = units.edit(object()[r.name][i], unit);
      input.addEventListener("input", () => {
        const si = units.parse(input.value, unit);
        problem(box, Number.isNaN(si) ? `${month}: '${input.value}' is not a number` : "", true);
        if (Number.isNaN(si)) return;
        const list = object()[r.name].slice();
        list[i] = si;
        store(section, r.name, list);
      });
      grid.append(el("label", {}, month, input));
    });
    const box = el("div", { class: "field", id: id + "-box", role: "group", "aria-label": `${section} ${label(r.name)} by month` },
      el("span", { class: "label" }, label(r.name), el("span", { class: "what" }, fields.meaning(r))),
      el("button", { type: "button", class: "link", onclick: () => { store(section, r.name, object()[r.name][6]); build(); } }, "one for all months"), grid);
    return box;
  }

  function rowLine(section, r) {
    const object = () => holder(section) || {}, id = idOf(section, r.name), unit = units.asked(fields.full(section, r.name), r.unit);
    if (r.kind === "months") return monthsLine(section, r);
    if (r.kind === "choice") {
      const select = el("select", { id, onchange: () => store(section, r.name, select.value === r.default ? undefined : select.value) },
        ...r.choices.map((c) => el("option", { value: c }, label(c))));
      select.value = object()[r.name] === undefined ? r.default : object()[r.name];
      return line(id, label(r.name), fields.meaning(r), select);
    }
    if (r.kind === "switch") {
      const input = el("input", { type: "checkbox", id, onchange: () => store(section, r.name, input.checked || undefined) });
      input.checked = object()[r.name] === undefined ? r.default : object()[r.name];
      return line(id, label(r.name), fields.meaning(r), input);
    }
    return numberLine(id, label(r.name), fields.meaning(r), unit, () => object()[r.name], (v) => store(section, r.name, v),
      r.default === undefined ? "" : units.edit(r.default, unit));
  }

  // ---- basin and levels -----------------------------------------------------------

  const top = () => core.call("basin_top");

  function shelves() {
    const list = app.pond.basin.shelves || [], unit = units.asked("basin.shelves", "m"), box = el("div", {});
    const keep = (next) => { store("basin", "shelves", next.length ? next : undefined); };
    list.forEach((shelf, i) => {
      for (const [name, what] of [["depth", "below the top edge"], ["width", "level width, all round"]]) {
        box.append(numberLine(`f-shelf-${i}-${name}`, `shelf ${i + 1}, ${name}`, what, unit, () => list[i][name],
          (v) => { if (v !== undefined) { list[i][name] = v; keep(list); } }));
      }
    });
    box.append(el("p", {},
      el("button", { type: "button", class: "link", id: "add-shelf", onclick: () => {
        const last = list[list.length - 1], depth = app.pond.basin.depth || 1;
        keep(list.concat({ depth: last ? (last.depth + depth) / 2 : depth / 3, width: 0.3 }));
        build();
      } }, "add a shelf"),
      list.length ? el("button", { type: "button", class: "link", onclick: () => { keep(list.slice(0, -1)); build(); } }, "remove the last") : null));
    return box;
  }

  // The depth takes the levels along: they are kept under the edge.
  function depthLine(r) {
    const unit = units.asked("basin.depth", "m");
    return numberLine(idOf("basin", "depth"), "depth", fields.meaning(r), unit, () => app.pond.basin.depth, (v) => {
      const old = app.pond.basin.depth;
      if (v !== undefined && old !== undefined) {
        for (const name of LEVELS) if (app.pond[name] !== undefined) app.pond[name] += v - old;
      }
      store("basin", "depth", v);
    });
  }

  function basin() {
    const group = el("div", { class: "group" }, el("h4", {}, "The basin"));
    const b = app.pond.basin;
    if (b.table || b.contours) {
      group.append(el("p", { class: "note" }, `Its shape is a table of ${(b.table || b.contours).length} levels, from the file.`));
      return group;
    }
    const rows = fields.rowsOf("basin"), main = ["shape", "length", "width", "depth", "side_slope"];
    if (b.shape === "irregular") main.splice(3, 0, "area_factor");
    for (const name of main) {
      const r = rows.find((x) => x.name === name);
      const box = name === "depth" ? depthLine(r) : rowLine("basin", r);
      if (name === "shape") box.querySelector("select").addEventListener("change", () => build());
      group.append(box);
    }
    group.append(shelves(), more("basin", rows.filter((r) => !main.includes(r.name) && (r.name !== "area_factor"))));
    return group;
  }

  function levels() {
    const group = el("div", { class: "group" }, el("h4", {}, "Levels"));
    const unit = units.asked("level", "m");
    for (const name of LEVELS) {
      const from = () => (name === "lip" ? top() : app.pond.lip);
      group.append(numberLine(idOf("", name), LEVEL_WORDS[name][0], LEVEL_WORDS[name][1], unit,
        () => (app.pond[name] === undefined ? undefined : from() - app.pond[name]),
        (v) => {
          const next = v === undefined ? undefined : from() - v;
          if (name === "lip" && next !== undefined && app.pond.lip !== undefined) {
            for (const other of LEVELS.slice(1)) if (app.pond[other] !== undefined) app.pond[other] += next - app.pond.lip;
          }
          store("", name, next);
        }));
    }
    return group;
  }

  // A bed has an area or two sides; stone of one kind or layers.
  const leftOut = {
    bed(name) {
      const b = app.pond.bed || {}, sides = b.length !== undefined || b.width !== undefined;
      return (name === "area" && sides) || ((name === "length" || name === "width") && !sides) || ((name === "depth" || name === "porosity") && b.layers) || (name === "cover" && !b.layers);
    },
  };

  function layers() {
    const list = (app.pond.bed || {}).layers;
    if (!list) return el("p", { hidden: true });
    const box = el("details", {}, el("summary", {}, `${list.length} layers of stone, from the bottom`));
    const rows = [["thickness", "m", "bed.head", ""], ["diameter", "m", "size.diameter", "blank: open water"], ["porosity", "-", "", ""]];
    list.forEach((layer, i) => {
      for (const [name, unit, shown, what] of rows) {
        box.append(numberLine(`f-layer-${i}-${name}`, `${i + 1} ${layer.name || ""}, ${name}`, what, units.asked(shown, unit), () => list[i][name], (v) => {
          if (v === undefined) delete list[i][name]; else list[i][name] = v;
          store("bed", "layers", list);
        }));
      }
    });
    box.append(el("p", {}, el("button", { type: "button", class: "link", onclick: () => { store("bed", "layers", list.concat(Object.assign({}, list[list.length - 1]))); build(); } }, "add a layer on top"),
      list.length > 1 ? el("button", { type: "button", class: "link", onclick: () => { store("bed", "layers", list.slice(0, -1)); build(); } }, "remove the top one") : null));
    return box;
  }

  // ---- what rows do not describe ---------------------------------------------------

  function supplyDays() {
    const supply = () => app.pond.supply || {}, box = el("div", {});
    const on = (supply().weekdays || []).map((d) => (typeof d === "number" ? describe.WEEKDAYS[d - 1] : d));
    const days = el("div", { class: "days", role: "group", "aria-label": "Days on which top-up is allowed" });
    for (const day of describe.WEEKDAYS) {
      const input = el("input", { type: "checkbox", onchange: () => {
        const list = Array.from(days.querySelectorAll("input")).map((c, i) => (c.checked ? describe.WEEKDAYS[i] : null)).filter(Boolean);
        store("supply", "weekdays", list.length === 7 || list.length === 0 ? undefined : list);
      } });
      input.checked = on.length === 0 || on.includes(day);
      days.append(el("label", {}, input, " " + day));
    }
    box.append(el("p", { class: "note" }, "Allowed on"), days);
    const spans = supply().closed || [];
    spans.forEach((span, i) => {
      const date = (name, words) => {
        const input = el("input", { type: "text", id: `f-closed-${i}-${name}`, placeholder: "MM-DD" });
        input.value = span[name] || "";
        input.addEventListener("change", () => { span[name] = input.value.trim(); store("supply", "closed", spans); });
        return line(`f-closed-${i}-${name}`, words, "MM-DD every year, or YYYY-MM-DD", input);
      };
      box.append(date("from", `closed ${i + 1}, from`), date("to", `closed ${i + 1}, to`));
    });
    box.append(el("p", {}, el("button", { type: "button", class: "link", onclick: () => {
      store("supply", "closed", spans.concat({ from: "07-01", to: "08-31" }));
      build();
    } }, "add a time without top-up"), spans.length ? el("button", { type: "button", class: "link", onclick: () => {
      store("supply", "closed", spans.length > 1 ? spans.slice(0, -1) : undefined);
      build();
    } }, "remove the last") : null));
    return box;
  }

  function currency() {
    const input = el("input", { type: "text", id: "f-costs-currency", autocomplete: "off", oninput: () => store("costs", "currency", input.value.trim() || undefined) });
    input.value = (app.pond.costs || {}).currency || "";
    return line("f-costs-currency", "currency", "as it shall be written", input);
  }

  const EXTRAS = { bed: layers, supply: supplyDays, costs: currency };

  // ---- the whole -----------------------------------------------------------------

  function more(section, rows) {
    if (!rows.length) return null;
    const object = holder(section) || {};
    return el("details", { open: rows.some((r) => object[r.name] !== undefined) }, el("summary", {}, "more"), ...rows.map((r) => rowLine(section, r)));
  }

  function group(g) {
    const rows = fields.rowsOf(g.section).filter((r) => (g.section !== "" || !LEVELS.includes(r.name)) &&
      (fields.has(g.section, r.name) || (TURNED[g.section] || []).includes(r.name)) && !(leftOut[g.section] || (() => false))(r.name));
    const main = g.main ? g.main.map((name) => rows.find((r) => r.name === name)).filter(Boolean) : rows;
    const open = opened.has(g.section) ? opened.get(g.section) : g.section === "" || app.pond[g.section] !== undefined;
    const box = el("details", { class: "group", open, "data-section": g.section }, el("summary", {}, g.title), ...main.map((r) => rowLine(g.section, r)));
    if (EXTRAS[g.section]) box.append(EXTRAS[g.section]());
    const rest = more(g.section, rows.filter((r) => !main.includes(r)));
    if (rest) box.append(rest);
    box.addEventListener("toggle", () => opened.set(g.section, box.open));
    return box;
  }
  const opened = new Map();

  function others() {
    const have = GROUPS.map((g) => g.section).concat("basin");
    return fields.sections.filter((s) => !have.includes(s) && describe.asked(s))
      .map((s) => ({ section: s, title: TITLES[s] || label(s) }));
  }

  function build() {
    const root = document.getElementById("pond-form"), focus = document.activeElement && document.activeElement.id;
    root.replaceChildren(basin(), levels(), ...GROUPS.concat(others()).map(group), kept());
    document.getElementById("pond-name").value = app.pond.name || "";
    if (focus && document.getElementById(focus)) document.getElementById(focus).focus();
  }

  function kept() {
    const list = describe.unused(app.pond);
    if (app.pond.withdrawals) list.push(`withdrawals (${app.pond.withdrawals.length}, used)`);
    return list.length ? el("p", { class: "note" }, `Kept from the file: ${list.join(", ")}.` +
      (describe.unused(app.pond).length ? " The program uses these; this page does not." : "")) : el("p", { hidden: true });
  }

  // Shows a mistake at its field, if the form has it.
  function mark(error, text) {
    for (const box of document.querySelectorAll("#pond-form .field.bad:not(.typed)")) problem(box);
    if (!error || !error.field) return;
    const box = boxOf(error.field);
    if (box && !box.classList.contains("typed")) problem(box, text);
  }

  // The line of a field such as "bed.cover", and what stands before its entry.
  function boxOf(field) {
    const m = /^(?:(\w+)\.)?(\w+)/.exec(field);
    return m && document.getElementById(idOf(m[1] || "", m[2]) + "-box");
  }
  const labelOf = (box) => box.querySelector("label, .label").firstChild.textContent;

  return { build, mark, boxOf, labelOf, levels: { LEVELS, LEVEL_WORDS, top }, el, line, numberLine, problem, onChange(f) { changed = f; } };
})();
