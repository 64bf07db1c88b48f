// SPDX-License-Identifier: MIT
// Measures as people write them.  The factors are the program's (form.units).

const units = (() => {
  let factors = {}, system = "us";

  // Unit in which a field is asked for, by its SI unit; some by their path.
  const ASKED = {
    us: { m: "ft", m2: "ft2", m3: "gal", "m3/s": "gph", "mm/d": "inch_per_day", mm: "inch", "m/s": "mph", kg: "lb", "m/d": "gph_per_ft2",
      "mm/h": "inch_per_hour", "money/m3": "kgal", small: "inch", drip: "gpd" },
    metric: { m: "m", m2: "m2", m3: "liter", "m3/s": "lph", "mm/d": "mm_per_day", mm: "mm", "m/s": "m/s", kg: "kg", "m/d": "m/d",
      "mm/h": "mm_per_hour", "money/m3": "m3", small: "cm", drip: "lpd" },
  };
  const SMALL = /(head|cover|drop|thickness|diameter|setback|footing|level|shelves\.\w+|stream\.depth|pool|orifice|floor_gravel|wall_stone)$/;
  const DRIP = /^(splash|seepage\.volume)$/;

  const WRITTEN = { inch: "in", gal: "US gal", liter: "L", ft2: "ft²", m2: "m²", m3: "m³", gph: "gal/h", gpd: "gal/day", lph: "L/h",
    lpd: "L/day", inch_per_day: "in/day", inch_per_hour: "in/h", mm_per_hour: "mm/h", mm_per_day: "mm/day", gph_per_ft2: "gph/ft²", kgal: "1,000 gal" };

  // What people write, by the program's name, for each SI unit.
  const NAMES = {
    m: { "'": "ft", "′": "ft", "’": "ft", ft: "ft", foot: "ft", feet: "ft", '"': "inch", "″": "inch", "”": "inch", in: "inch", inch: "inch",
      inches: "inch", m: "m", cm: "cm", mm: "mm", yd: "yd" },
    m2: { ft2: "ft2", sqft: "ft2", m2: "m2", yd2: "yd2" },
    m3: { gal: "gal", gallon: "gal", gallons: "gal", l: "liter", liter: "liter", litre: "liter", liters: "liter", litres: "liter", m3: "m3", yd3: "yd3" },
    "m3/s": { gph: "gph", gpm: "gpm", gpd: "gpd", "gal/h": "gph", "gal/day": "gpd", lph: "lph", "l/h": "lph", lpm: "lpm", "l/min": "lpm", lpd: "lpd", "l/day": "lpd" },
    kg: { kg: "kg", lb: "lb", lbs: "lb", t: "tonne" },
  };

  const factor = (name) => (factors[name] === undefined ? 1 : factors[name]);

  // { factor, label, si, zero }: SI = (number - zero) x factor; zero only where it is
  // not 0
  function asked(path, si) {
    if (si === "deg C" && system === "us") return { factor: 5 / 9, zero: 32, label: "F", si };
    const table = ASKED[system], plain = path.replace(/\[\d+\]/g, "");
    const name = si === "m" && SMALL.test(plain) ? table.small : si === "m3/s" && DRIP.test(plain) ? table.drip : table[si];
    if (!name) return { factor: 1, label: si === "-" || si === undefined ? "" : si, si };
    if (si === "money/m3") return { factor: 1 / factors[name], label: "per " + (WRITTEN[name] || name), si };
    if (si === "mm") return { factor: factors[name] / factors.mm, label: WRITTEN[name] || name, si };
    return { factor: factor(name), label: WRITTEN[name] || name, si };
  }

  function plainNumber(text) {
    const fraction = /^(?:(\d+)[\s-]+)?(\d+)\/(\d+)$/.exec(text);
    if (fraction) return Number(fraction[1] || 0) + Number(fraction[2]) / Number(fraction[3]);
    if (/^\d{1,3}(,\d{3})+(\.\d+)?$/.test(text)) text = text.replace(/,/g, "");
    else text = text.replace(",", ".");
    return /^(\d+\.?\d*|\.\d+)(e[+-]?\d+)?$/i.test(text) ? Number(text) : NaN;
  }

  // "3.5", "3 1/2", 4' 3", "12 gal", "2,5": to SI; NaN if it is none of them.
  function parse(text, unit) {
    const sign = /^\s*[-−]/.test(text) ? -1 : 1;
    let rest = text.trim().replace(/^[-−]\s*/, ""), sum = 0, parts = 0;
    while (rest !== "") {
      const m = /^((?:\d+[\s-]+)?\d+\/\d+|[\d.,]+(?:e[+-]?\d+)?)\s*([a-zµ²³'"′″’”/]*[23²³]?)\s*/i.exec(rest);
      if (!m) return NaN;
      let f = unit.factor;
      if (m[2]) {
        const name = (NAMES[unit.si] || {})[m[2].toLowerCase().replace("²", "2").replace("³", "3")];
        if (!name) return NaN;
        f = factors[name];
      } else if (parts > 0) return NaN;
      sum += plainNumber(m[1]) * f;
      parts += 1;
      rest = rest.slice(m[0].length);
    }
    return parts ? sign * sum - (unit.zero || 0) * unit.factor : NaN;
  }

  const inUnit = (si, unit) => si / unit.factor + (unit.zero || 0);

  // For an entry: six significant digits, no zeros at the end.
  function edit(si, unit) {
    return typeof si !== "number" || Number.isNaN(si) ? "" : String(Number(inUnit(si, unit).toPrecision(6)));
  }

  // As a tape is read: feet and inches where they come out even to a sixteenth.
  function written(si, unit) {
    if (unit.label !== "ft" || typeof si !== "number") return edit(si, unit);
    const sixteenths = Math.round(si / factors.inch * 16), inches = (sixteenths % 192) / 16;
    if (Math.abs(sixteenths * factors.inch / 16 - si) > 1e-6 || inches === 0) return edit(si, unit);
    return `${Math.floor(sixteenths / 192)} ft ${inches} in`;
  }

  return {
    written, asked, parse, edit, inUnit,
    set factors(given) { factors = given; },
    get system() { return system; },
    set system(name) { system = name; },
  };
})();
