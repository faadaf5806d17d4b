// Sources of Python modules in → their bytecode out, made by the very Python that browsers will run.
//
// node compile.mjs FOLDER IN OUT: FOLDER holds Pyodide; IN and OUT are JSON, base64 by path. Where our
// own modules are among them, what importing them compiles comes out too.
import { readFileSync, writeFileSync, writeSync } from "node:fs";
import { pathToFileURL } from "node:url";

const [folder, given, made] = process.argv.slice(2);

const OURS = "guidegen/app/measured/making.py";

const COMPILE = `
import base64, json
from importlib._bootstrap_external import _code_to_hash_pyc
from importlib.util import source_hash

def compiled(path, text):
    data = base64.b64decode(text)
    code = compile(data, path, "exec", dont_inherit=True, optimize=0)
    return base64.b64encode(_code_to_hash_pyc(code, source_hash(data), False)).decode()

made = {path + "c": compiled(path, text) for path, text in sorted(json.loads(given).items())}
`;

// Importing our own modules makes data classes and patterns: what that takes is noted for browsers.
const RECORD = `
import sys
from pathlib import Path
here = Path("/recording")
for path, data in made.items():
    (here / path).parent.mkdir(parents=True, exist_ok=True)
    (here / path).write_bytes(base64.b64decode(data))
sys.path.append(str(here))
from guidegen.app.measured.standins import recorded
written = recorded.record()
from guidegen.app.measured.standins import replacing
replacing.stand_in()
import guidegen.app.measured.making
made["guidegen/app/measured/standins/recorded.bin"] = base64.b64encode(written()).decode()
`;

try {
  const { loadPyodide } = await import(pathToFileURL(`${folder}/pyodide.mjs`).href);
  // Names in sets have the same order each time, and so have the bytes.
  const python = await loadPyodide({ indexURL: `${folder}/`, env: { PYTHONHASHSEED: "0" } });
  const sources = readFileSync(given, "utf8");
  python.globals.set("given", sources);
  python.runPython(COMPILE);
  if (OURS in JSON.parse(sources)) python.runPython(RECORD);
  writeFileSync(made, python.runPython("json.dumps(made)"));
} catch (error) {
  // Left to itself Node shows the line of the script, of 50,000 letters, and not the error.
  writeSync(2, `${error.name}: ${error.message}`);
  process.exit(1);
}
process.exit(0);
