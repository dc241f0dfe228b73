// Runs pytest on the Python of Pyodide, CPython compiled to WebAssembly, in the current folder.
//
// Usage: node webassembly.mjs PYODIDE SITE RESULTS [ARGUMENT...]
//
// PYODIDE is the folder of the npm package, SITE one of installed packages, RESULTS one that pytest may write to. The
// arguments are pytest's, and so is the exit code. There are no processes, threads and sockets in there.
import { pathToFileURL } from "node:url";

const [pyodide, site, results, ...options] = process.argv.slice(2);
const { loadPyodide } = await import(pathToFileURL(`${pyodide}/pyodide.mjs`));
const python = await loadPyodide({ env: { HOME: "/tmp", PYTEST_ADDOPTS: process.env.PYTEST_ADDOPTS ?? "" } });
for (const folder of [site, results, process.cwd()]) python.mountNodeFS(folder, folder);
python.globals.set("given", python.toPy({ site, folder: process.cwd(), options }));
process.exitCode = python.runPython(`
import os, sys
sys.path.insert(0, given["site"])
os.chdir(given["folder"])
import pytest
print("Python", sys.version)
int(pytest.main(given["options"]))
`);
