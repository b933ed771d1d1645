// The compiler beside the page: one question after the other, each with its answer. Typing never waits for it.
export {};

interface Runtime {
  getAssemblyExports(name: string): Promise<{ WaterScript: { Playground: { Program: { Answer(question: string): string } } } }>;
  getConfig(): { mainAssemblyName: string };
}

const load = async () => {
  const path = "./_framework/dotnet.js";
  const { dotnet } = (await import(path)) as { dotnet: { create(): Promise<Runtime> } };
  const runtime = await dotnet.create();
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
