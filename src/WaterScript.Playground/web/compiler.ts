// The compiler, as the page sees it. It opens a text before it answers anything, and what it is asked meanwhile is asked of the latest text.
import type { NoAnswer, Question } from "./protocol";

export interface SiteText {
  root: string;
  files: Record<string, string>;
}

interface Waiting {
  resolve(answer: unknown): void;
  reject(problem: Error): void;
}

/** A check of an older text that takes longer than this is given up: the worker is ended, and a new one begins. */
const patience = 3000;

/** An answer that is not needed any more: the text has changed meanwhile. */
export class Outdated extends Error {}

/** An answer that there is not, with the reason in words. */
export class Refused extends Error {}

export class Compiler {
  private worker!: Worker;
  private waiting = new Map<number, Waiting>();
  private number = 0;
  private version = 0;
  private openVersion = -1;
  private opening: Promise<unknown> = Promise.resolve();
  private busySince = 0;
  private site: SiteText = { root: "", files: {} };

  constructor(private readonly failed: (problem: string) => void) {
    this.start();
  }

  /** Another text; what was asked about the one before is not answered any more. */
  change(site: SiteText): void {
    this.site = site;
    this.version++;
    if (this.waiting.size > 0 && performance.now() - this.busySince > patience) this.start();
  }

  /** Asks about the text as it is now. */
  async ask<T>(question: Question): Promise<T | null> {
    const version = this.version;
    await this.opened();
    if (version !== this.version) throw new Outdated();
    const answer = await this.send<T>(question);
    if (version !== this.version) throw new Outdated();
    return answer;
  }

  /** Has the text opened, once. */
  private opened(): Promise<unknown> {
    if (this.openVersion !== this.version) {
      this.openVersion = this.version;
      this.opening = this.send({ method: "open", ...this.site });
    }

    return this.opening;
  }

  private start(): void {
    if (this.number > 0) this.worker.terminate();
    for (const each of this.waiting.values()) each.reject(new Outdated());
    this.waiting.clear();
    this.openVersion = -1;
    this.number++;
    const begun = globalThis as { started?: Worker };
    this.worker = begun.started ?? new Worker("worker.js", { type: "module" });
    delete begun.started;
    this.worker.addEventListener("message", ({ data }: MessageEvent<{ id: number; answer?: string; failed?: string }>) => this.answered(data));
    this.worker.addEventListener("error", (problem) => this.failed(problem.message));
  }

  private answered({ id, answer, failed }: { id: number; answer?: string; failed?: string }): void {
    if (id === 0 && failed !== undefined) this.failed(failed);
    const waiting = this.waiting.get(id);
    if (!waiting) return;
    this.waiting.delete(id);
    this.busySince = performance.now();
    if (failed !== undefined) {
      this.failed(failed);
      waiting.reject(new Refused(failed));
    } else waiting.resolve(JSON.parse(answer!));
  }

  private async send<T>(question: Question): Promise<T | null> {
    const id = ++this.number;
    if (this.waiting.size === 0) this.busySince = performance.now();
    const answer = await new Promise<unknown>((resolve, reject) => {
      this.waiting.set(id, { resolve, reject });
      this.worker.postMessage({ id, question: JSON.stringify(question) });
    });
    const none = answer as NoAnswer;
    if (typeof none.problem === "string") throw new Refused(none.problem);
    return none.problem === null ? null : (answer as T);
  }
}
