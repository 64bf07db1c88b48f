// SPDX-License-Identifier: MIT
// Workbooks (.xlsx): their sheets as text with commas, which the program reads as any other
// file.  A cell is what the sheet has: a date as year-month-day, a number with all its digits.

const DAY_ZERO = Date.UTC(1900, 0, 1);	// what is before is a time alone

class Workbook {
  constructor(sheets) {
    this.sheets = sheets.map(({ sheet, data }) => ({ name: sheet, rows: data.filter((row) => row.some((cell) => cell !== null && cell !== "")) }));
    this.name = this.sheets.reduce((most, s) => (s.rows.length > most.rows.length ? s : most)).name;
  }

  // The workbook in a file; null if it is none, or one that cannot be opened: the program
  // says so.
  static async in(bytes) {
    if (bytes[0] !== 0x50 || bytes[1] !== 0x4b) return null;
    try {
      return new Workbook(await readXlsxFile(new Blob([bytes])));
    } catch (error) {
      return null;
    }
  }

  // The chosen sheet as bytes of a file.
  bytes() {
    const { rows } = this.sheets.find((s) => s.name === this.name), width = Math.max(0, ...rows.map((row) => row.length));
    const columns = Array.from({ length: width }, (_, i) => Workbook.writer(rows.map((row) => row[i])));
    return new TextEncoder().encode(rows.map((row) => columns.map((write, i) => write(row[i])).join(",") + "\n").join(""));
  }

  // How cells of a column are written: its dates all with a time, or none.
  static writer(cells) {
    const dates = cells.filter((cell) => cell instanceof Date).map(Workbook.second);
    const timed = dates.some((d) => d.getTime() % 864e5 !== 0), alone = dates.every((d) => d.getTime() < DAY_ZERO);
    return (cell) => {
      if (cell === null || cell === undefined) return "";
      if (cell instanceof Date) {
        const iso = Workbook.second(cell).toISOString();
        return alone ? iso.slice(11, 16) : iso.slice(0, timed ? 16 : 10);
      }
      const text = String(cell);
      return /[",\r\n]/.test(text) ? `"${text.replace(/"/g, '""').replace(/\s*[\r\n]+\s*/g, " ")}"` : text;
    };
  }

  // Times are fractions of a day, which are seldom a whole second.
  static second(date) { return new Date(Math.round(date.getTime() / 1000) * 1000); }
}
