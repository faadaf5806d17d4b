// The program that pages load, under Node: for each body its kit's mark and its PDF's hash, or codes.
//
// node bodies_in_node.mjs FOLDER: FOLDER holds core/ and own/ of a bundle, order.json and bodies.json.
// A line of JSON for each body comes out, with the seconds of CPU that it took.
import { createHash } from "node:crypto";
import { readFileSync, writeFileSync } from "node:fs";
import { pathToFileURL } from "node:url";
import { gunzipSync } from "node:zlib";

const folder = process.argv[2];
const seconds = () => {
  const { user, system } = process.cpuUsage();
  return Math.round((user + system) / 1e4) / 100;
};
const file = (name) => readFileSync(`${folder}/${name}`);
const unpacked = (name, to) => {
  writeFileSync(`${folder}/core/${to}`, gunzipSync(file(`core/${name}`)));
  return pathToFileURL(`${folder}/core/${to}`).href;
};

// What the worker does in a browser, out of its own text.
const worker = file("own/worker.mjs").toString();
const part = (name) => new Function(`${new RegExp(`const ${name} = [\\s\\S]*?\\n};\\n`).exec(worker)[0]} return ${name};`)();
const begin = /const BEGIN = `([\s\S]*?)`;/.exec(worker)[1];

unpacked("pyodide.asm.wasm.gz", "pyodide.asm.wasm");
const createPyodideModule = (await import(unpacked("pyodide.asm.mjs.gz", "pyodide.asm.mjs"))).default;
unpacked("python_stdlib.zip.gz", "python_stdlib.zip");
const geos = (await import(unpacked("geos.mjs.gz", "geos.mjs"))).default;
const { loadPyodide } = await import(pathToFileURL(`${folder}/core/pyodide.mjs`).href);
const started = seconds();
const python = await loadPyodide({ indexURL: `${folder}/core/`, createPyodideModule });
const loaded = seconds();
const packages = python.runPython("import site; site.getsitepackages()[0]");
part("spread")(new Uint8Array(gunzipSync(file("own/library.tar.gz"))), packages, python.FS);
python.globals.set("library", part("libraryOf")(await geos()));
python.globals.set("order", file("order.json").toString());
const bench = python.runPython(begin);
console.log(JSON.stringify({ python: loaded - started, begun: seconds() - loaded }));

for (const body of JSON.parse(file("bodies.json"))) {
  const before = seconds();
  const kit = bench.make_kit.callKwargs(python.toPy(body), { sure: false }).toJs({ dict_converter: Object.fromEntries });
  const made = seconds();
  if (kit.problems.length) {
    console.log(JSON.stringify({ codes: kit.problems.map(({ code }) => code) }));
    continue;
  }
  const pdf = bench.make_pages.callKwargs("a4", { both_sides: false, card: false, tell: () => 0 }).toJs();
  const sum = createHash("sha256").update(pdf).digest("hex");
  const took = { kit: made - before, pages: seconds() - made };
  console.log(JSON.stringify({ mark: bench.mark(), pdf: sum, took }));
}
process.exit(0);
