// SPDX-License-Identifier: MIT
// The designer's question to the library: sizing by every rule, the room in the
// yard, the map of trade-offs. 'plan' is the draft of the chapter on the bed:
// { values, rate, direction, judge }.

const sizing = (() => {
  const NONE = -1, DESCRIBED = -2;		// removal rates that are no index
  const layers = () => app.pond.bed && app.pond.bed.layers;

  const put = (section, name, x) => { if (x !== undefined && x !== null && !Number.isNaN(x)) core.must("set", section, name, 0, x); };

  // Feed a day that the mass of fish means.
  function feedOf(fish, temp) {
    core.call("waste");
    put("waste", "fish_kg", fish.mass);
    put("waste", "ration", fish.ration);
    put("waste", "temp", temp);
    return core.read("waste", core.must("waste_result")).feed_g / 1000;
  }

  function rates() {
    const list = [];
    for (let i = 0, at; (at = core.call("rate", i)); i++) list.push(Object.assign({ i }, core.read("rate", at)));
    return list.filter((r) => r.parameter === "ammonia" && !Number.isNaN(r.k_m_yr));
  }

  const coverOf = (plan) => (plan.values.cover === undefined ? fields.row("bed", "cover").default : plan.values.cover);

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

  // All that is to be bought for such an area, the dry top too; null without
  // layers. Asked last: the library then holds all layers.
  function stackOf(area) {
    if (!layers()) return null;
    describe.setLayers(layers());
    return core.read("stack", core.must("stack", area));
  }

  // The largest bed that the described yard holds, null without a yard. The hole
  // is as deep as the bed where its depth is not given; that matters only
  // beside a footing. Turning the yard takes longer than all else here.
  const found = { key: "", room: null };
  function roomFor(plan) {
    const yard = app.pond.yard, cover = coverOf(plan);
    if (!yard) return null;
    const deep = layers() ? layers().reduce((sum, layer) => sum + layer.thickness, 0) : plan.values.depth + cover;
    const dig = yard.dig === undefined ? deep : yard.dig, walls = describe.corners(yard).some((c) => c.footing !== undefined);
    const key = JSON.stringify([yard, walls && dig]);
    put("yard", "dig", dig);
    if (key !== found.key) {
      found.room = core.read("fit", core.must("yard_fit"));
      found.key = key;
    }
    return found.room;
  }

  // Do the described sides lie in it? null where none are described.
  function lies(room) {
    const { length, width } = app.pond.bed || {};
    if (!room || length === undefined || width === undefined) return null;
    return Math.max(length, width) <= room.length * (1 + 1e-6) && Math.min(length, width) <= room.width * (1 + 1e-6);
  }

  // Hands the plan to the library: everything but the area.
  function set(plan, facts, room) {
    const v = plan.values, d = app.pond, water = d.water || {}, fish = d.fish || {}, given = d.treatment || {}, cover = coverOf(plan);
    core.call("size_begin", v.temp);
    for (const name of ["flow", "clogging", "surface_share", "volume_share"]) put("size", name, v[name]);
    put("size", "max_area", room ? room.area : v.max_area);
    put("size", "length", room ? room.width : undefined);
    if (!plan.judge) put("size", "loading", v.loading);
    put("size", "direction", plan.direction === "upflow" ? 0 : 1);
    put("size", "pond_area", facts.lip_area);
    put("size", "pond_volume", facts.lip_volume);
    put("size", "oxygen", water.oxygen);
    put("size", "elevation", water.elevation);
    put("size", "freeboard", cover);
    put("size", "head", v.spare_head === undefined && d.bed ? d.bed.drop : v.spare_head);
    // as described, or as the pond's own flow stands on the fall that is the bed's lip
    put("size", "outlet_head", core.read("pond", core.call("pond")).bed_head);
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
    if (plan.rate === NONE) return;
    if (plan.rate === DESCRIBED) for (const [to, from] of [["k_m_yr", "k"], ["k_low", "k_low"], ["k_high", "k_high"], ["theta", "theta"], ["tanks", "tanks"]]) put("size", to, given[from]);
    else core.must("size_rate", plan.rate);
    put("size", "background", given.background);
    put("size", "pond_target", v.ammonia);
  }

  // Width along the lip, as the room allows.
  function within(room, area, width) {
    return room ? Math.max(area / room.width, Math.min(room.length, width)) : width;
  }

  const WATER_ON_GRAVEL = 1 << 10;

  // Sizes by every rule; a short way to the lip keeps the gravel dry. As large
  // as needed, or as the yard holds.
  function solve(plan, facts, room) {
    const area = core.read("pond", core.call("pond")).bed_area, described = app.pond.bed || {};
    set(plan, facts, room);
    if (plan.judge && area > 0) {
      const inside = lies(room);
      if (inside !== null) put("size", "length", described.length);
      if (inside === false) put("size", "max_area", 1e-3);
      core.must("set", "size", "area", 0, area);
      put("size", "width", described.width);
      return core.read("sized", core.must("size"));
    }
    const needed = core.read("sized", core.must("size")).needed, wanted = room ? Math.min(needed, room.area) : needed;
    let sized;
    for (const ratio of [2, 3, 4, 6]) {
      core.must("set", "size", "area", 0, wanted);
      put("size", "width", within(room, wanted, Math.sqrt(ratio * wanted)));
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
  function tradeoff(check, room) {
    const nx = 41, ny = 21, low = 0.15, high = Math.max(1.5, check.depth * 1.1);
    const areas = space(check.area / 5, check.area * 5, nx), depths = Array.from({ length: ny }, (_, i) => low + (high - low) * i / (ny - 1));
    const refusals = core.call("refusals") >>> 0, doubt = 1 << 14 | 1 << 16 | 1 << 20 | 1, cells = [];
    core.lend([0].concat(depths), (at) => {
      for (const area of areas) {
        core.put(at, [area]);
        put("size", "width", within(room, area, area / check.length));
        const c = core.columns("check", core.must("tradeoff", at, 1, at + 8, ny, check.flow), ny);
        for (let k = 0; k < ny; k++) {
          const flags = c.flags[k];
          cells.push({ flags, mass: c.mass[k], loading: c.loading[k], refused: (flags & refusals) !== 0, doubtful: (flags & doubt) !== 0 });
        }
      }
    });
    return { areas, depths, cells, here: { x: 0.5, y: Math.max(0, Math.min(1, ((check.depth - low) / (high - low) * (ny - 1) + 0.5) / ny)) } };
  }

  function regimes() {
    const list = [];
    for (let i = 0, at; (at = core.call("regime", i)); i++) list.push(core.read("regime", at));
    return list;
  }

  return { NONE, DESCRIBED, layers, stackOf, feedOf, rates, roomFor, lies, solve, flagsOf, tradeoff, regimes };
})();
