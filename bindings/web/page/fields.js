// SPDX-License-Identifier: MIT
// The fields that describe a pond, as the library and its module tell them
// (FIELDS): rows of numbers, and texts, tables and lists beside them. What a
// description holds is checked by them, in the runner's words.

const fields = (() => {
  const part = (section) => FIELDS.find((s) => s.section === section);
  const rowsOf = (section) => part(section).rows;
  const besides = (section) => part(section).beside;
  const row = (section, name) => rowsOf(section).find((r) => r.name === name);
  const beside = (section, name) => besides(section).find((b) => b.name === name);
  // What a row means, without the example for a file in Lua.
  const meaning = (r) => r.meaning.replace(/, such as [^,;]*? [*\/] \w+/, "");
  const names = (section) => rowsOf(section).concat(besides(section)).map((r) => r.name);
  const full = (section, name) => (section ? section + "." : "") + name;
  const has = (section, name) => Boolean(core.call("has", section, name || ""));
  // Sections of a description, and those of them that are lists.
  const sections = besides("").filter((b) => b.of).map((b) => b.name);
  const isList = (section) => beside("", section).kind === "tables";

  const noNumber = (what, v) => `${what} must be a number, got ` + (typeof v === "string" ? `the text "${v}": a unit is a factor, as in 16 * ft` : kindOf(v));

  // As the runner names types.
  function kindOf(v) {
    return v === null || v === undefined ? "nil" : typeof v === "object" ? "table" : typeof v;
  }

  // Fields of a table of that section; 'only' some of them.
  function known(object, section, only) {
    const list = only || names(section);
    if (kindOf(object) !== "table" || Array.isArray(object)) {
      throw new Mistake(`${section || "argument"} must be a table of fields, got ${kindOf(object)}`, section);
    }
    for (const key of Object.keys(object)) {
      if (list.includes(key)) continue;
      let best = null, least = 4;
      for (const name of list) {
        const d = core.call("distance", key, name);
        if (d < least) { least = d; best = name; }
      }
      throw new Mistake(`unknown field '${full(section, key)}'` + (best ? `: did you mean '${best}'?` : ""), full(section, key));
    }
  }

  const six = (x) => units.general(x, 6);

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

  function missing(section, r) {
    const what = full(section, r.name);
    throw new Mistake(`${what} is missing: give it in ${r.unit}, ${six(r.lo)} to ${six(r.hi)} (${r.meaning})`, what);
  }

  // A number that nothing but this script uses.
  function plain(section, name, object) {
    const r = row(section, name), what = full(section, name), v = object[name];
    if (v === undefined && r.required) missing(section, r);
    return numberOf(v, `${what} [${r.unit}]`, r.lo, r.hi, what);
  }

  const isText = (v, most) => typeof v === "string" && new TextEncoder().encode(v).length <= most && !/[\u0000-\u001f\u007f]/.test(v);

  function texts(section, object) {
    for (const b of besides(section).filter((x) => x.kind === "text")) {
      const v = object[b.name], what = full(section, b.name);
      if (v !== undefined && !isText(v, b.most)) throw new Mistake(`${what} must be a text of at most ${b.most} printable bytes`, what);
      if (v === undefined && b.required) throw new Mistake(`${what} is missing: ${b.meaning}`, what);
    }
  }

  // The list of that name in the object, within its bounds; [] if there is none.
  function list(section, name, object) {
    const b = beside(section, name), what = full(section, name), v = object[name];
    if (v === undefined) return [];
    if (!Array.isArray(v)) throw new Mistake(`${what} must be a list, got ${kindOf(v)}`, what);
    if (v.length < b.least || v.length > b.most) {
      throw new Mistake(`${what} must be a list of ${b.least} to ${b.most} entries, got ${v.length}`, what);
    }
    return v;
  }

  return { rowsOf, meaning, besides, row, beside, full, has, sections, isList, kindOf, known, numberOf, setRow, missing, plain, texts, list };
})();
