// The designer's bed: sliders, every rule side by side, and a map of trade-offs.
// The plan begins with what the description says and is a draft of its own
// until it is written into the pond.

const bed = (() => {
  const { el } = form;
  // Values are SI; 'at' is the field of the description. Sliders run over the
  // logarithm where 'log' is set.
  const SLIDERS = [
    { name: "flow", at: ["bed", "flow"], words: "Flow through the bed", lo: 5e-5, hi: 0.012, log: true, start: 0.0019, show: (v) => units.show("flow", v) },
    { name: "loading", at: ["bed", "loading"], words: "Surface loading", what: "flow over plan area: the size hangs on it", lo: 0.1, hi: 200, log: true, start: 30, find: true, show: (v) => `${units.number(v, v < 10 ? 2 : 0)} m/d = ${units.cell("loading", v)} ${units.unit("loading")}` },
    { name: "depth", at: ["bed", "depth"], words: "Depth of wet gravel", lo: 0.15, hi: 1.5, start: 0.6, stone: true, show: (v) => units.show("layer", v) },
    { name: "diameter", at: ["bed", "diameter"], words: "Size of the stone", lo: 0.003, hi: 0.06, log: true, start: 0.016, stone: true, show: (v) => units.show("stone", v) },
    { name: "porosity", at: ["bed", "porosity"], words: "Voids between the stones", lo: 0.28, hi: 0.5, start: 0.38, stone: true, show: (v) => `${units.number(v * 100, 0)} %` },
    { name: "clogging", at: ["bed", "clogging"], words: "Clogging to plan for", what: "head lost when due for cleaning, over clean", lo: 1, hi: 100, log: true, start: 10, show: (v) => units.number(v, 0) + " times" },
    { name: "temp", at: ["water", "temp"], words: "Temperature of the water", lo: 2, hi: 32, start: 20, show: (v) => (units.system === "us" ? `${units.number(v * 1.8 + 32, 0)} °F` : `${units.number(v, 0)} °C`) },
    { name: "feed", at: ["fish", "feed"], words: "Fish feed a day", what: "none: sized by loading alone", lo: 0, hi: 0.4, start: 0, show: (v) => (v < 1e-3 ? "none" : units.system === "us" ? `${units.number(v / units.factor("lb") * 16, 1)} oz` : `${units.number(v * 1000, 0)} g`) },
    { name: "ammonia", at: ["treatment", "ammonia"], words: "Ammonia wanted in the pond", what: "as nitrogen, when steady", lo: 0.05, hi: 2, log: true, start: 0.5, fish: true, show: (v) => `${units.number(v, 2)} mg/L` },
  ];
  const NUMBERS = [
    { name: "cover", at: ["bed", "cover"], words: "Dry stone over the water", unit: "m", asked: "level", start: 0.05 },
    { name: "spare_head", at: ["bed", "spare_head"], words: "Head to spare", what: "what the pump has left; blank: not judged", unit: "m", asked: "level" },
    { name: "surface_share", at: ["bed", "surface_share"], words: "Share of the pond's surface wanted", what: "0.2 is 20 %", unit: "-" },
    { name: "volume_share", at: ["bed", "volume_share"], words: "Share of its volume wanted", what: "stone and all", unit: "-" },
    { name: "max_area", words: "Largest that fits", what: "for this page only; blank: not judged", unit: "m2" },
  ];
  const state = { values: {}, rate: -1, direction: "upflow", judge: false };

  // What the description says, else what this page begins with.
  function load() {
    const d = app.pond, given = (at) => (at && d[at[0]] ? d[at[0]][at[1]] : undefined), area = core.read("pond", core.call("pond")).bed_area;
    for (const f of SLIDERS.concat(NUMBERS)) {
      const v = given(f.at);
      state.values[f.name] = v === undefined ? f.start : v;
    }
    const pumped = core.read("pond", core.call("pond")).flow;	// as described, or as pump and pipes give it
    if (given(["bed", "flow"]) === undefined && pumped > 0) state.values.flow = pumped;
    if (given(["fish", "feed"]) === undefined && given(["fish", "mass"]) > 0) state.values.feed = feedOf(d.fish);
    if (d.bed && given(["bed", "cover"]) === undefined) state.values.cover = undefined;
    state.direction = given(["bed", "direction"]) || "upflow";
    const rate = rates().find((r) => r.name === given(["treatment", "rate"]));
    state.rate = rate ? rate.i : given(["treatment", "k"]) > 0 ? DESCRIBED : NONE;
    state.judge = area > 0;
  }

  const NONE = -1, DESCRIBED = -2;

  // Feed a day that the mass of fish means.
  function feedOf(fish) {
    core.call("waste");
    put("waste", "fish_kg", fish.mass);
    put("waste", "ration", fish.ration);
    put("waste", "temp", state.values.temp);
    return core.read("waste", core.must("waste_result")).feed_g / 1000;
  }

  // The plan becomes part of the description; the ledger then counts the bed.
  function write(check) {
    const d = app.pond, v = state.values, layers = d.bed && d.bed.layers;
    const put = (section, name, x) => {
      if (x === undefined || Number.isNaN(x)) return;
      d[section] = d[section] || {};
      d[section][name] = x;
    };
    for (const f of SLIDERS) {
      if (f.stone && layers || f.name === "feed" || f.fish) continue;
      put(f.at[0], f.at[1], v[f.name]);
    }
    for (const n of NUMBERS) if (n.at) put(n.at[0], n.at[1], v[n.name]);
    if (v.feed >= 1e-3) {
      put("fish", "feed", v.feed);
      put("treatment", "ammonia", v.ammonia);
      if (state.rate >= 0) {
        delete (d.treatment || {}).k;
        put("treatment", "rate", core.read("rate", core.call("rate", state.rate)).name);
      }
    }
    put("bed", "direction", state.direction);
    delete d.bed.length;
    delete d.bed.width;
    put("bed", "area", check.area);
  }

  const STEPS = 1000;
  const toStep = (s, v) => Math.round(STEPS * (s.log ? Math.log(v / s.lo) / Math.log(s.hi / s.lo) : (v - s.lo) / (s.hi - s.lo)));
  const fromStep = (s, n) => (s.log ? s.lo * Math.pow(s.hi / s.lo, n / STEPS) : s.lo + (s.hi - s.lo) * n / STEPS);

  function rates() {
    const list = [];
    for (let i = 0, at; (at = core.call("rate", i)); i++) list.push(Object.assign({ i }, core.read("rate", at)));
    return list.filter((r) => r.parameter === "ammonia" && !Number.isNaN(r.k_m_yr));
  }

  const layers = () => app.pond.bed && app.pond.bed.layers;
  const hidden = (s) => Boolean((s.fish && !(state.values.feed >= 1e-3)) || (s.stone && layers()) || (s.find && state.judge));

  function slider(s) {
    const id = "b-" + s.name, out = el("output", { id: id + "-out", for: id });
    const input = el("input", { type: "range", id, min: 0, max: STEPS, step: 1 });
    const show = () => {
      out.textContent = s.show(state.values[s.name]);
      input.setAttribute("aria-valuetext", out.textContent);
    };
    input.value = toStep(s, state.values[s.name]);
    input.addEventListener("input", () => {
      state.values[s.name] = fromStep(s, Number(input.value));
      show();
      update();
    });
    show();
    return el("div", { class: "slider", hidden: hidden(s), "data-slider": s.name },
      el("div", { class: "top" }, el("label", { for: id }, s.words), out), s.what ? el("p", { class: "what" }, s.what) : null, input);
  }

  // Size the bed, or judge the one that the description has.
  function question() {
    const area = core.read("pond", core.call("pond")).bed_area;
    if (!(area > 0)) return null;
    const pick = el("select", { id: "b-question", onchange: () => {
      state.judge = pick.value === "judge";
      if (!state.judge && state.check) state.values.loading = Math.min(200, Math.max(0.1, state.check.loading));
      build();
      update();
    } },
      el("option", { value: "find" }, "how large must it be?"), el("option", { value: "judge" }, `does ${units.show("area", area)} do?`));
    pick.value = state.judge ? "judge" : "find";
    return form.line("b-question", "Question", "", pick);
  }

  function build() {
    const root = document.getElementById("bed-form"), v = state.values;
    const way = el("select", { id: "b-direction", onchange: () => { state.direction = way.value; update(); } },
      el("option", { value: "upflow" }, "up through the gravel"), el("option", { value: "horizontal" }, "side to side"));
    way.value = state.direction;
    const rate = el("select", { id: "b-rate", onchange: () => { state.rate = Number(rate.value); update(); } },
      el("option", { value: String(NONE) }, "none taken"), (app.pond.treatment || {}).k > 0 ? el("option", { value: String(DESCRIBED) }, `as described, ${units.number(app.pond.treatment.k, 0)} m/yr`) : "", ...rates().map((r) => el("option", { value: String(r.i) }, `${r.name}, ${units.number(r.k_m_yr, 0)} m/yr`)));
    rate.value = String(state.rate);
    const rateLine = form.line("b-rate", "Removal rate of ammonia", "published, from beds far slower than a garden's", rate);
    rateLine.dataset.slider = "ammonia";
    rateLine.hidden = hidden({ fish: true });
    root.replaceChildren(...[
      question(), form.line("b-direction", "Way of the water", "", way), ...SLIDERS.map(slider), rateLine,
      layers() ? el("p", { class: "note" }, `The stone is the description's ${layers().length} layers.`) : null,
      ...NUMBERS.map((n) => form.numberLine("b-" + n.name, n.words, n.what, units.asked(n.asked || "size." + n.name, n.unit), () => v[n.name],
        (x) => { v[n.name] = x; update(); })),
      el("p", {}, el("button", { type: "button", id: "b-write", onclick: () => { write(state.check); shown = null; app.changed(); open(); } }, "Write this plan into the pond")),
      el("p", { class: "hint" }, "Its area and stone then count in the water ledger, and are saved with the pond."),
    ].filter(Boolean));
  }

  // The layers as far as they are under water.
  function wetLayers(cover) {
    let dry = cover;
    const out = [];
    for (const layer of layers().slice().reverse()) {
      const cut = Math.min(dry, layer.thickness), left = layer.thickness - cut;
      dry -= cut;
      if (left > 1e-9) out.unshift(Object.assign({}, layer, { thickness: left }));
    }
    return out;
  }

  const put = (section, name, x) => { if (x !== undefined && x !== null && !Number.isNaN(x)) core.must("set", section, name, 0, x); };

  // Hands the plan to the library: everything but the area.
  function set(facts) {
    const v = state.values, d = app.pond, water = d.water || {}, fish = d.fish || {}, given = d.treatment || {}, cover = v.cover || 0;
    core.call("size_begin", v.temp);
    for (const name of ["flow", "clogging", "max_area", "surface_share", "volume_share"]) put("size", name, v[name]);
    if (!state.judge) put("size", "loading", v.loading);
    put("size", "direction", state.direction === "upflow" ? 0 : 1);
    put("size", "pond_area", facts.lip_area);
    put("size", "pond_volume", facts.lip_volume);
    put("size", "oxygen", water.oxygen);
    put("size", "elevation", water.elevation);
    put("size", "freeboard", cover);
    put("size", "head", v.spare_head === undefined && d.bed ? d.bed.drop : v.spare_head);
    put("size", "outlet_head", d.bed ? d.bed.head : undefined);
    if (layers()) {
      describe.setLayers(wetLayers(cover));
      core.call("size_layers");
    } else {
      for (const name of ["depth", "diameter", "porosity"]) put("size", name, v[name]);
      put("size", "sphericity", d.bed ? d.bed.sphericity : undefined);
    }
    if (!(v.feed >= 1e-3)) return;
    core.call("waste");
    put("waste", "feed_g", v.feed * 1000);
    put("waste", "protein", fish.protein);
    put("waste", "temp", v.temp);
    const load = core.read("waste", core.must("waste_result"));
    for (const name of ["ammonia_g", "bod_g", "solids_g"]) put("size", name, load[name]);
    if (state.rate === NONE) return;
    if (state.rate === DESCRIBED) for (const [to, from] of [["k_m_yr", "k"], ["k_low", "k_low"], ["k_high", "k_high"], ["theta", "theta"], ["tanks", "tanks"]]) put("size", to, given[from]);
    else core.must("size_rate", state.rate);
    put("size", "background", given.background);
    put("size", "pond_target", v.ammonia);
  }

  const WATER_ON_GRAVEL = 1 << 10;

  // Sizes by every rule; a short way to the lip keeps the gravel dry.
  function solve(facts) {
    set(facts);
    const area = core.read("pond", core.call("pond")).bed_area;
    if (state.judge && area > 0) {
      core.must("set", "size", "area", 0, area);
      put("size", "width", app.pond.bed.width);
      return core.read("sized", core.must("size"));
    }
    const needed = core.read("sized", core.must("size")).needed;
    let sized;
    for (const ratio of [2, 3, 4, 6]) {
      core.must("set", "size", "area", 0, needed);
      put("size", "width", Math.sqrt(ratio * needed));
      sized = core.read("sized", core.must("size"));
      if (!(core.read("check", sized.bed).flags & WATER_ON_GRAVEL)) break;
    }
    return sized;
  }

  function flagsOf(bits) {
    const refusals = core.call("refusals") >>> 0, list = [];
    for (let b = 0; b < 32; b++) {
      const text = bits & (1 << b) ? core.say("flag_text", b) : null;
      if (text) list.push({ text, refused: Boolean(refusals & (1 << b)) });
    }
    return list;
  }

  function space(lo, hi, n) {
    return Array.from({ length: n }, (_, i) => lo * Math.pow(hi / lo, i / (n - 1)));
  }

  // Every area x depth at this flow, as the library judges them.
  function tradeoff(check) {
    const nx = 41, ny = 21, low = 0.15, high = Math.max(1.5, check.depth * 1.1);
    const areas = space(check.area / 5, check.area * 5, nx), depths = Array.from({ length: ny }, (_, i) => low + (high - low) * i / (ny - 1));
    const refusals = core.call("refusals") >>> 0, doubt = 1 << 14 | 1 << 16 | 1 << 20 | 1, cells = [];
    core.lend([0].concat(depths), (at) => {
      for (const area of areas) {
        core.put(at, [area]);
        put("size", "width", area / check.length);
        const c = core.columns("check", core.must("tradeoff", at, 1, at + 8, ny, check.flow), ny);
        for (let k = 0; k < ny; k++) {
          const flags = c.flags[k];
          cells.push({ flags, mass: c.mass[k], loading: c.loading[k], refused: (flags & refusals) !== 0, doubtful: (flags & doubt) !== 0 });
        }
      }
    });
    return { areas, depths, cells, here: { x: 0.5, y: Math.max(0, Math.min(1, ((check.depth - low) / (high - low) * (ny - 1) + 0.5) / ny)) } };
  }

  function rulesTable(sized) {
    const rows = [];
    sized.areas.forEach((area, i) => {
      if (Number.isNaN(area)) return;
      rows.push([`${i === sized.governs ? "<strong>" : ""}${esc(core.say("size_rule", i, 1))}${i === sized.governs ? "</strong>, governs" : ""}`, units.cell("area", area), esc(core.say("size_rule", i, 2))]);
    });
    return water.table("Area of the bed by every rule that the plan allows", ["Rule", `Area<br>${units.unit("area")}`, "Standing"], rows);
  }

  function regimes() {
    const list = [];
    for (let i = 0, at; (at = core.call("regime", i)); i++) list.push(core.read("regime", at));
    return list;
  }

  function regimeTable(sized) {
    return water.table("What each practice would ask for at this flow", ["Practice", `Loading<br>m/d`, `Area<br>${units.unit("area")}`, "Standing"],
      regimes().map((r, i) => [esc(r.meaning), `${units.number(r.low, 1)} to ${units.number(r.high, 1)}`, `${units.cell("area", sized.regime_low[i])} to ${units.cell("area", sized.regime_high[i])}`, esc(core.say("evidence", r.evidence))]));
  }

  function render(sized, map) {
    const c = state.check, flags = flagsOf(c.flags), bad = flags.filter((f) => f.refused);
    const fits = map.cells.filter((x) => !x.refused).length;
    document.getElementById("bed-headline").innerHTML = `<p>A bed of <strong>${esc(units.show("area", c.area))}</strong>, ${esc(units.show("layer", c.depth))} deep, ` +
      `holds ${esc(units.show("rock", c.volume))} of stone and voids (<strong>${esc(units.show("mass", c.mass))}</strong> dry)${bad.length ? ", <span class=\"no\">and does not do its job as planned</span>" : ""}.</p>`;
    const list = [
      ["Water in the bed", units.show("volume", c.water)], ["Time in the bed", `${units.number(c.residence / 60, 1)} min`],
      ["Head lost, clean", units.show("depth", c.clean)], ["Head lost, clogged", units.show("depth", c.clogged)],
      ["Of the pond's surface", `${units.number(c.surface_share * 100, 0)} %`], ["Of the pond's volume, stone and all", `${units.number(c.volume_share * 100, 0)} %`],
      ["Pond volumes an hour", units.number(c.turnover, 2)], ["Times the loading of a slow sewage bed", units.number(c.sewage_factor, 0)],
    ];
    if (!Number.isNaN(c.pond)) list.push(["Ammonia in the pond, when steady", `${units.number(c.pond, 2)} mg/L`]);
    if (!Number.isNaN(c.oxygen_out)) list.push(["Oxygen at the outlet", `${units.number(c.oxygen_out, 1)} mg/L`]);
    document.getElementById("bed-results").innerHTML = `<dl class="figures">${list.map(([dt, dd]) => `<div><dt>${esc(dt)}</dt><dd>${esc(dd)}</dd></div>`).join("")}</dl>
      ${flags.length ? `<section><h3>What the figures do not say by themselves</h3><ul>${flags.map((f) => `<li${f.refused ? ' class="no"' : ""}>${f.refused ? "Refused: " : ""}${esc(f.text)}.</li>`).join("")}</ul></section>` : ""}
      <section><h3>Where this loading stands</h3><figure>${charts.loading(regimes(), c.loading, `Surface loading of this bed, ${units.number(c.loading, 2)} m/d, among the usual ranges; the table below has them`)}</figure>${regimeTable(sized)}</section>
      <section><h3>The area, by each rule</h3>${rulesTable(sized)}</section>
      <section><h3>Area against depth</h3><figure id="tradeoff">${charts.tradeoff(map, `Map of beds by area and depth at this flow: ${fits} of ${map.cells.length} do their job; this bed is in the middle`)}
      <ul class="key"><li><i style="background:var(--water)"></i>does its job</li><li><i style="background:var(--water-soft)"></i>does it, with a doubt (loading, load or rule)</li><li><i style="background:var(--warn-soft)"></i>refused</li></ul>
      <figcaption>Each cell is a bed of that area and depth at the same flow, judged by the same checks; lines join beds of the same weight of dry stone. The ring is this bed. Click to try another.</figcaption></figure></section>
      <section><p class="note">Most removal rates come from beds fed a hundred times more slowly than a garden's. Rock is heavy and holes cave in: walls, footings and slopes are a matter of local codes and licensed practice.</p></section>`;
  }

  let asked = 0;

  // One redraw a frame, however fast the slider moves.
  function update() {
    if (asked) return;
    asked = requestAnimationFrame(() => { asked = 0; now(); });
  }

  function now() {
    const error = document.getElementById("bed-error"), results = document.getElementById("bed-results"), begun = performance.now();
    for (const box of document.querySelectorAll("#bed-form [data-slider]")) box.hidden = hidden(SLIDERS.find((s) => s.name === box.dataset.slider));
    try {
      describe.apply(app.pond);
      const facts = core.read("facts", core.call("facts"));
      document.getElementById("bed-pond").textContent = `For ${app.pond.name || "the pond"} as described under Water: ${units.show("area", facts.lip_area)}, ${units.show("volume", facts.lip_volume)}.`;
      const sized = solve(facts);
      state.check = core.read("check", sized.bed);
      state.map = tradeoff(state.check);
      render(sized, state.map);
      error.hidden = true;
      results.classList.remove("stale");
    } catch (e) {
      if (!(e instanceof Mistake)) throw e;
      error.textContent = e.message;
      error.hidden = false;
      results.classList.add("stale");
    }
    app.timing.bed = performance.now() - begun;
  }

  // A click on the map takes that area and depth.
  function pick(event) {
    const svg = event.target.closest("#tradeoff svg"), map = state.map;
    if (!svg || state.judge) return;
    const place = charts.placeOf(svg, event, map);
    if (!place) return;
    state.values.loading = map.cells[place.i * map.depths.length + place.k].loading;
    if (!layers()) state.values.depth = map.depths[place.k];
    build();
    update();
  }

  let shown = null;

  function open() {
    try {
      describe.apply(app.pond);
      if (shown !== app.pond) load();
      shown = app.pond;
      build();
    } catch (e) {
      if (!(e instanceof Mistake)) throw e;
    }
    now();
  }

  document.getElementById("bed-results").addEventListener("click", pick);

  return { open, build, now, state };
})();
