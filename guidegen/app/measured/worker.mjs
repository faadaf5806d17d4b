// Made to measure: guidegen's own Python modules at work in a browser, beside the page.
//
// A message in is {id, do, …}, a message out is {id, …}: `stage` while it works, `answer` or `error`
// at its end. What is loaded lies in the two folders that the first message names; nothing else is
// asked for, and nothing is sent.
"use strict";

let python = null;
let bench = null;

// More is refused to Python and to GEOS, which then say that memory is at an end.
const MOST_MEMORY = 2 ** 30;
const grow = WebAssembly.Memory.prototype.grow;
WebAssembly.Memory.prototype.grow = function (pages) {
  if (this.buffer.byteLength + pages * 65536 > MOST_MEMORY) throw new RangeError("memory");
  return grow.call(this, pages);
};

const report = (id, more) => postMessage({ id, ...more });

const progress = (id) =>
  new TransformStream({
    transform(part, out) {
      report(id, { stage: "load", bytes: part.byteLength });
      out.enqueue(part);
    },
  });

const stream = async (id, address) => {
  const answer = await fetch(address);
  if (!answer.ok) throw new Error(`${address}: ${answer.status}`);
  return answer.body.pipeThrough(progress(id));
};

// What is sent compressed, whatever the server does about it.
const unpacked = async (id, address, type) =>
  new Response((await stream(id, address)).pipeThrough(new DecompressionStream("gzip")), { headers: { "Content-Type": type } });

const moduleOf = async (id, address) => {
  const script = await (await unpacked(id, address, "text/javascript")).blob();
  const name = URL.createObjectURL(new Blob([script], { type: "text/javascript" }));
  try {
    return (await import(name)).default;
  } finally {
    URL.revokeObjectURL(name);
  }
};

// GEOS as standins/geos.py asks it: geometries are addresses in its memory.
const libraryOf = (geos) => {
  const { Module } = geos;
  const scratch = Module._malloc(16);
  return {
    read(wkb) {
      const data = wkb.toJs ? wkb.toJs() : wkb;
      const at = Module._malloc(data.length);
      Module.HEAPU8.set(data, at);
      const found = geos.GEOSGeomFromWKB_buf(at, data.length);
      Module._free(at);
      return found;
    },
    write(geometry) {
      const at = geos.GEOSGeomToWKB_buf(geometry, scratch);
      const length = Module.getValue(scratch, "i32");
      const data = Module.HEAPU8.slice(at, at + length);
      geos.GEOSFree(at);
      return data;
    },
    call: (name, ...values) => geos[name](...values),
    number(name, ...values) {
      geos[name](...values, scratch);
      return Module.getValue(scratch, "double");
    },
    reason(geometry) {
      const at = geos.GEOSisValidReason(geometry);
      const words = Module.UTF8ToString(at);
      geos.GEOSFree(at);
      return words;
    },
    // Shapely's own defaults: 16 segments a quarter turn, mitres up to five times the width.
    buffer: (geometry, width, join) => geos.GEOSBufferWithStyle(geometry, width, 16, 1, join, 5),
  };
};

// Files of a tar archive into a folder.
const spread = (archive, folder, files) => {
  const text = new TextDecoder();
  const words = (from, to) => text.decode(archive.subarray(from, to)).replace(/\0.*$/, "");
  const made = new Set();
  for (let at = 0; archive[at]; ) {
    const [name, prefix] = [words(at, at + 100), words(at + 345, at + 500)];
    const path = `${folder}/${prefix ? `${prefix}/` : ""}${name}`;
    const size = parseInt(words(at + 124, at + 136), 8);
    const parent = path.slice(0, path.lastIndexOf("/"));
    if (!made.has(parent)) files.mkdirTree(parent);
    made.add(parent);
    files.writeFile(path, archive.subarray(at + 512, at + 512 + size));
    at += 512 + Math.ceil(size / 512) * 512;
  }
};

const BEGIN = `
from guidegen.app.measured.standins import recorded
recorded.replay()
from guidegen.app.measured.standins import geos, replacing
geos.use(library)
replacing.stand_in()
from guidegen.app.measured.making import open_workbench
open_workbench(order)
`;

const begin = async ({ id, core, own, order }) => {
  const at = (folder, name) => new URL(name, new URL(folder, location.href)).href;
  const wasm = unpacked(id, at(core, "pyodide.asm.wasm.gz"), "application/wasm");
  const ownFetch = self.fetch;
  // The loader knows one name for its core; what is sent under another is handed to it.
  self.fetch = (asked, ...more) =>
    String(asked.url ?? asked).endsWith("pyodide.asm.wasm") ? wasm : ownFetch(asked, ...more);
  const archive = unpacked(id, at(own, "library.tar.gz"), "application/x-tar").then((one) => one.arrayBuffer());
  const stdlib = unpacked(id, at(core, "python_stdlib.zip.gz"), "application/zip").then((one) => one.blob());
  const orderText = stream(id, order).then((body) => new Response(body).text());
  const createPyodideModule = await moduleOf(id, at(core, "pyodide.asm.mjs.gz"));
  const geosReady = moduleOf(id, at(core, "geos.mjs.gz")).then((start) => start());
  const stdLibURL = URL.createObjectURL(await stdlib);
  const { loadPyodide } = await import(at(core, "pyodide.mjs"));
  python = await loadPyodide({
    indexURL: new URL(core, location.href).href,
    createPyodideModule,
    stdLibURL,
    lockFileURL: at(core, "pyodide-lock.json"),
    packageBaseUrl: at(core, ""),
  });
  self.fetch = ownFetch;
  URL.revokeObjectURL(stdLibURL);
  report(id, { stage: "start" });
  const packages = python.runPython("import site; site.getsitepackages()[0]");
  spread(new Uint8Array(await archive), packages, python.FS);
  python.globals.set("library", libraryOf(await geosReady));
  python.globals.set("order", await orderText);
  bench = python.runPython(BEGIN);
  return {};
};

const plain = (proxy) => {
  const value = proxy.toJs({ dict_converter: Object.fromEntries, create_proxies: false });
  proxy.destroy();
  return value;
};

const make = async ({ id, body, sure, paper, bothSides, card }) => {
  report(id, { stage: "kit" });
  const kit = plain(bench.make_kit.callKwargs(python.toPy(body), { sure }));
  if (kit.problems.length) return kit;
  const tell = (stage) => report(id, { stage, kit });
  const pdf = bench.make_pages.callKwargs(paper, { both_sides: bothSides, card, tell });
  const bytes = pdf.toJs();
  pdf.destroy();
  return { ...kit, pdf: bytes };
};

const WORK = {
  begin,
  make,
  check: async ({ body }) => plain(bench.check(python.toPy(body))),
  nested: async ({ id }) => {
    for (const svg of bench.nested()) report(id, { stage: "nested", svg });
    return {};
  },
  mark: async () => ({ mark: bench.mark() }),
};

onmessage = async ({ data }) => {
  try {
    report(data.id, { answer: await WORK[data.do](data) });
  } catch (error) {
    report(data.id, { error: String(error?.message ?? error) });
  }
};
