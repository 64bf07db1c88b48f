// SPDX-License-Identifier: MIT
// Quantities as the reader writes and wants them. Factors are the library's.

const units = (() => {
  const factors = {};

  function factor(name) {
    if (!(name in factors)) factors[name] = core.call("unit", name);
    return factors[name];
  }

  // Kinds of output: unit of the library, how it is written, digits.
  const KINDS = {
    us: {
      volume: ["gal", "US gal", 0], depth: ["inch", "in", 2], length: ["ft", "ft", 2], area: ["ft2", "ft²", 0],
      flow: ["gph", "US gal/h", 0], rate: ["gpd", "US gal/day", 1], loading: ["gpm_per_ft2", "US gpm/ft²", 3],
      mass: ["ton", "tons", 2], stone: ["inch", "in", 2], layer: ["inch", "in", 1], rock: ["yd3", "yd³", 1],
    },
    metric: {
      volume: ["liter", "L", 0], depth: ["mm", "mm", 0], length: ["m", "m", 2], area: ["m2", "m²", 1],
      flow: ["lph", "L/h", 0], rate: ["lpd", "L/day", 1], loading: ["m_per_hour", "m/h", 2],
      mass: ["tonne", "t", 2], stone: ["mm", "mm", 0], layer: ["cm", "cm", 0], rock: ["m3", "m³", 2],
    },
  };

  // Units in which a field is asked for, by its SI unit; some by their name.
  const ASKED = {
    us: {
      m: "ft", m2: "ft2", m3: "gal", "m3/s": "gph", "mm/d": "inch_per_day", mm: "inch", "m/s": "mph",
      "money/m3": "kgal", "bed.head": "inch", "bed.cover": "inch", "bed.drop": "inch", "stream.depth": "inch", splash: "gpd", "seepage.volume": "gpd",
      "evaporation.elevation": "ft", level: "inch", "size.diameter": "inch", "size.head": "inch",
    },
    metric: {
      m: "m", m2: "m2", m3: "liter", "m3/s": "lph", "mm/d": "mm_per_day", mm: "mm", "m/s": "m/s",
      "money/m3": "m3", "bed.head": "mm", "bed.cover": "cm", "bed.drop": "cm", "stream.depth": "cm", splash: "lpd", "seepage.volume": "lpd",
      level: "cm", "size.diameter": "mm", "size.head": "cm",
    },
  };

  const WRITTEN = {
    ft: "ft", inch: "in", m: "m", cm: "cm", mm: "mm", ft2: "ft²", m2: "m²", gal: "US gal", liter: "L", m3: "m³",
    gph: "gal/h", gpd: "gal/day", lph: "L/h", lpd: "L/day", inch_per_day: "in/day", mm_per_day: "mm/day",
    mph: "mph", "m/s": "m/s", kgal: "per 1,000 gal", h: "h a day",
  };

  // What people write, by the library's name.
  const SPELLINGS = {
    "'": "ft", "′": "ft", "’": "ft", ft: "ft", foot: "ft", feet: "ft", '"': "inch", "″": "inch", "”": "inch",
    in: "inch", inch: "inch", inches: "inch", m: "m", cm: "cm", mm: "mm", yd: "yd", gal: "gal", gallon: "gal",
    gallons: "gal", l: "liter", liter: "liter", litre: "liter", liters: "liter", litres: "liter", m3: "m3", ft2: "ft2",
    sqft: "ft2", m2: "m2", gph: "gph", gpm: "gpm", gpd: "gpd", "gal/h": "gph", "gal/day": "gpd", lph: "lph",
    "l/h": "lph", lpm: "lpm", "l/min": "lpm", lpd: "lpd", "l/day": "lpd",
  };

  let system = "us";

  // { factor, label }: SI = number x factor
  function asked(field, unit) {
    const table = ASKED[system];
    const name = table[field] || table[unit];
    if (unit === "money/m3") {
      return { factor: 1 / factor(name), label: system === "us" ? WRITTEN.kgal : "per m³" };
    }
    if (unit === "mm") return { factor: name === "inch" ? 25.4 : 1, label: WRITTEN[name] };
    if (!name) return { factor: 1, label: unit === "-" ? "" : WRITTEN[unit] || unit };
    const f = factor(name);
    return { factor: Number.isNaN(f) ? 1 : f, label: WRITTEN[name] || name, name };
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
      const number = plainNumber(m[1]);
      let f = unit.factor;
      if (m[2]) {
        const spelt = m[2].toLowerCase().replace("²", "2").replace("³", "3");
        if (!unit.name || !(spelt in SPELLINGS)) return NaN;
        const name = SPELLINGS[spelt];
        if (core.say("unit_si", name) !== core.say("unit_si", unit.name)) return NaN;
        f = factor(name);
      } else if (parts > 0) {
        return NaN;
      }
      sum += number * f;
      parts += 1;
      rest = rest.slice(m[0].length);
    }
    return parts ? sign * sum : NaN;
  }

  // For an input: six significant digits, no zeros at the end.
  function edit(si, unit) {
    return si === undefined || si === null || Number.isNaN(si) ? "" : String(Number((si / unit.factor).toPrecision(6)));
  }

  // As C prints it: a half goes to the even digit.
  function rounded(value, digits) {
    const s = value.toFixed(digits), scaled = Math.abs(value) * Math.pow(10, digits);
    if (scaled % 1 !== 0.5 || Math.floor(scaled) % 2) return s;
    const exact = Math.abs(value).toFixed(60), point = exact.indexOf(".");
    if (!/^50*$/.test(exact.slice(point + 1 + digits))) return s;
    return (value < 0 ? "-" : "") + (digits ? exact.slice(0, point + 1 + digits) : exact.slice(0, point));
  }

  function number(value, digits) {
    if (value === null || value === undefined || Number.isNaN(value)) return "–";
    let s = rounded(value, digits);
    if (Number(s) === 0) s = s.replace("-", "");
    const [whole, rest] = s.split(".");
    return whole.replace(/\B(?=(\d{3})+$)/g, ",") + (rest ? "." + rest : "");
  }

  // As C's "%.<digits>g".
  function general(x, digits) {
    if (x === 0) return "0";
    if (!Number.isFinite(x)) return x > 0 ? "inf" : "-inf";
    const exponent = Math.floor(Math.log10(Math.abs(Number(x.toPrecision(digits)))));
    if (exponent < -4 || exponent >= digits) {
      const [m, e] = x.toExponential(digits - 1).split("e");
      return `${m.includes(".") ? m.replace(/\.?0+$/, "") : m}e${e[0]}${e.slice(1).padStart(2, "0")}`;
    }
    const s = x.toPrecision(digits);
    return s.includes(".") ? s.replace(/\.?0+$/, "") : s;
  }

  const unit = (kind) => KINDS[system][kind][1];
  const value = (kind, si) => si / factor(KINDS[system][kind][0]);
  const cell = (kind, si) => number(value(kind, si), KINDS[system][kind][2]);
  const show = (kind, si) => cell(kind, si) + " " + unit(kind);
  const range = (kind, low, high) => `${cell(kind, low)} to ${cell(kind, high)} ${unit(kind)}`;

  return {
    factor, asked, parse, edit, number, general, unit, value, cell, show, range,
    get system() { return system; },
    set system(name) { system = name; },
  };
})();
