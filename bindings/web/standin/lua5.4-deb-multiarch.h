/* SPDX-License-Identifier: MIT
 * Where Debian keeps modules of Lua; there are none here. */
#define DEB_HOST_MULTIARCH "wasm32-wasi"
