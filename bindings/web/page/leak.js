// SPDX-License-Identifier: MIT
// The bucket test: the pond against a bucket that stands in it, pump off and on.

const leak = (() => {
  const { el } = form;
  const HALVES = [
    ["off", "Pump off", "the pond's shell and its edges"],
    ["on", "Pump on", "pond, stream, falls, bed and pipes together"],
  ];
  const FIELDS_OF = [
    ["hours", "Hours between the readings", "48 or more are better than 24", "h"],
    ["drop", "The pond fell by", "at the ruler", "m"],
    ["bucket", "The bucket fell by", "pond water, standing in the pond; blank: none stood", "m"],
    ["weather", "Else evaporation of a day", "open water, where no bucket stood", "mm/d"],
    ["rain", "Rain meanwhile", "any makes the test void", "mm"],
  ];
  const state = { off: {}, on: {}, month: new Date().getMonth() + 1, html: "" };

  function build() {
    const month = el("select", { id: "l-month", onchange: () => { state.month = Number(month.value); now(); } },
      ...charts.MONTHS.map((m, i) => el("option", { value: String(i + 1) }, m)));
    month.value = String(state.month);
    document.getElementById("leak-form").replaceChildren(
      el("p", { class: "hint" }, "Shut the top-up. Stand a bucket of pond water on a step, as deep in the pond as it can. Mark both levels. Two days with the pump off, two with it on, no rain; fish need air meanwhile."),
      form.line("l-month", "Month", "for the plants of the bed", month),
      ...HALVES.map(([half, title]) => el("div", { class: "group" }, el("h3", {}, title),
        ...FIELDS_OF.map(([name, words, what, unit]) => form.numberLine(`l-${half}-${name}`, words, what,
          name === "hours" ? { factor: 1, label: "h" } : units.asked(unit === "m" ? "size.diameter" : "", unit), () => state[half][name],
          (v) => { state[half][name] = v; now(); })))),
      el("p", { class: "hint" }, "A reading is taken to be good to a sixteenth of an inch (1.6 mm)."));
  }

  const read = (at) => core.read("estimate", at);
  const drops = (e) => units.range("depth", e.low / 1000, e.high / 1000);
  const volumes = (e) => units.range("volume", e.low, e.high);

  function half(title, what, given, h, matters) {
    const mm = read(h.unexplained_mm_d), m3 = read(h.unexplained_m3_d), verdict = core.say("verdict", h.verdict);
    let more = "";
    if (h.verdict !== 1) {
      more = ` This test finds a loss of ${units.show("depth", h.resolvable_mm_d / 1000)} a day or more nine times in ten.`;
      if (h.hours_needed < 1000 && h.hours_needed > given.hours) more += ` For ${units.show("depth", matters / 1000)} a day go on for ${Math.ceil(h.hours_needed / 12) * 12} h.`;
      else if (h.hours_needed >= 1000) more += ` No number of hours finds ${units.show("depth", matters / 1000)} a day here: evaporation is too uncertain. Choose a cool, calm spell, or cover bed and stream.`;
    }
    return `<section><h3>${esc(title)}: ${esc(verdict)}</h3><p>In ${units.number(given.hours, 0)} h the pond fell ${esc(units.show("depth", given.drop))}; evaporation explains ${esc(units.show("depth", h.expected))}. ` +
      `Unexplained: <strong>${esc(drops(mm))} a day</strong>, ${esc(volumes(m3))} a day, best ${esc(units.cell("volume", m3.mean))} (${esc(what)}).${esc(more)}</p></section>`;
  }

  // What to do next, in the words of the program.
  function next(r, off, on) {
    if (!off) return "Repeat with the pump off, for as long: it tells the pond's shell from all that the pump feeds. Let the level settle for an hour before the first reading. Fish need air meanwhile.";
    if (off.verdict === 1) return "The pond loses water with the pump off. Let it fall: where it settles marks the height. Look along the edge for soil, mulch or moss that touches the water, and at the lowest point of the liner.";
    if (!on) return "Repeat with the pump on, for as long: a loss that shows only then lies in stream, falls, bed or pipes, or is splash.";
    if (r.upper_verdict === 1) {
      const splash = read(core.must("splash"));
      return `More is lost while the pump runs. Lay cardboard along the falls to see where drops land; lead the pump's hose straight to the pond for two days: if the loss stops, it is stream or falls. If it is all splash, describe splash as ${units.number(units.value("rate", splash.mean), 1)} ${units.unit("rate")}.`;
    }
    return "Nothing is found that evaporation does not explain. Keep the four readings as the pond's own baseline.";
  }

  function render(r) {
    const matters = core.call("matters"), out = [];
    state.result = {};
    const halves = {};
    for (const [name, title, what] of HALVES) {
      if (!r["has_" + name]) continue;
      halves[name] = core.read("half", r[name]);
      state.result[name] = read(halves[name].unexplained_mm_d);
      out.push(half(title, what, state[name], halves[name], matters));
    }
    if (r.has_off && r.has_on) {
      const mm = read(r.upper_mm_d), m3 = read(r.upper_m3_d);
      out.push(`<section><h3>On minus off: ${esc(core.say("verdict", r.upper_verdict))}</h3><p>${esc(drops(mm))} a day, ${esc(volumes(m3))} a day, best ${esc(units.cell("volume", m3.mean))}: stream, falls, bed, pipes and splash, which this test cannot tell apart.</p></section>`);
    }
    out.push(`<section><h3>Next</h3><p>${esc(next(r, halves.off, halves.on))}</p>
      <p class="note">Ranges hold the truth nine times in ten. The bucket takes the weather out of the answer; what it leaves is the error of four readings, and that a bucket is not quite a pond.</p></section>`);
    state.html = out.join("");
    document.getElementById("leak-results").innerHTML = state.html;
  }

  function now() {
    const error = document.getElementById("leak-error"), results = document.getElementById("leak-results");
    const given = HALVES.filter(([name]) => state[name].hours > 0 && state[name].drop !== undefined);
    error.hidden = true;
    state.html = "";
    if (!given.length) {
      results.innerHTML = `<h3>The bucket test</h3><p>Enter the hours and how far pond and bucket fell, in one half of the test or in both.</p>
        <p class="note">The pump keeps bed and stream full, so all that they lose shows in the pond. A test with the pump off and one with it on tells the shell from what the pump feeds.</p>`;
      return;
    }
    try {
      describe.apply(app.pond);
      core.call("pair");
      core.must("set", "pair", "month", 0, state.month);
      for (const [name] of given) {
        for (const field of Object.keys(state[name])) {
          if (state[name][field] !== undefined) core.must("set", name, field, 0, state[name][field]);
        }
      }
      render(core.read("pair", core.must("pair_result")));
      results.classList.remove("stale");
    } catch (e) {
      if (!(e instanceof Mistake)) throw e;
      error.textContent = e.message;
      error.hidden = false;
      results.classList.add("stale");
    }
  }

  function open() {
    logbook.build();
    logbook.now();
    build();
    now();
  }

  return { open, refresh: now, html: () => state.html, state };
})();
