// SPDX-License-Identifier: MIT
// The yard of the bed: a simple form, and whether the bed has room in it.

const yard = (() => {
  const { el } = form;
  const SIDES = ["near side, along the length", "right side", "far side", "left side"];
  const ROWS = [["length", "Length of the yard", "of a rectangle; blank: not asked"], ["width", "Its width", ""],
    ["setback", "Keep from every side", "setback"], ["dig", "Depth of the hole", "blank: as deep as the bed"]];

  function store(name, v) {
    app.pond.yard = app.pond.yard || {};
    if (v === undefined) delete app.pond.yard[name];
    else app.pond.yard[name] = v;
    const { length, width, corners } = app.pond.yard;
    if (length === undefined && width === undefined && !corners) delete app.pond.yard;
  }

  // Footing of the wall on a side, false where there is none.
  function storeFooting(i, v) {
    const list = ((app.pond.yard || {}).footings || []).slice();
    while (list.length <= i) list.push(false);
    list[i] = v === undefined ? false : v;
    while (list.length && list[list.length - 1] === false) list.pop();
    store("footings", list.length ? list : undefined);
  }

  // 'again' where the form changes, 'update' where only the answers do.
  function build(again, update) {
    const given = app.pond.yard || {}, unit = units.asked("yard.length", "m"), box = el("details", { class: "group", open: Boolean(app.pond.yard) });
    box.append(el("summary", {}, "Room in the yard"));
    const line = (id, words, what, get, put) => box.append(form.numberLine(id, words, what, unit, get, (v) => {
      const had = Boolean(app.pond.yard);
      put(v);
      app.keep();
      if (had !== Boolean(app.pond.yard)) again();
      else update();
    }));
    if (given.corners) box.append(el("p", { class: "note" }, `A yard of ${given.corners.length} corners, as described.`));
    for (const [name, words, what] of ROWS) {
      if (given.corners && (name === "length" || name === "width")) continue;
      line("y-" + name, words, what, () => (app.pond.yard || {})[name], (v) => store(name, v));
    }
    if (!given.corners && app.pond.yard) {
      SIDES.forEach((side, i) => line(`y-footing-${i}`, `Footing of a wall, ${side}`, "how deep it goes; blank: no wall", () => (((app.pond.yard || {}).footings || [])[i] || undefined), (v) => storeFooting(i, v)));
    }
    return box;
  }

  // The yard, the room that is left and the bed, seen from above.
  function picture(room, check, label) {
    const corners = describe.corners(app.pond.yard), xs = corners.map((c) => c.x), ys = corners.map((c) => c.y);
    const low = [Math.min(...xs), Math.min(...ys)], size = [Math.max(...xs) - low[0], Math.max(...ys) - low[1]];
    const W = charts.width(), H = Math.max(140, Math.min(300, W * size[1] / size[0])), M = 12, k = Math.min((W - 2 * M) / size[0], (H - 2 * M) / size[1]);
    const at = (x, y) => `${(M + (x - low[0]) * k).toFixed(1)} ${(H - M - (y - low[1]) * k).toFixed(1)}`;
    const outline = (points) => "M" + points.map(([x, y]) => at(x, y)).join("L") + "Z";
    const [ax, bx, dx] = [room.x[0], room.x[1], room.x[3]], [ay, by, dy] = [room.y[0], room.y[1], room.y[3]];
    // the bed from the room's first corner, its long side along the long one
    const long = Math.max(check.length, check.width), short = Math.min(check.length, check.width);
    const first = Math.hypot(bx - ax, by - ay), second = Math.hypot(dx - ax, dy - ay), turned = first < second;
    const along = (turned ? short : long) / first, across = (turned ? long : short) / second;
    const bed = [[0, 0], [along, 0], [along, across], [0, across]].map(([u, v]) => [ax + u * (bx - ax) + v * (dx - ax), ay + u * (by - ay) + v * (dy - ay)]);
    return `<svg class="chart" viewBox="0 0 ${W} ${H.toFixed(0)}" role="img" aria-label="${esc(label)}">
      <path d="${outline(corners.map((c) => [c.x, c.y]))}" style="fill:none;stroke:var(--ink);stroke-width:1.5"/>
      <path d="${outline(Array.from(room.x, (x, i) => [x, room.y[i]]))}" style="fill:var(--press);stroke:var(--faint);stroke-dasharray:5 4"/>
      <path d="${outline(bed)}" style="fill:var(--water-mid);stroke:var(--water);stroke-width:1.5;fill-opacity:.8"/></svg>
      <ul class="key" aria-hidden="true"><li><i style="background:var(--water-mid)"></i>the bed</li><li><i style="background:var(--press)"></i>the room that setbacks and footings leave</li></ul>`;
  }

  function answer(room, check, judge) {
    const inside = judge ? sizing.lies(room) : check.area <= room.area * (1 + 1e-6);
    const sides = `${units.cell("length", check.length)} by ${units.show("length", check.width)}`;
    const words = inside === null ? `Only the bed's area is described: whether its sides fit is not judged; ${units.show("area", check.area)} of ${units.show("area", room.area)}.`
      : inside ? `The bed, ${sides}, fits.` : `The bed, ${sides}, does not fit.`;
    const most = `Of ${units.show("area", room.yard_area)} the setbacks and footings leave room for ${units.show("length", room.length)} by ${units.show("length", room.width)} (${units.show("area", room.area)}) at most, turned ${units.number(room.angle, 0)} degrees from the yard's first side.`;
    return `<section><h3>In the yard</h3><p id="yard-verdict"${inside === false ? ' class="no"' : ""}>${esc(words)}</p><figure>${picture(room, check, `Plan of the yard with its room and the bed. ${words}`)}
      <figcaption>${esc(most)}</figcaption></figure>
      <p class="note">A hole keeps outside the line that falls at 45 degrees from a wall's footing. Whether a wall, a footing or a slope stands is for a licensed engineer and local codes.</p></section>`;
  }

  return { build, answer };
})();
