// Says what is shipped, as CycloneDX 1.6: a document each for the program, the library and the page. sbom.mjs OUT VERSION EPOCH
// The lock files name the packages; what has nothing under lib/ only builds, and is not shipped. The same lock files give the same bytes.
import { createHash } from "node:crypto";
import { existsSync, readFileSync, writeFileSync } from "node:fs";
import { homedir } from "node:os";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";

const [out, version, epoch] = process.argv.slice(2);
const root = join(dirname(fileURLToPath(import.meta.url)), "..");
const packages = process.env.NUGET_PACKAGES || join(homedir(), ".nuget/packages");
const json = (path) => JSON.parse(readFileSync(join(root, path), "utf8"));
const toolchain = /<ToolchainVersion>(.*)<\/ToolchainVersion>/.exec(readFileSync(join(root, "Directory.Build.props"), "utf8"))[1];

const folderOf = (name, of) => join(packages, name.toLowerCase(), of);

const licenceOf = (name, of) => {
  const description = readFileSync(join(folderOf(name, of), `${name.toLowerCase()}.nuspec`), "utf8");
  const stated = /<license type="expression">([^<]+)<\/license>/.exec(description)?.[1];
  if (!stated) throw new Error(`${name} ${of} states no licence`);
  return stated;
};

const ofNuGet = (name, of, hash) => ({
  type: "library",
  "bom-ref": `pkg:nuget/${name}@${of}`,
  name,
  version: of,
  scope: "required",
  ...(hash ? { hashes: [{ alg: "SHA-512", content: Buffer.from(hash, "base64").toString("hex") }] } : {}),
  licenses: [{ license: { id: licenceOf(name, of) } }],
  purl: `pkg:nuget/${name}@${of}`,
});

// Packages of a lock file that end up in what is shipped, and what each of them needs.
const fromLockFile = (path) => {
  const entries = Object.values(json(path).dependencies).flatMap((framework) => Object.entries(framework));
  const shipped = new Map();
  for (const [name, entry] of entries)
    if (entry.type !== "Project" && existsSync(join(folderOf(name, entry.resolved), "lib"))) shipped.set(name, entry);
  const refOf = (name) => `pkg:nuget/${name}@${shipped.get(name).resolved}`;
  return {
    components: [...shipped].map(([name, entry]) => ofNuGet(name, entry.resolved, entry.contentHash)),
    needs: [...shipped].map(([name, entry]) => ({
      ref: refOf(name),
      dependsOn: Object.keys(entry.dependencies ?? {}).filter((each) => shipped.has(each)).map(refOf).sort(),
    })),
    direct: [...shipped.keys()].map(refOf),
  };
};

const runtime = (name) => ({
  type: "framework",
  "bom-ref": `pkg:nuget/${name}@${toolchain}`,
  name,
  version: toolchain,
  scope: "required",
  licenses: [{ license: { id: "MIT" } }],
  purl: `pkg:nuget/${name}@${toolchain}`,
});

const fromNpm = (path) => {
  const all = Object.entries(json(path).packages).filter(([at, each]) => at.startsWith("node_modules/") && !each.dev && !each.optional);
  const purlOf = (name, of) => `pkg:npm/${name.replace("@", "%40")}@${of}`;
  const versions = Object.fromEntries(all.map(([at, each]) => [at.slice("node_modules/".length), each.version]));
  return {
    components: all.map(([at, each]) => {
      const name = at.slice("node_modules/".length);
      const [group, own] = name.includes("/") ? name.split("/") : [undefined, name];
      const [algorithm, hash] = each.integrity.split("-");
      return {
        type: "library",
        "bom-ref": purlOf(name, each.version),
        ...(group ? { group } : {}),
        name: own,
        version: each.version,
        scope: "required",
        hashes: [{ alg: algorithm.replace("sha", "SHA-"), content: Buffer.from(hash, "base64").toString("hex") }],
        licenses: [{ license: { id: each.license } }],
        purl: purlOf(name, each.version),
      };
    }),
    needs: all.map(([at, each]) => ({
      ref: purlOf(at.slice("node_modules/".length), each.version),
      dependsOn: Object.keys(each.dependencies ?? {}).filter((name) => versions[name]).map((name) => purlOf(name, versions[name])).sort(),
    })),
    direct: all.map(([at, each]) => purlOf(at.slice("node_modules/".length), each.version)),
  };
};

const uuidOf = (text) => {
  const hex = createHash("sha256").update(text).digest("hex");
  return `urn:uuid:${hex.slice(0, 8)}-${hex.slice(8, 12)}-5${hex.slice(13, 16)}-a${hex.slice(17, 20)}-${hex.slice(20, 32)}`;
};

const write = (file, name, type, purl, parts) => {
  const by = (key) => (one, other) => (one[key] < other[key] ? -1 : 1);
  const components = parts.flatMap((part) => part.components).sort(by("bom-ref"));
  const document = {
    $schema: "http://cyclonedx.org/schema/bom-1.6.schema.json",
    bomFormat: "CycloneDX",
    specVersion: "1.6",
    version: 1,
    metadata: {
      timestamp: new Date(Number(epoch) * 1000).toISOString().replace(".000Z", "Z"),
      component: { type, "bom-ref": purl, name, version, licenses: [{ license: { id: "MIT" } }], purl },
    },
    components,
    dependencies: [{ ref: purl, dependsOn: parts.flatMap((part) => part.direct).sort() }, ...parts.flatMap((part) => part.needs).sort(by("ref"))],
  };
  const whole = { ...document, serialNumber: uuidOf(JSON.stringify(document)) };
  writeFileSync(join(out, file), `${JSON.stringify(whole, null, 2)}\n`);
};

const withRuntime = (name) => {
  const component = runtime(name);
  return { components: [component], needs: [{ ref: component["bom-ref"], dependsOn: [] }], direct: [component["bom-ref"]] };
};

const program = fromLockFile("src/WaterScript.Cli/packages.lock.json");
const library = fromLockFile("src/WaterScript/packages.lock.json");
write(`waterscript-${version}.cdx.json`, "waterscript", "application", `pkg:generic/waterscript@${version}`,
  [program, withRuntime("Microsoft.NETCore.App.Runtime.NativeAOT")]);
write(`WaterScript.${version}.cdx.json`, "WaterScript", "library", `pkg:nuget/WaterScript@${version}`, [library]);
write(`waterscript-playground-${version}.cdx.json`, "waterscript-playground", "application", `pkg:generic/waterscript-playground@${version}`,
  [library, withRuntime("Microsoft.NETCore.App.Runtime.Mono.browser-wasm"), fromNpm("src/WaterScript.Playground/package-lock.json")]);
