// The compiler takes longest to start: it begins before the editor is there.
(globalThis as { started?: Worker }).started = new Worker("worker.js", { type: "module" });
