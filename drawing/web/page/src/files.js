// The files of the page, in memory, in the shape that Go programs expect of a file
// system in a browser: the callback functions of "fs" that they call.
"use strict";

// memoryFiles returns that file system; its nodes are maps (folders) and byte arrays.
// Standard streams go to out; here is the folder that relative names begin in.
function memoryFiles(out, here) {
  const root = new Map();
  const open = new Map(); // by number: { node, path, place, append }
  let next = 3, clock = 1;

  const trouble = (code) => Object.assign(new Error(code), { code });
  const steps = (path) => {
    const found = [];
    for (const s of (path.startsWith("/") ? path : here + "/" + path).split("/")) {
      if (s === "..") found.pop(); else if (s && s !== ".") found.push(s);
    }
    return found;
  };
  const find = (path) => {
    let node = { folder: root };
    for (const s of steps(path)) {
      if (!node.folder) throw trouble("ENOTDIR");
      node = node.folder.get(s);
      if (!node) throw trouble("ENOENT");
    }
    return node;
  };
  const home = (path) => {
    const all = steps(path), name = all.pop();
    if (!name) throw trouble("EEXIST");
    const parent = find("/" + all.join("/"));
    if (!parent.folder) throw trouble("ENOTDIR");
    return { parent: parent.folder, name };
  };
  const stat = (node) => ({
    dev: 1, ino: node.ino ??= clock++, nlink: 1, uid: 0, gid: 0, rdev: 0, blksize: 4096, blocks: 1,
    mode: node.folder ? 0o40755 : 0o100644, size: node.folder ? 0 : node.data.length,
    atimeMs: node.at || 0, mtimeMs: node.at || 0, ctimeMs: node.at || 0, isDirectory: () => !!node.folder,
  });
  // answer calls back with what f returns or throws, as the real ones do
  const answer = (done, f) => {
    let result;
    try { result = f(); } catch (e) { done(e.code ? e : trouble("EIO")); return; }
    done(null, result);
  };

  const constants = { O_RDONLY: 0, O_WRONLY: 1, O_RDWR: 2, O_CREAT: 64, O_EXCL: 128, O_TRUNC: 512, O_APPEND: 1024, O_DIRECTORY: 65536 };
  const resize = (node, size) => {
    const data = new Uint8Array(size);
    data.set(node.data.subarray(0, size));
    node.data = data;
    node.at = clock++;
  };

  const fs = {
    constants,
    writeSync(fd, bytes) { out(fd, bytes); return bytes.length; },
    write(fd, bytes, offset, length, position, done) {
      const piece = bytes.subarray(offset, offset + length);
      if (fd === 1 || fd === 2) { done(null, fs.writeSync(fd, piece)); return; }
      answer(done, () => {
        const f = open.get(fd);
        if (!f) throw trouble("EBADF");
        const at = position ?? (f.append ? f.node.data.length : f.place);
        if (at + length > f.node.data.length) resize(f.node, at + length);
        f.node.data.set(piece, at);
        if (position === null) f.place = at + length;
        return length;
      });
    },
    read(fd, buffer, offset, length, position, done) {
      answer(done, () => {
        const f = open.get(fd);
        if (!f) { if (fd === 0) return 0; throw trouble("EBADF"); }
        if (f.node.folder) throw trouble("EISDIR");
        const at = position ?? f.place, piece = f.node.data.subarray(at, at + length);
        buffer.set(piece, offset);
        if (position === null) f.place += piece.length;
        return piece.length;
      });
    },
    open(path, flags, mode, done) {
      answer(done, () => {
        let node;
        try { node = find(path); } catch (e) {
          if (e.code !== "ENOENT" || !(flags & constants.O_CREAT)) throw e;
          const { parent, name } = home(path);
          parent.set(name, node = { data: new Uint8Array(0), at: clock++ });
          flags &= ~constants.O_EXCL;
        }
        if (flags & constants.O_CREAT && flags & constants.O_EXCL) throw trouble("EEXIST");
        if (flags & 3 && node.folder) throw trouble("EISDIR");
        if (flags & constants.O_TRUNC) resize(node, 0);
        open.set(next, { node, place: 0, append: !!(flags & constants.O_APPEND) });
        return next++;
      });
    },
    close(fd, done) { answer(done, () => { open.delete(fd); }); },
    fstat(fd, done) { answer(done, () => { const f = open.get(fd); if (!f) throw trouble("EBADF"); return stat(f.node); }); },
    stat(path, done) { answer(done, () => stat(find(path))); },
    lstat(path, done) { fs.stat(path, done); },
    readdir(path, done) {
      answer(done, () => { const n = find(path); if (!n.folder) throw trouble("ENOTDIR"); return [...n.folder.keys()]; });
    },
    mkdir(path, mode, done) {
      answer(done, () => {
        const { parent, name } = home(path);
        if (parent.has(name)) throw trouble("EEXIST");
        parent.set(name, { folder: new Map(), at: clock++ });
      });
    },
    unlink(path, done) {
      answer(done, () => {
        const { parent, name } = home(path);
        if (!parent.has(name)) throw trouble("ENOENT");
        if (parent.get(name).folder) throw trouble("EISDIR");
        parent.delete(name);
      });
    },
    rmdir(path, done) {
      answer(done, () => {
        const { parent, name } = home(path), node = parent.get(name);
        if (!node) throw trouble("ENOENT");
        if (!node.folder) throw trouble("ENOTDIR");
        if (node.folder.size) throw trouble("ENOTEMPTY");
        parent.delete(name);
      });
    },
    rename(from, to, done) {
      answer(done, () => {
        const a = home(from), b = home(to), node = a.parent.get(a.name);
        if (!node) throw trouble("ENOENT");
        a.parent.delete(a.name);
        b.parent.set(b.name, node);
      });
    },
    ftruncate(fd, length, done) { answer(done, () => resize(open.get(fd).node, length)); },
    truncate(path, length, done) { answer(done, () => resize(find(path), length)); },
    fsync(fd, done) { done(null); },
    utimes(path, atime, mtime, done) { answer(done, () => { find(path); }); },
  };
  for (const none of ["chmod", "chown", "fchmod", "fchown", "lchown", "link", "readlink", "symlink"]) {
    fs[none] = (...args) => args[args.length - 1](trouble("ENOSYS"));
  }

  return {
    fs,
    put(path, bytes) {
      const all = steps(path), name = all.pop();
      let folder = root;
      for (const s of all) {
        if (!folder.has(s)) folder.set(s, { folder: new Map() });
        folder = folder.get(s).folder;
      }
      folder.set(name, { data: bytes, at: clock++ });
    },
    get(path) { try { return find(path).data; } catch { return undefined; } },
    list(path) { try { return [...find(path).folder.keys()]; } catch { return []; } },
    clear(path) { try { find(path).folder.clear(); } catch { /* nothing there */ } },
  };
}
