// SPDX-License-Identifier: MIT
// Bytes of what build.mjs has packed into the page (pack.mjs): gzip, each four bytes a
// number below 2^32 and that five letters of 85, the least first.  No letter has a meaning in HTML.

const LETTERS = "!#$%()+,-.0123456789:;=?@ABCDEFGHIJKLMNOPQRSTUVWXYZ[]^_abcdefghijklmnopqrstuvwxyz{|}~";

// The bytes behind letters: five for each four bytes, and of a rest one more than it has.
function lettered(text) {
  const value = new Uint8Array(128), rest = text.length % 5, whole = (text.length - rest) / 5;
  for (let i = 0; i < 85; i++) value[LETTERS.charCodeAt(i)] = i;
  const out = new DataView(new ArrayBuffer(whole * 4 + (rest ? 4 : 0)));
  for (let i = 0, at = 0; at < text.length; i += 4, at += 5) {
    let number = 0;
    for (let k = Math.min(at + 5, text.length) - 1; k >= at; k--) number = number * 85 + value[text.charCodeAt(k)];
    out.setUint32(i, number, true);
  }
  return new Uint8Array(out.buffer, 0, whole * 4 + (rest ? rest - 1 : 0));
}

async function unpacked(text) {
  return new Response(new Blob([lettered(text)]).stream().pipeThrough(new DecompressionStream("gzip"))).arrayBuffer();
}
