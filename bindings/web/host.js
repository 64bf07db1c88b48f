// SPDX-License-Identifier: MIT
// What the program in WebAssembly runs on: files in memory, standard output, a
// clock, arguments (the part of WASI, preview 1, that its C library asks for),
// errors of Lua as exceptions (standin/lua_try.h), and `post`.
//
//     const host = new Host({ files, args, env, out, post });
//     host.run(module) -> exit status          as a command line
//     host.open(module); host.call(name, ...)  with a kept Lua state

const E = { SUCCESS: 0, BADF: 8, EXIST: 20, INVAL: 28, ISDIR: 31, NOENT: 44, NOTDIR: 54, SPIPE: 70, NOTSUP: 58 };
const FOLDER = 3, FILE = 4, DEVICE = 2, ROOT = 3;

class Exit extends Error {
  constructor(status) { super("exit " + status); this.status = status; }
}

class Host {
  // files: path -> Uint8Array; out(fd, bytes): what is printed; post(text)
  constructor({ files = new Map(), args = [], env = {}, out = () => {}, post = () => {} }) {
    Object.assign(this, { files, args, env, out, post });
    this.open_files = [{ device: true }, { device: true }, { device: true }, { folder: "" }];
    this.thrown = new Error("an error of Lua's");
  }

  // ---- memory ---------------------------------------------------------------

  get view() {
    const buffer = this.exports.memory.buffer;
    if (!this.kept_view || this.kept_view.buffer !== buffer) this.kept_view = new DataView(buffer);
    return this.kept_view;
  }
  bytes(at, n) { return new Uint8Array(this.exports.memory.buffer, at, n); }
  text(at, n) { return new TextDecoder().decode(this.bytes(at, n)); }
  u32(at, value) { this.view.setUint32(at, value, true); return E.SUCCESS; }
  u64(at, value) { this.view.setBigUint64(at, BigInt(value), true); return E.SUCCESS; }

  // Calls f(bytes) for each of a list of buffers; the sum of what it returns.
  each(list, count, f) {
    let sum = 0;
    for (let i = 0; i < count; i++) {
      const size = this.view.getUint32(list + 8 * i + 4, true), n = f(this.bytes(this.view.getUint32(list + 8 * i, true), size));
      sum += n;
      if (n < size) break;
    }
    return sum;
  }

  // ---- files ----------------------------------------------------------------

  path(fd, at, n) {
    const base = this.open_files[fd].folder, parts = [];
    for (const part of (base + "/" + this.text(at, n)).split("/")) {
      if (part === "..") parts.pop();
      else if (part !== "" && part !== ".") parts.push(part);
    }
    return parts.join("/");
  }
  isFolder(path) {
    if (path === "") return true;
    for (const name of this.files.keys()) if (name.startsWith(path + "/")) return true;
    return false;
  }
  inode(path) {
    this.inodes = this.inodes || new Map();
    if (!this.inodes.has(path)) this.inodes.set(path, this.inodes.size + 1);
    return this.inodes.get(path);
  }

  stat(at, type, size, inode) {
    this.bytes(at, 64).fill(0);
    this.u64(at, 1);
    this.u64(at + 8, inode);
    this.view.setUint8(at + 16, type);
    this.u64(at + 24, 1);
    return this.u64(at + 32, size);
  }
  statPath(path, at) {
    const file = this.files.get(path);
    if (file) return this.stat(at, FILE, file.length, this.inode(path));
    return this.isFolder(path) ? this.stat(at, FOLDER, 0, this.inode(path + "/")) : E.NOENT;
  }

  openPath(path, flags, write, to) {
    const CREATE = 1, DIRECTORY = 2, ONLY_NEW = 4, EMPTY = 8;
    let bytes = this.files.get(path), entry;
    if (!bytes && this.isFolder(path)) {
      if (write) return E.ISDIR;
      entry = { folder: path };
    } else {
      if (flags & DIRECTORY) return bytes ? E.NOTDIR : E.NOENT;
      if (bytes && flags & ONLY_NEW) return E.EXIST;
      if (!bytes && !(flags & CREATE)) return E.NOENT;
      if (!bytes || flags & EMPTY) this.files.set(path, bytes = new Uint8Array(0));
      entry = { path, at: 0 };
    }
    this.open_files.push(entry);
    return this.u32(to, this.open_files.length - 1);
  }

  write(file, bytes) {
    if (file.device) {
      this.out(this.open_files.indexOf(file), bytes.slice());
      return bytes.length;
    }
    const old = this.files.get(file.path), end = file.at + bytes.length;
    const now = end > old.length ? new Uint8Array(end) : old;
    if (now !== old) now.set(old);
    now.set(bytes, file.at);
    this.files.set(file.path, now);
    file.at = end;
    return bytes.length;
  }
  read(file, bytes) {
    if (file.device) return 0;
    const all = this.files.get(file.path), n = Math.max(0, Math.min(bytes.length, all.length - file.at));
    bytes.set(all.subarray(file.at, file.at + n));
    file.at += n;
    return n;
  }

  list(path) {
    const names = new Map(), from = path === "" ? "" : path + "/";
    for (const name of this.files.keys()) {
      if (!name.startsWith(from)) continue;
      const [first, ...rest] = name.slice(from.length).split("/");
      names.set(first, rest.length ? FOLDER : FILE);
    }
    return Array.from(names);
  }
  readFolder(entry, at, room, cookie, used) {
    const all = this.list(entry.folder);
    let n = 0;
    for (let i = Number(cookie); i < all.length && n < room; i++) {
      const name = new TextEncoder().encode(all[i][0]), record = new Uint8Array(24 + name.length), v = new DataView(record.buffer);
      v.setBigUint64(0, BigInt(i + 1), true);
      v.setUint32(16, name.length, true);
      v.setUint8(20, all[i][1]);
      record.set(name, 24);
      const part = record.subarray(0, room - n);
      this.bytes(at + n, part.length).set(part);
      n += part.length;
    }
    return this.u32(used, n);
  }

  // ---- the interface ----------------------------------------------------------

  // Texts with a zero behind each, as arguments and environment are handed over.
  texts(list, at, to) {
    for (const [i, text] of list.entries()) {
      const bytes = new TextEncoder().encode(text + "\0");
      this.u32(at + 4 * i, to);
      this.bytes(to, bytes.length).set(bytes);
      to += bytes.length;
    }
    return E.SUCCESS;
  }
  sizes(list, count, size) {
    this.u32(count, list.length);
    return this.u32(size, list.reduce((sum, text) => sum + new TextEncoder().encode(text).length + 1, 0));
  }

  wasi() {
    const env = Object.entries(this.env).map(([name, value]) => `${name}=${value}`);
    const file = (fd, f) => (this.open_files[fd] ? f(this.open_files[fd]) : E.BADF);
    return {
      args_get: (at, to) => this.texts(this.args, at, to),
      args_sizes_get: (count, size) => this.sizes(this.args, count, size),
      environ_get: (at, to) => this.texts(env, at, to),
      environ_sizes_get: (count, size) => this.sizes(env, count, size),
      clock_time_get: (id, _, to) => this.u64(to, Math.round((id === 0 ? Date.now() : performance.now()) * 1e6)),
      clock_res_get: (_, to) => this.u64(to, 1000),
      random_get: (at, n) => { crypto.getRandomValues(this.bytes(at, n)); return E.SUCCESS; },
      proc_exit: (status) => { throw new Exit(status); },
      fd_close: (fd) => file(fd, () => { this.open_files[fd] = null; return E.SUCCESS; }),
      fd_fdstat_get: (fd, at) => file(fd, (f) => {
        this.bytes(at, 24).fill(0);
        this.view.setUint8(at, f.device ? DEVICE : f.path === undefined ? FOLDER : FILE);
        this.u64(at + 8, "0x1fffffff");
        return this.u64(at + 16, "0x1fffffff");
      }),
      fd_fdstat_set_flags: () => E.SUCCESS,
      fd_filestat_get: (fd, at) => file(fd, (f) => {
        if (f.device) return this.stat(at, DEVICE, 0, 0);
        return this.statPath(f.path === undefined ? f.folder : f.path, at);
      }),
      fd_prestat_get: (fd, at) => (fd === ROOT ? this.u32(at, 0) || this.u32(at + 4, 1) : E.BADF),
      fd_prestat_dir_name: (fd, at) => { this.bytes(at, 1)[0] = ".".charCodeAt(0); return E.SUCCESS; },
      fd_read: (fd, list, count, to) => file(fd, (f) => (f.folder === undefined
        ? this.u32(to, this.each(list, count, (bytes) => this.read(f, bytes))) : E.ISDIR)),
      fd_write: (fd, list, count, to) => file(fd, (f) => this.u32(to, this.each(list, count, (bytes) => this.write(f, bytes)))),
      fd_seek: (fd, by, whence, to) => file(fd, (f) => {
        if (f.path === undefined) return E.SPIPE;
        f.at = Number(by) + [0, f.at, this.files.get(f.path).length][whence];
        return this.u64(to, f.at);
      }),
      fd_tell: (fd, to) => file(fd, (f) => this.u64(to, f.at || 0)),
      fd_renumber: (fd, to) => file(fd, (f) => { [this.open_files[to], this.open_files[fd]] = [f, null]; return E.SUCCESS; }),
      fd_sync: () => E.SUCCESS,
      fd_readdir: (fd, at, room, cookie, used) => file(fd, (f) => this.readFolder(f, at, room, cookie, used)),
      path_filestat_get: (fd, _, at, n, to) => this.statPath(this.path(fd, at, n), to),
      path_open: (fd, _, at, n, flags, rights, __, ___, to) => this.openPath(this.path(fd, at, n), flags, Boolean(rights & 64n), to),
      path_readlink: () => E.INVAL,
      path_rename: (fd, at, n, fd2, at2, n2) => {
        const from = this.path(fd, at, n), to = this.path(fd2, at2, n2);
        if (!this.files.has(from)) return E.NOENT;
        this.files.set(to, this.files.get(from));
        this.files.delete(from);
        return E.SUCCESS;
      },
      path_unlink_file: (fd, at, n) => (this.files.delete(this.path(fd, at, n)) ? E.SUCCESS : E.NOENT),
      path_remove_directory: () => E.NOTSUP,
    };
  }

  env_imports() {
    return {
      // Lua's protected call: an error comes back as an exception.
      try_call: (f, L, ud) => {
        const stack = this.exports.__stack_pointer.value;
        try {
          this.exports.__indirect_function_table.get(f)(L, ud);
        } catch (error) {
          if (error !== this.thrown) throw error;
          this.exports.__stack_pointer.value = stack;
        }
      },
      throw_now: () => { throw this.thrown; },
      post: (at, n) => this.post(this.text(at, n)),
    };
  }

  // ---- running --------------------------------------------------------------

  open(module) {
    const instance = new WebAssembly.Instance(module, { wasi_snapshot_preview1: this.wasi(), env: this.env_imports() });
    this.exports = instance.exports;
    this.exports._initialize();
  }

  // Calls an exported function with texts as argc and argv.
  withTexts(f, texts) {
    const { malloc, free } = this.exports, size = texts.reduce((sum, t) => sum + new TextEncoder().encode(t).length + 1, 0);
    const argv = malloc(4 * (texts.length + 1) + size);
    this.texts(texts, argv, argv + 4 * (texts.length + 1));
    this.u32(argv + 4 * texts.length, 0);
    try {
      return f(texts.length, argv);
    } finally {
      free(argv);
    }
  }

  // As a command line: exit status.
  run(module) {
    this.open(module);
    try {
      return this.withTexts(this.exports.tarn_main, this.args);
    } catch (error) {
      if (error instanceof Exit) return error.status;
      throw error;
    }
  }

  // A function of page.lua; 0, or 1 where the program itself failed.
  call(...texts) { return this.withTexts(this.exports.page_call, texts); }
}
