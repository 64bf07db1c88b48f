// SPDX-License-Identifier: MIT
// Answers on the page: the blocks of a report, as they come.  A block is known by
// its chapter and its place there; what is the same as before is left alone.

const MOST_LETTERS = 320;		// of a first paragraph that a second one may stand beside

class Answers {
  constructor(root) {
    this.root = root;
    this.chapters = new Map();		// title -> { box, body, blocks }
    this.over = true;
    root.addEventListener("click", (e) => this.follow(e));
  }

  // What was found names the chapter that has more of it.
  follow(event) {
    const link = event.target.closest(".found a"), c = link && this.chapters.get(link.textContent);
    if (!c) return;
    event.preventDefault();
    c.box.open = true;
    c.box.scrollIntoView();
    c.box.querySelector("summary").focus({ preventScroll: true });
  }

  clear() {
    this.root.replaceChildren();
    this.chapters.clear();
  }

  // A new question: what is shown is old until it comes again.
  begin() {
    this.over = false;
    this.chapter = null;
    this.order = [];
    this.places = [];
    this.fresh = new Set();
    this.root.setAttribute("aria-busy", "true");
  }

  stale(on) { this.root.classList.toggle("stale", on && this.chapters.size > 0); }

  hear(item) {
    if (item.kind === "title") this.title = item.title;
    if (item.kind === "block") this.block(item);
    if (item.kind === "plot") this.plot(this.places[item.at], item.plot);
    if (item.kind === "end") this.end();
    if (item.kind === "mistake") { this.over = true; this.root.removeAttribute("aria-busy"); this.stale(true); }
  }

  open(title) {
    let c = this.chapters.get(title);
    if (!c) {
      const body = element("div", { class: "body" });
      if (title === "") body.append(...["alarms", "verdict", "pictures", "rest"].map((slot) => element("div", { class: slot })));
      const box = title === "" ? element("section", { class: "answer", "aria-label": "The answer", "aria-live": "polite" }, body)
        : element("details", { class: "chapter" }, element("summary", {}, element("h3", {}, title)), body);
      if (this.order.length < 5) box.setAttribute("open", "");
      c = { box, body, blocks: [] };
      this.chapters.set(title, c);
    }
    const before = this.order.length ? this.order[this.order.length - 1].box : null;
    const place = before ? before.nextSibling : this.root.firstChild;
    if (place !== c.box) this.root.insertBefore(c.box, place);
    c.used = 0;
    c.letters = 0;
    this.order.push(c);
    this.fresh.add(title);
    this.chapter = c;
  }

  block(item) {
    this.stale(false);
    if (item.block === "heading") { this.open(item.text); return; }
    if (!this.chapter) this.open("");
    let place = this.places[item.at];
    if (!place) {
      const c = this.chapter, n = c.used++;
      if (!c.blocks[n]) {
        c.blocks[n] = element("div", { class: "block" });
      }
      place = this.places[item.at] = c.blocks[n];
      const slot = this.slot(c, item);
      if (place.parentNode !== slot) slot.append(place);
    }
    if (item.html === undefined) {
      if (!place.querySelector("figure")) this.fill(place, "<figure class=\"waiting\"><figcaption></figcaption></figure>");
      if (place.querySelector(".waiting")) place.querySelector("figcaption").textContent = item.caption;
      return;
    }
    if (place.html !== item.html) this.fill(place, item.html);
    if (place.parentNode.matches(".verdict") && !place.previousSibling) this.lead(place.querySelector("p"));
  }

  // Of the answer itself the verdict comes first and the picture next; a NO stands over all,
  // what is only in doubt and the figures' tables below.
  slot(c, item) {
    if (c.body.childElementCount !== 4 || !c.body.firstChild.matches(".alarms")) return c.body;
    const [alarms, verdict, pictures, rest] = c.body.children;
    if (item.block === "found") return /class="alarm"/.test(item.html) ? alarms : rest;
    if (item.block === "figure") return pictures;
    if (item.block !== "paragraph" || c.letters > MOST_LETTERS) return rest;
    c.letters += c.letters ? MOST_LETTERS : item.html.length;
    return verdict;
  }

  // The first sentence is the verdict; what a paragraph says besides is read after it.
  lead(paragraph) {
    const text = paragraph && paragraph.firstChild, end = text && text.nodeType === 3 ? text.data.search(/[.;] (?=[A-Z0-9])/) : -1;
    if (end < 0 || end > 200) return;
    const rest = text.splitText(end + 1);
    rest.before(element("strong", { class: "lead" }, text));
    if (text.data.endsWith(";")) text.splitText(end).replaceWith(element("span", { class: "out" }, ";"));
  }

  fill(place, html) {
    place.html = html;
    place.plotted = "";
    place.innerHTML = html;
    for (const code of place.querySelectorAll("code")) if (/^--[a-z]/.test(code.textContent)) code.replaceWith(element("em", {}, named(code.textContent.slice(2))));
    for (const table of place.querySelectorAll("table:not(.bars):not(.words)")) table.parentNode.after(tableTools(table));
  }

  // The numbers of a figure: from now on it can be zoomed.
  plot(place, numbers) {
    if (place.plotted === numbers) return;
    if (place.plotted) this.fill(place, place.html);
    place.plotted = numbers;
    const data = element("script", { type: "application/json" });
    data.textContent = numbers;
    place.querySelector("figure").append(data);
    new Figure(place.querySelector("figure"));
  }

  end() {
    for (const [title, c] of this.chapters) {
      if (!this.fresh.has(title)) {
        c.box.remove();
        this.chapters.delete(title);
        continue;
      }
      for (const old of c.blocks.splice(c.used)) old.remove();
    }
    this.over = true;
    this.root.removeAttribute("aria-busy");
  }
}
