// SPDX-License-Identifier: MIT
// The questions that a pond begins with (scripts/common/six_questions.lua).  The answer stands
// beside them from the first sizes on; what nobody has said yet is assumed, and marked so.

class Questions {
  // begin: questions, more, assumed, steps of the program; changed(): the description is another
  constructor(root, begin, changed) {
    Object.assign(this, { root, begin, changed });
    this.assumed = {};			// path -> what was put there for want of an answer
  }

  // A description, and what in it is assumed; {}: nothing is known yet.
  show(pond, assumed) {
    this.pond = pond;
    this.assumed = typeof assumed === "object" && assumed ? assumed : {};
    const six = this.begin.questions.map((q, i) => this.question(q, i + 1));
    const more = this.begin.more.map((q) => this.question(q));
    const open = this.root.querySelector("#more-site");
    this.root.replaceChildren(element("ol", { class: "six" }, ...six),
      element("details", { id: "more-site", class: "group", open: open && open.open }, element("summary", {}, "Two more about the place"), element("ol", { class: "six" }, ...more)));
    this.mark();
  }

  question(q, number) {
    const id = "q-" + q.key, title = element("span", { class: "asked" }, number ? element("span", { class: "count" }, `${number} `) : null, q.ask);
    const badge = element("span", { class: "assumed", "data-assumed": q.key, hidden: true });
    const body = q.list ? this.cards(q, id) : q.key === "size" ? [this.length("length", "long"), element("span", { class: "by" }, "×"), this.length("width", "wide")] : [this.length(q.key, "")];
    return element("li", { "data-question": q.key }, element("fieldset", {}, element("legend", {}, title, badge), element("div", { class: q.list ? "cards" : "lengths" }, ...body),
      q.list ? element("p", { class: "meaning", "data-meaning": q.key }) : null));
  }

  // ---- words with pictures

  word(key) { return key === "shape" ? (this.pond.basin || {}).shape : (this.pond.site || {})[key]; }

  cards(q, id) {
    return q.list.map((item, i) => {
      const input = element("input", { type: "radio", name: id, id: `${id}-${i + 1}`, value: item.word, onchange: () => this.choose(q.key, item.word) });
      input.checked = (this.word(q.key) || (q.key === "shape" ? "" : "not described")) === item.word && !this.isAssumed(q.key);
      return element("label", { class: "card", title: item.meaning }, input, element("span", { class: "face" }, picture(q.key, item.word),
        element("span", { class: "name" }, item.word), element("span", { class: "what" }, item.meaning)));
    });
  }

  choose(key, word) {
    const part = key === "shape" ? "basin" : "site", at = (this.pond[part] = this.pond[part] || {});
    at[key] = word;
    if (key === "shape") {
      delete this.assumed["basin.shape"];
      if (word !== "irregular") { delete at.area_factor; delete this.assumed["basin.area_factor"]; }
      else if (at.area_factor === undefined) this.assume("basin", "area_factor", this.begin.assumed.area_factor);
    }
    this.said();
  }

  // ---- lengths

  length(key, word) {
    const path = key === "full" ? "level" : "basin." + key, asked = units.asked(path, "m"), id = "q-" + key;
    const input = element("input", { type: "text", id, autocomplete: "off", inputmode: "text", "aria-describedby": id + "-problem" });
    const problem = element("span", { class: "problem", id: id + "-problem" });
    const unit = element("span", { class: "unit" }, asked.label), bare = () => { unit.hidden = /[a-z'"]/i.test(input.value); };
    input.value = this.isAssumed(key) ? "" : units.written(this.given(key), asked);
    bare();
    input.placeholder = this.isAssumed(key) ? units.edit(this.given(key), asked) : "";
    input.addEventListener("input", () => {
      bare();
      const v = input.value.trim() === "" ? undefined : units.parse(input.value, asked), wrong = Number.isNaN(v) || v <= 0;
      problem.textContent = wrong ? `'${input.value.trim()}' is not a length, as ${key === "full" ? "4 in or 10 cm" : "12 ft 6 in or 3.8 m"}` : "";
      input.setAttribute("aria-invalid", String(wrong));
      input.classList.toggle("typed", wrong);
      if (!wrong) this.put(key, v);
      this.said();
    });
    return element("label", { class: "length" }, element("span", { class: "way" + (word ? "" : " unsaid") }, word || { depth: "deep", full: "below the edge" }[key]), input, unit, problem);
  }

  given(key) {
    const { basin = {}, overflow_level: full } = this.pond;
    return key === "full" ? (full === undefined || basin.depth === undefined ? undefined : basin.depth - full) : basin[key];
  }

  isAssumed(key) { return (key === "full" ? "overflow_level" : "basin." + key) in this.assumed; }

  put(key, v) {
    const basin = (this.pond.basin = this.pond.basin || {}), full = this.given("full"), steps = this.begin.steps[units.system];
    if (key !== "full") {
      if (v === undefined) delete basin[key]; else basin[key] = v;
      delete this.assumed["basin." + key];
      if (key === "depth" && v !== undefined && full !== undefined) this.levels(full);
      if (key === "depth" && v === undefined && this.begun()) this.assume("basin", "depth", steps.depth);
      return;
    }
    delete this.assumed.overflow_level;
    if (v === undefined) { this.assumed.overflow_level = steps.full; this.levels(steps.full); } else this.levels(v);
  }

  // Full is so far below the edge; target and trigger keep their distance from it.
  levels(down) {
    const { pond } = this, before = pond.overflow_level;
    pond.overflow_level = pond.basin.depth - down;
    for (const name of ["target", "trigger", "intake"]) if (pond[name] !== undefined && before !== undefined) pond[name] += pond.overflow_level - before;
  }

  // ---- what is assumed

  begun() { const b = this.pond.basin || {}; return Boolean(b.table || b.contours || (b.length && b.width)); }

  assume(part, name, value) {
    const at = part ? (this.pond[part] = this.pond[part] || {}) : this.pond;
    at[name] = value;
    this.assumed[(part ? part + "." : "") + name] = value;
  }

  // Once there are sizes, all that an answer needs is there.
  complete() {
    const { pond, begin } = this, steps = begin.steps[units.system];
    if (!this.begun() || !pond.basin.length) return;
    if (pond.basin.shape === undefined) this.assume("basin", "shape", begin.assumed.shape);
    if (pond.basin.depth === undefined) this.assume("basin", "depth", steps.depth);
    if (pond.overflow_level !== undefined) return;
    this.assumed.overflow_level = steps.full;
    if (pond.basin.side_slope === undefined) this.assume("basin", "side_slope", begin.assumed.side_slope);
    this.levels(steps.full);
    for (const name of ["target", "trigger"]) {
      pond[name] = pond.overflow_level - steps[name];
      this.assumed[name] = steps[name];
    }
  }

  said() {
    if (app.fresh) this.complete();
    this.mark();
    this.changed();
  }

  // What somebody else said is assumed no longer: a value that is not the one that was put.
  still(path) {
    const { pond } = this, { basin = {} } = pond, [part, name] = path.split(".");
    const now = path === "overflow_level" ? basin.depth - pond.overflow_level : name ? (pond[part] || {})[name] : pond.overflow_level - pond[path];
    return typeof now === "number" ? Math.abs(now - this.assumed[path]) < 1e-9 : now === this.assumed[path];
  }

  mark() {
    for (const at of this.root.querySelectorAll("[data-meaning]")) {
      const card = at.parentNode.querySelector("input:checked");
      at.textContent = card ? card.parentNode.title : "";
    }
    for (const path of Object.keys(this.assumed)) if (!this.still(path)) delete this.assumed[path];
    for (const badge of this.root.querySelectorAll("[data-assumed]")) {
      const key = badge.dataset.assumed, taken = key !== "size" && this.isAssumed(key);
      badge.hidden = !taken;
      badge.textContent = taken ? "assumed: " + this.shown(key) : "";
      const input = this.root.querySelector("#q-" + key);
      if (taken && input && input.value === "") input.placeholder = units.edit(this.given(key), units.asked(key === "full" ? "level" : "basin." + key, "m"));
    }
  }

  shown(key) {
    if (key === "shape") return this.pond.basin.shape;
    const asked = units.asked(key === "full" ? "level" : "basin." + key, "m");
    return `${units.edit(this.given(key), asked)} ${asked.label}`;
  }

  // Sentences of what an answer takes for granted.
  sentences() {
    const a = this.assumed, down = (m) => { const asked = units.asked("level", "m"); return `${units.edit(m, asked)} ${asked.label}`; }, out = [];
    if ("basin.shape" in a) out.push(`its shape, a ${a["basin.shape"]}`);
    if ("basin.area_factor" in a) out.push(`that it fills ${a["basin.area_factor"]} of length × width`);
    if ("basin.depth" in a) out.push(`${this.shown("depth")} of depth`);
    if ("basin.side_slope" in a) out.push(`walls that lean back 1 in ${Math.round(1 / a["basin.side_slope"])}`);
    if ("overflow_level" in a) out.push(`water ${this.shown("full")} below the edge when full`);
    if ("trigger" in a) out.push(`topping up from ${down(a.trigger)} to ${down(a.target)} below full`);
    const site = this.pond.site || {}, not = ["sun", "wind"].filter((k) => !site[k] || site[k] === "not described");
    if (not.length && app.fresh) out.push(`nothing of ${not.join(" and ")}`);
    return out;
  }

  // Says a refusal at the question whose answer it is about.
  refuse(message, field) {
    const key = { "basin.length": "length", "basin.width": "width", "basin.depth": "depth", overflow_level: "full" }[field];
    for (const box of this.root.querySelectorAll(".length")) {
      const input = box.querySelector("input");
      if (input.classList.contains("typed")) continue;
      const mine = Boolean(message) && input.id === "q-" + key;
      box.querySelector(".problem").textContent = mine ? message : "";
      input.setAttribute("aria-invalid", String(mine));
    }
  }

  typed() {
    const input = this.root.querySelector("input.typed");
    return input ? input.parentNode.querySelector(".problem").textContent : "";
  }
}
