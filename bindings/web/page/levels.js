// SPDX-License-Identifier: MIT
// Pictures of levels as SVG: a log beside what weather explains, and the level
// day by day for files that hold no script.

const levels = (() => {
  const H = 300, X = 52, R = 8, TOP = 24, BOTTOM = 26;

  // Scales of a picture over days and depths; depths grow upward to 'high'.
  function scales(W, first, last, low, high) {
    const days = Math.max(1e-9, last - first), span = Math.max(1e-9, high - low);
    return { x: (day) => X + (day - first) / days * (W - X - R), y: (v) => TOP + (high - v) / span * (H - TOP - BOTTOM) };
  }

  function frame(W, { x, y }, first, last, low, high, label, inner) {
    let dates = "", before = -Infinity;
    const step = Math.max(1, Math.ceil((last - first) / Math.max(1, Math.floor((W - X) / 110))));
    for (let day = Math.ceil(first); day <= last; day += step) {
      if (x(day) - before < 100 || x(day) > W - 70) continue;
      before = x(day);
      dates += `<path d="M${x(day).toFixed(1)} ${H - BOTTOM}v5" style="stroke:var(--faint)"/><text x="${x(day).toFixed(1)}" y="${H - 8}">${ledger.dateText(day)}</text>`;
    }
    return `<svg class="chart" viewBox="0 0 ${W} ${H}" role="img" aria-label="${esc(label)}">
      ${charts.axis(charts.ticks(low, high, 5), y, X, W - R, charts.depth)}${inner}${dates}
      <path d="M${X} ${H - BOTTOM}H${W - R}" style="stroke:var(--ink)"/><text x="2" y="11">${esc(units.unit("depth"))} under the overflow</text></svg>`;
  }

  const line = (points) => "M" + points.map(([a, b]) => `${a.toFixed(1)} ${b.toFixed(1)}`).join("L");

  // Stretches of a log's points, each from a reading on which the ledger was set.
  function stretches(points) {
    const out = [];
    for (const p of points) {
      if (p.begins || !out.length) out.push([]);
      out[out.length - 1].push(p);
    }
    return out;
  }

  // points as the library's tarn_leak_path gives them
  function log(points, lip, label) {
    const W = charts.width(), depth = (l) => -units.value("depth", lip - l);
    const all = [].concat(...points.map((p) => [p.low, p.high, p.logged].filter((l) => !Number.isNaN(l)).map(depth)));
    const margin = (Math.max(...all) - Math.min(...all)) * 0.05, low = Math.min(...all) - margin, high = Math.max(...all) + margin;
    const first = points[0].day, last = points[points.length - 1].day, { x, y } = scales(W, first, last, low, high);
    let out = "";
    for (const piece of stretches(points)) {
      if (piece.length < 2) continue;
      const band = piece.map((p) => [x(p.day), y(depth(p.high))]).concat(piece.slice().reverse().map((p) => [x(p.day), y(depth(p.low))]));
      out += `<path d="${line(band)}Z" style="fill:var(--water-soft)"/><path d="${line(piece.map((p) => [x(p.day), y(depth(p.expected))]))}" style="fill:none;stroke:var(--water);stroke-width:2"/>`;
    }
    for (const p of points) {
      if (!Number.isNaN(p.logged)) out += `<circle cx="${x(p.day).toFixed(1)}" cy="${y(depth(p.logged)).toFixed(1)}" r="3.5" style="fill:var(--warn)"><title>${ledger.dateText(Math.floor(p.day))}: ${esc(units.show("depth", lip - p.logged))} under the overflow, ${esc(units.show("depth", lip - p.expected))} expected</title></circle>`;
    }
    return `${frame(W, { x, y }, first, last, low, high, label, out)}<ul class="key" aria-hidden="true"><li><i style="background:var(--warn)"></i>as logged</li>
      <li><i style="background:var(--water)"></i>ledger, weather alone</li><li><i style="background:var(--water-soft)"></i>what weather explains, 90 %, from a stretch's first reading</li></ul>`;
  }

  // Highest and lowest of the days that share a column of the picture.
  function columns(d, from, x, y, depth) {
    const out = [];
    let at = -1, low = 0, high = 0;
    const put = () => { if (at >= 0) out.push([at, y(high)], [at, y(low)]); };
    for (let i = 0; i < d.level.length; i++) {
      const column = Math.round(x(d.day[i])), v = depth(d.level[i]);
      if (column !== at) { put(); at = column; low = high = v; }
      low = Math.min(low, v);
      high = Math.max(high, v);
    }
    put();
    return out;
  }

  // The level of a job, day by day.
  function daily(job, label) {
    const W = charts.width(), d = job.days, depth = (l) => -units.value("depth", job.pond.lip - l);
    const marks = charts.levels(job), low = Math.min(...marks.map((m) => depth(m[1])), d.level.reduce((a, l) => Math.min(a, depth(l)), 0)) * 1.08, high = -low * 0.05;
    const s = scales(W, job.first, job.last, low, high), points = columns(d, job.first, s.x, s.y, depth);
    const lines = marks.map(([name, l, color]) => `<path d="M${X} ${s.y(depth(l)).toFixed(1)}H${W - R}" style="stroke:var(${color});stroke-dasharray:5 4"/><text x="${X + 6}" y="${(s.y(depth(l)) + 13).toFixed(1)}" class="ink halo">${name}</text>`);
    return frame(W, s, job.first, job.last, low, high, label, `<path d="${line(points)}" style="fill:none;stroke:var(--water);stroke-width:1.2"/>${lines.join("")}`);
  }

  return { log, daily };
})();
