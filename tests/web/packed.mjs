// SPDX-License-Identifier: MIT
// What is packed into the page comes out as it was; its letters mean nothing in HTML.
//     node tests/web/packed.mjs
import { randomBytes } from "node:crypto";
import { LETTERS, lettered, letters, packed, unpacked } from "../../bindings/web/pack.mjs";

let passed = 0;
const failures = [];
function check(ok, what) {
  if (ok) passed += 1;
  else failures.push(what);
}

check(new Set(LETTERS).size === 85 && LETTERS.length === 85, "85 letters, each once");
check(/^[!-~]+$/.test(LETTERS) && !/[<>&"'`\\*/]/.test(LETTERS), "no letter ends an element, an attribute or a comment");
for (let size = 0; size < 64; size++) {
  for (const bytes of [randomBytes(size), Buffer.alloc(size, 0), Buffer.alloc(size, 255)]) {
    const text = letters(bytes);
    check(Buffer.from(lettered(text)).equals(bytes), `${size} bytes: ${bytes.toString("hex")}`);
    check(text.length === Math.ceil(size * 5 / 4), `${size} bytes are ${text.length} letters`);
  }
}
for (const size of [0, 1, 1000, 300000]) {
  const bytes = randomBytes(size);
  check(Buffer.from(await unpacked(packed(bytes))).equals(bytes), `${size} bytes, packed`);
}
const cut = packed(randomBytes(1000)).slice(0, 900);
check(await unpacked(cut).then(() => false, () => true), "what is cut is refused");
for (const what of failures) console.log("FAILED: " + what);
console.log(`packed: ${passed} checks passed, ${failures.length} failed`);
process.exit(failures.length ? 1 : 0);
