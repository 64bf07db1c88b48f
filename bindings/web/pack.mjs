// SPDX-License-Identifier: MIT
// Bytes as text that an HTML file can hold; page/unpack.js undoes it and has the letters.
import { readFileSync } from "node:fs";
import { gzipSync } from "node:zlib";

const source = readFileSync(new URL("page/unpack.js", import.meta.url), "utf8");
export const { LETTERS, lettered, unpacked } = new Function(source + "; return { LETTERS, lettered, unpacked };")();

// Five letters for each four bytes, and for a rest of one to three one more than it has.
export function letters(bytes) {
  const out = [];
  for (let at = 0; at < bytes.length; at += 4) {
    const count = Math.min(4, bytes.length - at);
    let number = 0;
    for (let k = count - 1; k >= 0; k--) number = number * 256 + bytes[at + k];
    for (let k = 0; k <= count; k++) {
      out.push(LETTERS[number % 85]);
      number = Math.floor(number / 85);
    }
  }
  return out.join("");
}

export const packed = (bytes) => letters(gzipSync(bytes, { level: 9 }));
