// SPDX-License-Identifier: MIT
// The compiled library: calls in numbers and text, results read in place.

// What the library refuses, in its own words; 'field' is the one at fault.
class Mistake extends Error {
  constructor(message, field) {
    super(message);
    this.field = field || "";
  }
}

const core = (() => {
  const NO_DAY = -1000000;
  const encoder = new TextEncoder(), decoder = new TextDecoder();
  let x = null, buffer = null, bytes = null, doubles = null, ints = null, words = null, scratch = 0, scratchSize = 0;
  const memberLists = {};

  // Views die when the module's memory grows.
  function refresh() {
    if (buffer === x.memory.buffer) return;
    buffer = x.memory.buffer;
    bytes = new Uint8Array(buffer);
    doubles = new Float64Array(buffer);
    ints = new Int32Array(buffer);
    words = new Uint32Array(buffer);
  }

  async function start(wasm) {
    x = (await WebAssembly.instantiate(wasm, {})).instance.exports;
    x._initialize();
    scratch = x.web_scratch();
    scratchSize = x.web_scratch_size();
  }

  function text(at) {
    if (!at) return null;
    refresh();
    return decoder.decode(bytes.subarray(at, bytes.indexOf(0, at)));
  }

  // call("set", "bed", "area", 0, 2.5): strings go through the scratch space.
  function call(name, ...args) {
    let used = 0;
    refresh();
    const passed = args.map((arg) => {
      if (typeof arg !== "string") return arg;
      const coded = encoder.encode(arg), at = scratch + used;
      if (used + coded.length + 1 > scratchSize) throw new Mistake("a text is too long");
      bytes.set(coded, at);
      bytes[at + coded.length] = 0;
      used += coded.length + 1;
      return at;
    });
    return x["web_" + name](...passed);
  }

  // The same where 0 means that it failed.
  function must(name, ...args) {
    const result = call(name, ...args);
    if (!result) throw new Mistake(text(x.web_message()), text(x.web_fault()));
    return result;
  }

  function say(name, ...args) {
    return text(call(name, ...args));
  }

  function members(struct) {
    if (memberLists[struct]) return memberLists[struct];
    const list = [];
    let at = call("members", struct);
    refresh();
    for (; words[at >> 2]; at += 16) {
      const w = at >> 2;
      list.push({ name: text(words[w]), offset: words[w + 1], type: String.fromCharCode(words[w + 2]), count: words[w + 3] });
    }
    memberLists[struct] = { list, size: call("struct_bytes", struct) };
    return memberLists[struct];
  }

  function value(at, type) {
    switch (type) {
    case "d": return doubles[at >> 3];
    case "i": return ints[at >> 2];
    case "u": return words[at >> 2];
    case "s": return text(words[at >> 2]);
    default: return at;
    }
  }

  // One struct as an object; arrays as lists.
  function read(struct, at) {
    const out = {};
    refresh();
    for (const m of members(struct).list) {
      if (m.count === 1) out[m.name] = value(at + m.offset, m.type);
      else out[m.name] = Array.from({ length: m.count }, (_, i) => value(at + m.offset + 8 * i, m.type));
    }
    return out;
  }

  // An array of structs as objects, all members or those named.
  function readAll(struct, at, count, names) {
    const c = columns(struct, at, count, names), keys = Object.keys(c), out = new Array(count);
    for (let i = 0; i < count; i++) {
      const o = {};
      for (const key of keys) o[key] = c[key][i];
      out[i] = o;
    }
    return out;
  }

  // Columns of an array of structs, all or those named: { level: Float64Array }
  function columns(struct, at, count, names) {
    const { list, size } = members(struct), out = {};
    refresh();
    for (const m of list) {
      if (names && !names.includes(m.name)) continue;
      const column = new Float64Array(count), wide = m.type === "d";
      const from = wide ? doubles : m.type === "i" ? ints : words, step = size / (wide ? 8 : 4);
      for (let i = 0, p = (at + m.offset) / (wide ? 8 : 4); i < count; i++, p += step) column[i] = from[p];
      out[m.name] = column;
    }
    return out;
  }

  // Lends room for bytes or numbers to a function of its address.
  function lend(data, use) {
    const raw = data instanceof Uint8Array ? data : new Uint8Array(Float64Array.from(data).buffer);
    const at = must("alloc", raw.length);
    try {
      refresh();
      bytes.set(raw, at);
      return use(at, raw.length);
    } finally {
      call("free", at);
    }
  }

  // Writes numbers where the module has room for them.
  function put(at, numbers) {
    refresh();
    doubles.set(numbers, at >> 3);
  }

  function longs(at, count) {
    refresh();
    return new Int32Array(buffer.slice(at, at + 4 * count));
  }

  return { NO_DAY, start, text, call, must, say, read, readAll, columns, lend, put, longs };
})();
