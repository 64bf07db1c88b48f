// SPDX-License-Identifier: MIT
// What a weather file may have to be told: units, gaps, place, columns.

const questions = (() => {
  const { el } = form;
  let changed = () => {};

  function select(id, choices, value, put) {
    const s = el("select", { id, onchange: () => { put(s.value); changed(); } }, ...choices.map(([v, words]) => el("option", { value: v }, words)));
    s.value = value;
    return s;
  }

  function answer(key, id, words, what, entry) {
    return el("div", { class: "answer", "data-answer": key }, el("label", { for: id }, words, what ? el("span", { class: "what hint" }, " " + what) : null), entry);
  }

  function number(key, id, words, what) {
    const a = weather.state.answers;
    const input = el("input", { type: "text", id, inputmode: "decimal", size: 7, onchange: () => {
      const v = units.parse(input.value, { factor: 1 });
      a[key] = key === "bridge" ? (v > 0 ? Math.round(v) : 0) : v;
      changed();
    } });
    const v = a[key];
    input.value = Number.isNaN(v) || (key === "bridge" && v === 0) ? "" : String(v);
    return answer(key, id, words, what, input);
  }

  // Which heading is which column, for a layout that is not recognised.
  function columns() {
    const a = weather.state.answers, list = weather.columnList(), { names, sample } = weather.headings();
    const used = (column) => (a.columns[column] || {}).name;
    const box = el("details", { "data-answer": "columns", open: a.layout === "none" }, el("summary", {}, "Say which column is which"));
    box.append(el("p", { class: "hint" }, "Only needed where the headings are not recognised. A unit is never guessed."));
    const take = (name, column) => {
      for (const c of Object.keys(a.columns)) if (a.columns[c].name === name) delete a.columns[c];
      if (a.date === name) a.date = "";
      if (column === "date") a.date = name;
      else if (column) a.columns[column] = { name, unit: "" };
      a.layout = a.date || Object.keys(a.columns).length ? "none" : "";
      build();
      changed();
    };
    names.forEach((name, i) => {
      const mine = a.date === name ? "date" : list.map((c) => c.name).find((c) => used(c) === name) || "";
      const pick = el("select", { id: `q-column-${i}`, onchange: () => take(name, pick.value) },
        el("option", { value: "" }, "not used"), el("option", { value: "date" }, "date"),
        ...list.map((c) => el("option", { value: c.name }, c.meaning)));
      pick.value = mine;
      box.append(answer("", `q-column-${i}`, name, sample[i] ? `such as ${sample[i]}` : "", pick));
      const column = list.find((c) => c.name === mine);
      if (column) {
        box.append(answer("", `q-unit-${i}`, "", "in", select(`q-unit-${i}`, [["", "unit?"]].concat(column.units.map((u) => [u, u])),
          a.columns[mine].unit || "", (v) => { a.columns[mine].unit = v; })));
      }
      if (mine === "date") {
        const formats = [["", "2024-01-31"], ["%Y/%m/%d", "2024/01/31"], ["%m/%d/%Y", "1/31/2024 (US)"], ["%d/%m/%Y", "31/1/2024"],
          ["%d.%m.%Y", "31.1.2024"], ["%Y%m%d", "20240131"]];
        box.append(answer("", "q-format", "", "written as", select("q-format", formats, a.format, (v) => { a.format = v; })));
      }
    });
    for (const label of box.querySelectorAll("label")) if (label.firstChild && !label.textContent.trim()) label.append("unit");
    return box;
  }

  function build() {
    const a = weather.state.answers, root = document.getElementById("question-form");
    if (!weather.state.bytes) { root.replaceChildren(el("p", { class: "hint" }, "Open a weather file first.")); return; }
    root.replaceChildren(
      answer("units", "q-units", "Units in the file", "if it does not carry them", select("q-units",
        [["", "as the file says"], ["standard", "inch, F, mph"], ["metric", "mm, C, m/s"], ["tenths", "tenths of metric"]], a.units, (v) => { a.units = v; })),
      answer("totals", "q-totals", "Rain totals of several days", "", select("q-totals",
        [["", "leave the days missing"], ["spread", "spread over the days"], ["last", "all on the last day"]], a.totals, (v) => { a.totals = v; })),
      number("bridge", "q-bridge", "Bridge gaps of up to", "days, never rain"),
      answer("dryGaps", "q-dry", "Take missing rain as dry", "", (() => {
        const input = el("input", { type: "checkbox", id: "q-dry", onchange: () => { a.dryGaps = input.checked; changed(); } });
        input.checked = a.dryGaps;
        return input;
      })()),
      number("latitude", "q-latitude", "Latitude of the station", "degrees, north positive"),
      number("elevation", "q-elevation", "Its elevation", "m"),
      number("windHeight", "q-wind", "Height of its wind gauge", "m"),
      columns());
  }

  // Opens the form at the answer that a message asks for.
  function ask(key) {
    document.getElementById("questions").open = true;
    for (const box of document.querySelectorAll("#question-form .asked")) box.classList.remove("asked");
    const box = document.querySelector(`#question-form [data-answer="${key}"]`);
    if (!box) return;
    box.classList.add("asked");
    if (box.tagName === "DETAILS") box.open = true;
  }

  // What the answer of that key is called.
  function labelOf(key) {
    const box = document.querySelector(`#question-form [data-answer="${key}"]`);
    return box ? box.querySelector("summary, label").firstChild.textContent : "";
  }

  return { build, ask, labelOf, onChange(f) { changed = f; } };
})();
