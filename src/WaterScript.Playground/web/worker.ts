// The compiler beside the page: one question after the other, each with its answer. Typing never waits for it.
export {};

type Loader = (type: string, name: string) => Promise<Response> | null;

interface Builder {
  withResourceLoader(loader: Loader): Builder;
  create(): Promise<Runtime>;
}

interface Runtime {
  getAssemblyExports(name: string): Promise<{ WaterScript: { Playground: { Program: { Answer(question: string): string } } } }>;
  getConfig(): { mainAssemblyName: string };
}

const framework = "./_framework/";
const parts = ["dotnet.js", "dotnet.runtime.js", "dotnet.native.js"];

/** All libraries, one after the other in one file, so that none waits for its turn: how long the list is, the list, and what it lists. */
const libraries = async () => {
  const bytes = await (await fetch(`${framework}libraries.bin`)).arrayBuffer();
  const start = 4 + new DataView(bytes).getUint32(0, true);
  const list = JSON.parse(new TextDecoder().decode(new Uint8Array(bytes, 4, start - 4))) as Record<string, [number, number]>;
  return (name: string) => {
    const [offset, length] = list[name]!;
    return new Response(new Uint8Array(bytes, start + offset, length), { headers: { "Content-Type": "application/wasm" } });
  };
};

const load = async () => {
  // Everything is asked for at once, not when its turn comes.
  const native = fetch(`${framework}dotnet.native.wasm`);
  const packed = libraries();
  const [{ dotnet }] = (await Promise.all(parts.map((part) => import(framework + part)))) as [{ dotnet: Builder }];
  const loader: Loader = (type, name) =>
    type === "dotnetwasm" ? native : type === "assembly" ? packed.then((library) => library(name)) : null;
  const runtime = await dotnet.withResourceLoader(loader).create();
  return (await runtime.getAssemblyExports(runtime.getConfig().mainAssemblyName)).WaterScript.Playground.Program;
};

const loaded = load();
loaded.then(
  () => postMessage({ id: 0, answer: "" }),
  (problem: unknown) => postMessage({ id: 0, failed: String(problem) }),
);

addEventListener("message", async ({ data: { id, question } }: MessageEvent<{ id: number; question: string }>) => {
  try {
    postMessage({ id, answer: (await loaded).Answer(question) });
  } catch (problem) {
    postMessage({ id, failed: String(problem) });
  }
});
