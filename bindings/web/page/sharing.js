// SPDX-License-Identifier: MIT
// A link that carries the pond behind its "#", which no browser sends anywhere; and tables of the
// answers, copied or saved.

const coded = (text) => btoa(String.fromCharCode(...new TextEncoder().encode(text))).replace(/\+/g, "-").replace(/\//g, "_").replace(/=+$/, "");
const decoded = (code) => new TextDecoder().decode(Uint8Array.from(atob(code.replace(/-/g, "+").replace(/_/g, "/")), (c) => c.charCodeAt(0)));

async function copy(text, button) {
  const words = button.textContent;
  try { await navigator.clipboard.writeText(text); } catch (error) {		// a page from disk has none in some browsers
    const area = element("textarea", { class: "out", "aria-hidden": "true" });
    area.value = text;
    document.body.append(area);
    area.select();
    document.execCommand("copy");
    area.remove();
  }
  button.textContent = "Copied";
  setTimeout(() => { button.textContent = words; }, 1500);
}

const linkOf = () => location.href.replace(/#.*/, "") + "#pond=" + coded(JSON.stringify({ pond: app.pond, system: units.system, assumed: app.questions.assumed, fresh: app.fresh }));

// What a link brought, or null; it is taken out of the address, so that the next reload keeps what was changed.
function fromLink() {
  const code = /#pond=([\w-]+)/.exec(location.hash);
  if (!code) return null;
  history.replaceState(null, "", location.href.replace(/#.*/, ""));
  try { return JSON.parse(decoded(code[1])); } catch (error) {
    refuse("The link's pond cannot be read; it may have been cut short.");
    return null;
  }
}

const rowsOf = (table) => Array.from(table.rows, (row) => Array.from(row.cells, (cell) => cell.innerText.replace(/\s+/g, " ").trim()));
const quoted = (cell) => (/[",\n]/.test(cell) ? `"${cell.replace(/"/g, '""')}"` : cell);

// Under a table of numbers: copy it (for a spreadsheet), save it.
function tableTools(table) {
  const copying = element("button", { type: "button", class: "link", onclick: () => copy(rowsOf(table).map((r) => r.join("\t")).join("\n") + "\n", copying) }, "Copy the table");
  return element("p", { class: "tools" }, copying, element("button", { type: "button", class: "link",
    onclick: () => download(`${slug()}-table.csv`, rowsOf(table).map((r) => r.map(quoted).join(",")).join("\n") + "\n") }, "save it as CSV"));
}
