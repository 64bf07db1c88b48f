// The description of a pond: the fields of the Lua file, as JSON, in SI.
// FIELDS holds the rows that describe them, written from the library's own.

const describe = (() => {
  // Names beside the described rows.
  const ALSO = {
    basin: ["shelves", "table", "contours"],
    supply: ["weekdays", "months", "open", "closed"],
    costs: ["currency"],
    bed: ["layers"],
    pump: ["curve"],
    treatment: ["rate"],
    yard: ["corners", "setbacks", "footings"],
  };
  const ALSO_EACH = { layer: ["name"], pipes: ["name", "fittings"], falls: ["name"], catchments: ["name"] };
  // Rows of these stand in lists inside other sections.
  const ENTRIES = ["layer", "corner"];
  const WEEKDAYS = ["mon", "tue", "wed", "thu", "fri", "sat", "sun"];
  const MONTHS = ["jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec"];
  // Used by the page's own scripts, or by the chapter on the bed.
  const USED_HERE = ["costs", "fish", "water", "treatment"];

  // Checked as the program does, but no figure of the page hangs on them.
  const NO_FIGURE = ["bay", "overflow", "storm", "catchments", "build"];

  const sections = Array.from(new Set(FIELDS.map((s) => s.section))).filter((s) => !ENTRIES.includes(s));
  const rowsOf = (section) => [].concat(...FIELDS.filter((s) => s.section === section).map((s) => s.rows));
  const row = (section, name) => rowsOf(section).find((r) => r.name === name);
  const full = (section, name) => (section ? section + "." : "") + name;
  const has = (section, name) => Boolean(core.call("has", section, name || ""));

  const noNumber = (what, v) => `${what} must be a number, got ` + (typeof v === "string" ? `the text "${v}": a unit is a factor, as in 16 * ft` : kindOf(v));

  // As the runner names types.
  function kindOf(v) {
    return v === null || v === undefined ? "nil" : typeof v === "object" ? "table" : typeof v;
  }

  function known(object, section, names) {
    if (kindOf(object) !== "table" || Array.isArray(object)) {
      throw new Mistake(`${section || "argument"} must be a table of fields, got ${kindOf(object)}`, section);
    }
    for (const key of Object.keys(object)) {
      if (names.includes(key)) continue;
      let best = null, least = 4;
      for (const name of names) {
        const d = core.call("distance", key, name);
        if (d < least) { least = d; best = name; }
      }
      throw new Mistake(`unknown field '${full(section, key)}'` + (best ? `: did you mean '${best}'?` : ""), full(section, key));
    }
  }

  const six = (x) => String(Number(x.toPrecision(6)));

  // A number of a row, checked as the runner does.
  function numberOf(v, what, lo, hi, field) {
    if (typeof v !== "number") throw new Mistake(noNumber(what, v), field);
    if (!(v >= lo && v <= hi)) throw new Mistake(`${what} must be ${six(lo)} to ${six(hi)}, got ${six(v)}`, field);
    return v;
  }

  function set(section, name, month, v) {
    try {
      core.must("set", section, name, month, v);
    } catch (error) {
      throw new Mistake(error.message, full(section, name));
    }
  }

  function setRow(section, r, v, used) {
    const name = full(section, r.name);
    let put = (month, x) => set(section, r.name, month, x);
    if (!used) put = (month, x) => numberOf(x, `${name} [${r.unit}]`, r.lo === null ? -Infinity : r.lo, r.hi, name);
    switch (r.kind) {
    case "choice":
      if (!r.choices.includes(v)) {
        throw new Mistake(`${name} must be one of ${r.choices.map((c) => `"${c}"`).join(", ")}, got ${v}`, name);
      }
      if (used) put(0, r.choices.indexOf(v));
      break;
    case "switch":
      if (typeof v !== "boolean") throw new Mistake(`${name} must be true or false`, name);
      if (used) put(0, v ? 1 : 0);
      break;
    case "months":
      if (typeof v === "number") { put(0, v); break; }
      if (!Array.isArray(v) || v.length !== 12) {
        throw new Mistake(`${name} must be one number or a list of 12, January first`, name);
      }
      v.forEach((x, i) => put(i + 1, numberOf(x, `${name}[${i + 1}]`, r.lo, r.hi, name)));
      break;
    default:
      if (typeof v !== "number") throw new Mistake(noNumber(`${name} [${r.unit}]`, v), name);
      put(0, v);
    }
  }

  // Fields of a section; 'object' may be missing, or a list of such.
  function setSection(section, object) {
    if (object === undefined || object === null) return;
    if (Array.isArray(object)) {
      object.forEach((entry, i) => setEntry(section, entry, `${section}: number ${i + 1}`));
      return;
    }
    if (section in ALSO_EACH) throw new Mistake(`${section} must be a list of tables`, section);
    // what is not used here is the program's to check
    if (has(section) || USED_HERE.includes(section)) known(object, section, rowsOf(section).map((r) => r.name).concat(ALSO[section] || []));
    for (const r of rowsOf(section)) {
      if (object[r.name] !== undefined) setRow(section, r, object[r.name], has(section, r.name));
    }
    for (const point of section === "pump" ? pairs(object.curve || [], "pump.curve") : []) core.must("curve", point[0], point[1]);
  }

  // One table of a list section, handed over whole.
  function setEntry(section, entry, where) {
    if (kindOf(entry) !== "table") throw new Mistake(`${where} must be a table of fields`, section);
    if (!has(section)) return;
    core.call("entry", section);
    known(entry, section, rowsOf(section).map((r) => r.name).concat(ALSO_EACH[section] || []));
    for (const r of rowsOf(section)) if (entry[r.name] !== undefined) setRow(section, r, entry[r.name], true);
    for (const name of Object.keys(entry.fittings || {})) {
      core.must("fitting", name, numberOf(entry.fittings[name], "pipes.fittings, how many of a kind,", 0, 1000, "pipes"));
    }
    core.must("entry_add", section);
  }

  // Area from length and width, water from layers: as the program does.
  function setBed(bed) {
    setSection("bed", bed);
    if (!bed) return;
    if (bed.length !== undefined && bed.width !== undefined) {
      if (bed.area > 0) throw new Mistake("bed.area is given beside length and width: keep the one or the other", "bed.area");
      core.must("set", "bed", "area", 0, bed.length * bed.width);
    }
    if (bed.layers !== undefined) {
      setLayers(bed.layers);
      core.must("layers_use", bed.cover === undefined ? row("bed", "cover").default : bed.cover);
    }
  }

  function setLayers(list) {
    if (!Array.isArray(list) || list.length === 0) throw new Mistake("bed.layers must be a list of layers from the bottom", "bed.layers");
    core.call("layers_clear");
    list.forEach((layer, i) => {
      const where = `bed.layers[${i + 1}]`;
      try {
        setEntry("layer", layer, where);
      } catch (error) {
        throw new Mistake(error.message.replace(/\blayer\b/, where), where);
      }
    });
  }

  // ---- the basin --------------------------------------------------------------

  function pairs(list, what) {
    return list.map((p, i) => {
      if (!Array.isArray(p) || p.length !== 2 || !p.every((n) => typeof n === "number")) {
        throw new Mistake(`${what}: row ${i + 1} must be a pair of numbers`, what);
      }
      return p;
    });
  }

  function setTable(rows) {
    const at = core.must("table", rows.length);
    core.put(at, rows.map((r) => r[0]).concat(rows.map((r) => r[1])));
  }

  function setBasin(basin) {
    if (kindOf(basin) !== "table") {
      throw new Mistake("basin is missing: give its shape and sizes, { table = ... } or { contours = ... }", "basin");
    }
    if (basin.table) {
      known(basin, "", ["table"]);
      setTable(pairs(basin.table, "basin.table"));
    } else if (basin.contours) {
      known(basin, "", ["contours"]);
      setTable(basin.contours.map((c, i) => {
        known(c, "", ["level", "points"]);
        if (!Array.isArray(c.points) || c.points.length < 3) {
          throw new Mistake(`basin.contours: row ${i + 1} needs points, three or more pairs {x, y}`, "basin.contours");
        }
        const xy = [].concat(...pairs(c.points, "basin.contours"));
        return [numberOf(c.level, "basin.contours.level [m]", -1000, 10000), core.lend(xy, (at) => core.call("polygon", at, c.points.length))];
      }));
    } else {
      setSection("basin", basin);
      for (const shelf of basin.shelves || []) {
        known(shelf, "", ["depth", "width"]);
        core.must("shelf", numberOf(shelf.depth, "basin.shelves.depth [m]", 0, 15, "basin.shelves"),
          numberOf(shelf.width, "basin.shelves.width [m]", 0, 100, "basin.shelves"));
      }
    }
  }

  // ---- schedules ----------------------------------------------------------------

  function bits(list, names, what) {
    let out = 0;
    for (const item of list || []) {
      const bit = typeof item === "number" ? item : names.indexOf(item) + 1;
      if (!(bit >= 1 && bit <= names.length)) {
        throw new Mistake(`${what}: '${item}' is none of "${names[0]}" .. "${names[names.length - 1]}" or 1 .. ${names.length}`, what);
      }
      out |= 1 << bit;
    }
    return out >>> 0;
  }

  function end(text, what) {
    const day = core.call("day", String(text));
    if (day !== core.NO_DAY) return { day, mmdd: 0 };
    if (/^\d\d-\d\d$/.test(text) && core.call("day", "2000-" + text) !== core.NO_DAY) {
      return { day, mmdd: Number(text.slice(0, 2)) * 100 + Number(text.slice(3)) };
    }
    throw new Mistake(`${what} must be "YYYY-MM-DD", or "MM-DD" for every year, got ${text}`, what);
  }

  function setSchedule(which, section, s) {
    core.must("days_on", which, bits(s.weekdays, WEEKDAYS, section + ".weekdays"), bits(s.months, MONTHS, section + ".months"));
    for (const name of ["open", "closed"]) {
      (s[name] || []).forEach((span, i) => {
        const what = `${section}.${name}`, a = end(span.from, what + ".from"), b = end(span.to, what + ".to");
        if ((a.mmdd === 0) !== (b.mmdd === 0)) {
          throw new Mistake(`${what}: span ${i + 1} mixes a date of one year with one of every year`, what);
        }
        if (a.mmdd === 0 && b.day < a.day) throw new Mistake(`${what}: span ${i + 1} ends before it begins`, what);
        core.must("span", which, name === "open" ? 1 : 0, a.day, b.day, a.mmdd, b.mmdd);
      });
    }
  }

  // ---- the whole ------------------------------------------------------------------

  // Hands a description to the library; throws what the runner would say.
  function apply(d) {
    const top = sections.filter((s) => s !== "");
    known(d, "", rowsOf("").map((r) => r.name).concat(top, ["name", "plants", "withdrawals"]));
    core.call("describe");
    setBasin(d.basin);
    for (const r of rowsOf("")) if (d[r.name] !== undefined) setRow("", r, d[r.name], true);
    setBed(d.bed);
    for (const s of top) if (s !== "basin" && s !== "bed") setSection(s, d[s]);
    if (d.costs && typeof d.costs.currency !== "string") throw new Mistake("costs.currency is missing: \"USD\", \"EUR\" ...", "costs.currency");
    if (d.supply) setSchedule(0, "supply", d.supply);
    (d.withdrawals || []).forEach((w, i) => {
      known(w, "", ["volume", "weekdays", "months", "open", "closed"]);
      core.must("withdrawal", i + 1, numberOf(w.volume, "withdrawals.volume [m3]", 0, 1e6, "withdrawals"));
      setSchedule(i + 1, "withdrawals", w);
    });
    core.must("describe_end");
  }

  // Sections that a description holds and this page does not use.
  function unused(d) {
    return sections.filter((s) => s && d[s] !== undefined && (NO_FIGURE.includes(s) || (!USED_HERE.includes(s) && !has(s))));
  }

  // ---- files ----------------------------------------------------------------------

  function toJson(d) {
    return JSON.stringify(d, null, 2) + "\n";
  }

  function fromJson(text, name) {
    let d;
    try {
      d = JSON.parse(text);
    } catch (error) {
      throw new Mistake(`${name}: this is not a JSON file: ${error.message}`);
    }
    apply(d);
    return d;
  }

  function lua(v, indent) {
    if (typeof v !== "object") return typeof v === "string" ? JSON.stringify(v) : String(v);
    const inner = indent + "  ";
    if (Array.isArray(v)) return "{ " + v.map((e) => lua(e, inner)).join(", ") + " }";
    return "{\n" + Object.keys(v).map((k) => `${inner}${k} = ${lua(v[k], inner)},\n`).join("") + indent + "}";
  }

  // For the runner.
  function toLua(d) {
    return "-- A pond for `tarn topup`, written by the page; metres, m3, m3/s.\nreturn " + lua(d, "") + "\n";
  }

  // Sections that the form asks for.
  const asked = (section) => has(section) && !(section in ALSO_EACH) && !NO_FIGURE.includes(section);

  return { apply, asked, setLayers, has, unused, toJson, fromJson, toLua, sections, rowsOf, row, full, WEEKDAYS };
})();
