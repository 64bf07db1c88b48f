// SPDX-License-Identifier: MIT
// A description, handed to the library: the fields of the Lua file, as JSON,
// in SI.

const describe = (() => {
  const { rowsOf, row, full, has, kindOf, known, numberOf, setRow, plain, list } = fields;
  const WEEKDAYS = fields.beside("supply", "weekdays").choices;
  // Used by the page's own scripts, or by the chapter on the bed.
  const USED_HERE = ["costs", "fish", "water", "treatment", "withdrawals"];

  // Checked as the program does, but no figure of the page hangs on them.
  const NO_FIGURE = ["bay", "overflow", "storm", "catchments", "build"];
  // Asked for in the chapter on the bed.
  const ELSEWHERE = ["yard"];

  // Fields of a section; 'object' may be missing, or a list of such.
  function setSection(section, object) {
    if (object === undefined || object === null) return;
    if (fields.isList(section)) {
      list("", section, { [section]: object }).forEach((entry, i) => setEntry(section, entry, `${section}: number ${i + 1}`));
      return;
    }
    known(object, section);
    fields.texts(section, object);
    for (const r of rowsOf(section)) {
      if (object[r.name] !== undefined) setRow(section, r, object[r.name], has(section, r.name));
    }
    for (const point of section === "pump" ? pairs(list("pump", "curve", object), "pump.curve") : []) core.must("curve", point[0], point[1]);
  }

  // One table of a list section, handed over whole.
  function setEntry(section, entry, where) {
    if (kindOf(entry) !== "table") throw new Mistake(`${where} must be a table of fields`, section);
    known(entry, section);
    fields.texts(section, entry);
    if (!has(section)) return;
    core.call("entry", section);
    for (const r of rowsOf(section)) {
      if (entry[r.name] !== undefined) setRow(section, r, entry[r.name], true);
      else if (r.required && r.default === undefined) fields.missing(section, r);
    }
    for (const name of Object.keys(entry.fittings || {})) {
      core.must("fitting", name, numberOf(entry.fittings[name], "pipes.fittings, how many of a kind,", 0, fields.beside("pipes", "fittings").hi, "pipes"));
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

  // Tables of a list inside a section; a mistake names its place.
  function setEntries(section, list, place) {
    list.forEach((entry, i) => {
      const where = `${place}[${i + 1}]`;
      try {
        setEntry(section, entry, where);
      } catch (error) {
        throw new Mistake(error.message.replace(new RegExp(`\\b${section}\\b`), where), where);
      }
    });
  }

  function setLayers(layers) {
    if (!Array.isArray(layers) || layers.length === 0) throw new Mistake("bed.layers must be a list of layers from the bottom", "bed.layers");
    core.call("layers_clear");
    setEntries("layer", layers, "bed.layers");
  }

  // One number a side; false where there is none.
  function sides(yard, name, count) {
    const given = list("yard", name, yard), { hi } = fields.beside("yard", name);
    if (given.length > count) throw new Mistake(`yard.${name} has ${given.length} entries for ${count} sides`, "yard." + name);
    given.forEach((v, i) => { if (v !== false) numberOf(v, `yard.${name}[${i + 1}] [m]`, 0, hi, "yard." + name); });
    return given;
  }

  // Corners of a yard with what is to be kept from each side: a rectangle's
  // are its sides bottom, right, top, left.
  function corners(yard) {
    const { length, width } = yard;
    let at = list("yard", "corners", yard);
    if (!at.length) {
      if (length === undefined || width === undefined) throw new Mistake("yard needs length and width, or corners", "yard");
      at = [{ x: 0, y: 0 }, { x: length, y: 0 }, { x: length, y: width }, { x: 0, y: width }];
    }
    const setbacks = sides(yard, "setbacks", at.length), footings = sides(yard, "footings", at.length);
    return at.map((corner, i) => {
      const side = Object.assign(yard.setback === undefined ? {} : { setback: yard.setback }, corner);
      if (typeof setbacks[i] === "number") side.setback = setbacks[i];
      if (typeof footings[i] === "number") side.footing = footings[i];
      return side;
    });
  }

  // ---- the basin --------------------------------------------------------------

  function pairs(points, what) {
    return points.map((p, i) => {
      if (!Array.isArray(p) || p.length !== 2 || !p.every((n) => typeof n === "number")) {
        throw new Mistake(`${what}: row ${i + 1} must be a pair of numbers`, what);
      }
      return p;
    });
  }

  function setTable(levels) {
    const at = core.must("table", levels.length);
    core.put(at, levels.map((r) => r[0]).concat(levels.map((r) => r[1])));
  }

  function setBasin(basin) {
    if (kindOf(basin) !== "table") {
      throw new Mistake("basin is missing: give its shape and sizes, { table = ... } or { contours = ... }", "basin");
    }
    if (basin.table) {
      known(basin, "", ["table"]);
      setTable(pairs(list("basin", "table", basin), "basin.table"));
    } else if (basin.contours) {
      known(basin, "", ["contours"]);
      setTable(list("basin", "contours", basin).map((c, i) => {
        known(c, "basin.contours");
        if (!Array.isArray(c.points) || c.points.length < 3) {
          throw new Mistake(`basin.contours: row ${i + 1} needs points, three or more pairs {x, y}`, "basin.contours");
        }
        const xy = [].concat(...pairs(c.points, "basin.contours"));
        return [plain("basin.contours", "level", c), core.lend(xy, (at) => core.call("polygon", at, c.points.length))];
      }));
    } else {
      setSection("basin", basin);
      for (const shelf of list("basin", "shelves", basin)) {
        known(shelf, "basin.shelves");
        core.must("shelf", plain("basin.shelves", "depth", shelf), plain("basin.shelves", "width", shelf));
      }
    }
  }

  // ---- schedules ----------------------------------------------------------------

  function bits(section, name, s) {
    const { choices } = fields.beside(section, name), what = full(section, name);
    let out = 0;
    for (const item of list(section, name, s)) {
      const bit = typeof item === "number" ? item : choices.indexOf(item) + 1;
      if (!(bit >= 1 && bit <= choices.length)) {
        throw new Mistake(`${what}: '${item}' is none of "${choices[0]}" .. "${choices[choices.length - 1]}" or 1 .. ${choices.length}`, what);
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
    core.must("days_on", which, bits(section, "weekdays", s), bits(section, "months", s));
    for (const name of ["open", "closed"]) {
      list(section, name, s).forEach((span, i) => {
        known(span, "span");
        const what = full(section, name), a = end(span.from, what + ".from"), b = end(span.to, what + ".to");
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
    known(d, "");
    core.call("describe");
    setBasin(d.basin);
    for (const r of rowsOf("")) if (d[r.name] !== undefined) setRow("", r, d[r.name], true);
    setBed(d.bed);
    for (const s of fields.sections) if (s !== "basin" && s !== "bed") setSection(s, d[s]);
    fields.texts("", d);
    if (d.yard) setEntries("corner", corners(d.yard), "yard.corners");
    if (d.supply) setSchedule(0, "supply", d.supply);
    (d.withdrawals || []).forEach((w, i) => {
      core.must("withdrawal", i + 1, plain("withdrawals", "volume", w));
      setSchedule(i + 1, "withdrawals", w);
    });
    core.must("describe_end");
  }

  // Sections that a description holds and this page does not use.
  function unused(d) {
    return fields.sections.filter((s) => d[s] !== undefined && (NO_FIGURE.includes(s) || (!USED_HERE.includes(s) && !has(s))));
  }

  // Sections that the form asks for.
  const asked = (section) => has(section) && !fields.isList(section) && !NO_FIGURE.includes(section) && !ELSEWHERE.includes(section);

  return { apply, asked, setLayers, corners, unused, WEEKDAYS };
})();
