// SPDX-License-Identifier: MIT
// Small pictures of what a question means: a pond from the side, or its outline.

const picture = (() => {
  const path = (d, kind) => `<path d="${d}" class="${kind}"/>`;
  const ground = path("M2 36H70", "line");
  const pond = (from = 22, to = 50) => path(`M${from} 36q${(to - from) / 2} 16 ${to - from} 0z`, "water");
  const sun = (x, y, r) => `<circle cx="${x}" cy="${y}" r="${r}" class="sun"/>` + [0, 1, 2, 3, 4, 5, 6, 7].map((i) => {
    const c = Math.cos(i * Math.PI / 4), s = Math.sin(i * Math.PI / 4), at = (by) => `${(x + by * c).toFixed(1)} ${(y + by * s).toFixed(1)}`;
    return path(`M${at(r + 2)}L${at(r + 5)}`, "ray");
  }).join("");
  const tree = (x, top, wide) => path(`M${x} 36V${top + wide}`, "trunk") + `<ellipse cx="${x}" cy="${top + wide * 0.8}" rx="${wide}" ry="${wide * 0.8}" class="plant"/>`;
  const hedge = (x, wide) => `<rect x="${x}" y="31" width="${wide}" height="5" rx="2.5" class="plant"/>`;
  const wall = (x, top) => `<rect x="${x}" y="${top}" width="5" height="${36 - top}" class="stone"/>`;
  const house = (x) => path(`M${x} 36V22l8 -8 8 8V36z`, "stone") + `<rect x="${x + 6}" y="27" width="4" height="9" class="paper"/>`;
  const wind = (from, to, y) => path(`M${from} ${y}H${to}m-4 -3l4 3 -4 3`, "wind");
  const shade = (from, to) => path(`M${from} 36H${to}L${to + 1} 39H${from - 1}z`, "shade");
  const gauge = (x) => path(`M${x} 36V22M${x - 4} 22h8`, "line") + `<circle cx="${x}" cy="19" r="2.6" class="sun"/>`;
  const far = (words) => path("M24 30H50m-4 -3l4 3 -4 3M28 27l-4 3 4 3", "line") + `<text x="37" y="22" class="word">${words}</text>`;
  const unknown = '<text x="36" y="32" class="ask">?</text>';
  const outlines = { rectangle: '<rect x="14" y="10" width="44" height="24" class="water"/>', ellipse: '<ellipse cx="36" cy="22" rx="24" ry="13" class="water"/>',
    irregular: path("M14 20C14 6 30 12 36 11S62 4 60 20 48 36 38 33 28 38 20 33 14 26 14 20z", "water") };

  const DRAWN = {
    shape: outlines,
    sun: {
      "open sky": ground + pond() + sun(36, 14, 6), "mostly sunny": ground + pond() + sun(44, 13, 6) + tree(10, 14, 7),
      "half shade": ground + pond() + sun(54, 11, 5) + tree(19, 8, 12) + shade(24, 36), "mostly shade": ground + pond() + sun(63, 8, 4) + tree(14, 6, 12) + tree(42, 8, 12) + shade(24, 47),
      "under trees": ground + pond() + tree(16, 4, 13) + tree(36, 2, 13) + tree(56, 4, 13) + shade(23, 49),
    },
    wind: {
      "open field": ground + pond() + wind(6, 40, 12) + wind(20, 66, 19) + wind(6, 46, 26), "open lawn": ground + pond() + hedge(3, 14) + hedge(56, 13) + wind(8, 52, 15) + wind(18, 62, 23),
      "among houses": ground + pond(30, 54) + house(6) + hedge(59, 10) + wind(28, 60, 18), "walled yard": ground + pond() + wall(8, 20) + wall(59, 20) + wind(14, 58, 12),
      "under trees": ground + pond() + tree(9, 8, 9) + tree(62, 8, 9) + wind(22, 46, 6), "courtyard": ground + pond(26, 46) + wall(12, 5) + wall(55, 5),
    },
    surroundings: {
      lawn: ground + pond() + [5, 11, 17, 54, 60, 66].map((x) => path(`M${x} 36l-2 -6m2 6v-7m0 7l2 -6`, "grass")).join(""),
      paving: ground + pond() + [2, 12, 51, 61].map((x) => `<rect x="${x}" y="36" width="9" height="4" class="stone"/>`).join(""),
      "hot dry yard": ground + pond() + sun(14, 12, 6) + [4, 10, 16, 55, 60, 66].map((x, i) => `<circle cx="${x}" cy="${33 + (i % 2)}" r="1.8" class="stone"/>`).join("") + path("M52 28q3 -4 0 -8t0 -8M60 28q3 -4 0 -8t0 -8", "ray"),
    },
    station: { garden: ground + pond(30, 58) + gauge(16), "5 km": ground + pond(54, 70) + gauge(12) + far("3 mi"), "50 km": ground + pond(54, 70) + gauge(12) + far("30 mi"),
      farther: ground + pond(54, 70) + gauge(8) + path("M16 36L30 12 36 22 40 16 52 36z", "stone") },
  };

  // An element: what the word of a question looks like.
  return (key, word) => {
    const drawing = `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 72 44" class="scene" aria-hidden="true">${(DRAWN[key] || {})[word] || unknown}</svg>`;
    return document.importNode(new DOMParser().parseFromString(drawing, "image/svg+xml").documentElement, true);
  };
})();
