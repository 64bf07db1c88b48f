// SPDX-License-Identifier: MIT
// The page's program under node: the same host, files in memory.
import { readFileSync, readdirSync, statSync } from "node:fs";
import { join } from "node:path";

export const Host = new Function(readFileSync("bindings/web/host.js", "utf8") + "; return Host;")();

export const compiled = (build) => new WebAssembly.Module(readFileSync(join(build, "web/tarn.wasm")));

// Files below these folders and of these names, as the program finds them.
export function filesOf(...paths) {
  const files = new Map();
  const add = (path) => {
    if (statSync(path).isDirectory()) for (const name of readdirSync(path)) add(join(path, name));
    else files.set(path, new Uint8Array(readFileSync(path)));
  };
  paths.forEach(add);
  return files;
}

// One command line: { status, out, err, files }.
export function run(module, files, args) {
  const said = { 1: [], 2: [] };
  const host = new Host({ files, args: ["tarn", ...args], env: { TARN_SCRIPTS: "scripts" }, out: (fd, bytes) => said[fd].push(bytes) });
  const status = host.run(module);
  return { status, out: Buffer.concat(said[1]), err: Buffer.concat(said[2]).toString(), files };
}
