// Makes the page from what `dotnet publish` made of the compiler. build.mjs PUBLISHED OUT: the published folder, and the folder to make.
import { createHash } from "node:crypto";
import { cpSync, mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { dirname, join, relative } from "node:path";
import { fileURLToPath } from "node:url";
import { brotliCompressSync, constants } from "node:zlib";
import * as esbuild from "esbuild";

const here = dirname(fileURLToPath(import.meta.url));
const repository = join(here, "../..");
const [published, out] = process.argv.slice(2);
if (!published || !out) throw new Error("build.mjs PUBLISHED OUT");
const framework = join(published, "wwwroot/_framework");

const filesUnder = (folder) =>
  readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) => relative(folder, join(entry.parentPath ?? entry.path, entry.name)))
    .sort();

rmSync(out, { recursive: true, force: true });
mkdirSync(out, { recursive: true });
cpSync(join(here, "wwwroot"), out, { recursive: true });
// The settings stand in dotnet.js; maps and symbols are for who debugs the runtime.
const runtime = filesUnder(framework).filter((each) => !/\.(br|gz|map|symbols|pdb)$/.test(each));
const isLibrary = (file) => file.endsWith(".wasm") && file !== "dotnet.native.wasm";
for (const file of runtime.filter((each) => !isLibrary(each))) cpSync(join(framework, file), join(out, "_framework", file));

// All libraries in one file: the worker says how it is read. Two dozen requests wait for one another, and what is alike is packed once.
const libraries = runtime.filter(isLibrary).map((file) => [file, readFileSync(join(framework, file))]);
const list = {};
let offset = 0;
for (const [file, bytes] of libraries) {
  list[file] = [offset, bytes.length];
  offset += bytes.length;
}
const listed = Buffer.from(JSON.stringify(list));
const head = Buffer.alloc(4);
head.writeUInt32LE(listed.length);
writeFileSync(join(out, "_framework/libraries.bin"), Buffer.concat([head, listed, ...libraries.map(([, bytes]) => bytes)]));

const bundle = (name, more = {}) =>
  esbuild.build({
    entryPoints: [join(here, "web", `${name}.ts`)], outfile: join(out, `${name}.js`), bundle: true, format: "esm", target: "es2022", minify: true,
    legalComments: "none", absWorkingDir: here, ...more,
  });
await bundle("start", { format: "iife" });
await bundle("app");
await bundle("worker");

// Examples: each site with the files that it includes.
const texts = Object.fromEntries(
  filesUnder(join(repository, "examples"))
    .filter((file) => file.endsWith(".water"))
    .map((file) => [file, readFileSync(join(repository, "examples", file), "utf8")]),
);
const firstLine = /^site +([a-z0-9-]+)(?: +"([^"]*)")?/m;
const examples = Object.entries(texts)
  .filter(([, text]) => firstLine.test(text))
  .map(([file, text]) => {
    const [, name, label] = firstLine.exec(text);
    const folder = file.includes("/") ? file.slice(0, file.lastIndexOf("/") + 1) : "";
    const own = folder ? Object.entries(texts).filter(([other]) => other.startsWith(folder)) : [[file, text]];
    const files = Object.fromEntries(own.map(([other, each]) => [other.slice(folder.length), each]));
    return { name, label: label ?? name, site: { root: file.slice(folder.length), files } };
  });
writeFileSync(join(out, "examples.json"), JSON.stringify(examples));

// Licences of all that the page consists of.
const packages = JSON.parse(readFileSync(join(here, "package-lock.json"), "utf8")).packages;
const editorNotices = Object.entries(packages)
  .filter(([path, each]) => path.startsWith("node_modules/") && !each.dev && !each.optional)
  .map(([path, each]) => `${path.slice("node_modules/".length)} ${each.version} - ${each.license}\n\n${readFileSync(join(here, path, "LICENSE"), "utf8")}`);
const notices = [
  readFileSync(join(repository, "LICENSE"), "utf8"),
  readFileSync(join(repository, "src/WaterScript.Cli/THIRD-PARTY-NOTICES.txt"), "utf8"),
  readFileSync(join(published, "NOTICES-DOTNET.txt"), "utf8"),
  "The editor consists of these packages.\n",
  ...editorNotices,
];
writeFileSync(join(out, "notices.txt"), notices.join(`\n${"=".repeat(80)}\n\n`));

// Last, since it says what all the others contain.
const files = filesUnder(out);
const hash = createHash("sha256");
for (const file of files) hash.update(`${file}\0`).update(readFileSync(join(out, file)));
await bundle("offline", {
  format: "iife",
  define: { FILES: JSON.stringify(["./", ...files]), VERSION: JSON.stringify(hash.digest("hex").slice(0, 16)) },
});

// For servers that send what was packed before.
let raw = 0;
let packed = 0;
for (const file of filesUnder(out)) {
  const bytes = readFileSync(join(out, file));
  const small = brotliCompressSync(bytes, { params: { [constants.BROTLI_PARAM_QUALITY]: 11, [constants.BROTLI_PARAM_SIZE_HINT]: bytes.length } });
  writeFileSync(join(out, `${file}.br`), small);
  raw += bytes.length;
  packed += small.length;
}
console.log(`${files.length + 1} files, ${raw} bytes, ${packed} with brotli`);
