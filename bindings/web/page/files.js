// SPDX-License-Identifier: MIT
// Files in and out, all on this machine.

const files = (() => {
  function save(name, text, type) {
    const a = document.createElement("a");
    a.href = URL.createObjectURL(new Blob([text], { type }));
    a.download = name;
    a.click();
    setTimeout(() => URL.revokeObjectURL(a.href), 10000);
  }

  function slug(name) {
    return (name || "pond").toLowerCase().replace(/[^a-z0-9]+/g, "-").replace(/^-|-$/g, "") || "pond";
  }

  // ---- descriptions ---------------------------------------------------------

  function toJson(d) {
    return JSON.stringify(d, null, 2) + "\n";
  }

  function fromJson(text, name) {
    let d;
    if (/\.lua$/i.test(name)) throw new Mistake(`${name} is a description in Lua, which this page cannot run: 'tarn convert ${name} --to ${name.replace(/lua$/i, "json")}' makes the JSON that it opens.`);
    try {
      d = JSON.parse(text);
    } catch (error) {
      throw new Mistake(`${name}: this is not a pond of this page or of 'tarn convert' (JSON): ${error.message}`);
    }
    describe.apply(d);
    return d;
  }

  function lua(v, indent) {
    if (typeof v !== "object") return typeof v === "string" ? JSON.stringify(v) : String(v);
    const inner = indent + "  ";
    if (Array.isArray(v)) return "{ " + v.map((e) => lua(e, inner)).join(", ") + " }";
    const named = (k) => (/^[A-Za-z_]\w*$/.test(k) ? k : `[${JSON.stringify(k)}]`);
    return "{\n" + Object.keys(v).map((k) => `${inner}${named(k)} = ${lua(v[k], inner)},\n`).join("") + indent + "}";
  }

  // For the runner.
  function toLua(d) {
    return "-- A pond for `tarn topup`, written by the page; metres, m3, m3/s.\nreturn " + lua(d, "") + "\n";
  }

  // ---- the page's own --------------------------------------------------------

  // What the build packed: gzip in base64.
  async function unpack(text) {
    const bytes = Uint8Array.from(atob(text), (c) => c.charCodeAt(0));
    const stream = new Blob([bytes]).stream().pipeThrough(new DecompressionStream("gzip"));
    return new Uint8Array(await new Response(stream).arrayBuffer());
  }

  // Last pond and units; where the browser allows no storage, nothing is kept.
  const KEY = "tarn.pond";
  function remember(state) {
    try { localStorage.setItem(KEY, JSON.stringify(state)); } catch (e) { /* not kept */ }
  }
  function recall() {
    try { return JSON.parse(localStorage.getItem(KEY)); } catch (e) { return null; }
  }
  function forget() {
    try { localStorage.removeItem(KEY); } catch (e) { /* none there */ }
  }

  // Drop on a box or anywhere on the page.
  function onDrop(take) {
    const over = (on) => (event) => {
      event.preventDefault();
      for (const box of document.querySelectorAll(".drop")) box.classList.toggle("over", on);
    };
    addEventListener("dragover", over(true));
    addEventListener("dragleave", over(false));
    addEventListener("drop", (event) => {
      over(false)(event);
      if (event.dataTransfer.files.length) take(event.dataTransfer.files[0]);
    });
  }

  return { save, slug, toJson, fromJson, toLua, unpack, remember, recall, forget, onDrop };
})();
