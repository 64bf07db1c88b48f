// SPDX-License-Identifier: MIT
// Files that a hand gives: chosen, or dropped anywhere, one or several.  The program
// says by their content which is what.

class Files {
  // opens: kind -> function(name, bytes, workbook or null), a promise or nothing; refuse(words)
  constructor(opens, refuse) { Object.assign(this, { opens, refuse }); }

  // A name of the page's own is not the user's.
  static named(name) { return /^(pond|map)\.json$|^(saved|warm)\.|^(scripts|web)\//.test(name) ? "your-" + name : name; }

  // here: what the place takes, "" for anything.
  async open(list, here) {
    const ORDER = ["pond", "weather", "map", "measured", "log", "study"], known = [];	// a map after its file
    this.refuse("");
    for (const file of list) {
      const name = Files.named(file.name);
      try {
        const given = new Uint8Array(await file.arrayBuffer()), book = await Workbook.in(given), bytes = book ? book.bytes() : given;
        program.put(name, bytes);
        known.push({ kind: (await program.call("kind", name, here)).kind, name, bytes, book });
      } catch (error) {
        this.refuse(`${file.name} cannot be read (a folder?): ${error.message}`);
      }
    }
    known.sort((a, b) => ORDER.indexOf(a.kind) - ORDER.indexOf(b.kind));
    for (const { kind, name, bytes, book } of known) await this.opens[kind](name, bytes, book);
  }

  watch() {
    for (const input of document.querySelectorAll("input[data-opens]")) {
      input.addEventListener("change", () => {
        const list = Array.from(input.files);
        input.value = "";			// the same file again is a change
        this.open(list, input.dataset.opens);
      });
      input.parentNode.querySelector(".choose").addEventListener("click", () => input.click());
    }
    const over = (drop) => { for (const d of document.querySelectorAll(".drop")) d.classList.toggle("over", d === drop); };
    const place = (e) => e.target.closest(".drop") || document.querySelector(".spread:not([hidden]) .drop");
    const files = (e) => Array.from(e.dataTransfer.types).includes("Files");
    document.addEventListener("dragover", (e) => { if (files(e)) { e.preventDefault(); over(place(e)); } });
    document.addEventListener("dragleave", (e) => { if (!e.relatedTarget) over(null); });
    document.addEventListener("drop", (e) => {
      if (!files(e)) return;
      const at = place(e);
      e.preventDefault();
      over(null);
      this.open(Array.from(e.dataTransfer.files), at ? at.querySelector("input[data-opens]").dataset.opens : "");
    });
  }
}
