// Sources of Python modules in → their bytecode out, made by the very Python that browsers will run.
//
// node compile.mjs FOLDER IN OUT: FOLDER holds Pyodide; IN and OUT are JSON, base64 by path.
import { readFileSync, writeFileSync } from "node:fs";
import { pathToFileURL } from "node:url";

const [folder, given, made] = process.argv.slice(2);

const COMPILE = `
import base64, json
from importlib._bootstrap_external import _code_to_hash_pyc
from importlib.util import source_hash

def compiled(path, text):
    data = base64.b64decode(text)
    code = compile(data, path, "exec", dont_inherit=True, optimize=0)
    return base64.b64encode(_code_to_hash_pyc(code, source_hash(data), False)).decode()

json.dumps({path: compiled(path, text) for path, text in sorted(json.loads(given).items())})
`;

const { loadPyodide } = await import(pathToFileURL(`${folder}/pyodide.mjs`).href);
// Names in sets have the same order each time, and so have the bytes.
const python = await loadPyodide({ indexURL: `${folder}/`, env: { PYTHONHASHSEED: "0" } });
python.globals.set("given", readFileSync(given, "utf8"));
writeFileSync(made, python.runPython(COMPILE));
process.exit(0);
