// A real server, spoken to as an editor does.
import { spawn } from 'node:child_process';

export class Server {
  #answers = new Map();
  #waiting = [];
  #seen = [];
  #held = Buffer.alloc(0);
  #next = 0;

  constructor(program, folder) {
    this.process = spawn(program, ['lsp'], { cwd: folder, stdio: ['pipe', 'pipe', 'inherit'] });
    this.process.stdout.on('data', chunk => this.#read(chunk));
  }

  ask(method, params) {
    const id = ++this.#next;
    this.#send({ jsonrpc: '2.0', id, method, params });
    return new Promise((answer, fail) => this.#answers.set(id, { answer, fail, method }));
  }

  say(method, params) {
    this.#send({ jsonrpc: '2.0', method, params });
  }

  /** What the server said, or says next, by that method. */
  heard(method) {
    const at = this.#seen.findIndex(message => message.method === method);
    if (at >= 0) return Promise.resolve(this.#seen.splice(at, 1)[0].params);
    return new Promise(answer => this.#waiting.push({ method, answer }));
  }

  async end() {
    await this.ask('shutdown', {});
    this.say('exit', {});
    return new Promise(done => this.process.on('exit', done));
  }

  #send(message) {
    const body = Buffer.from(JSON.stringify(message));
    this.process.stdin.write(`Content-Length: ${body.length}\r\n\r\n`);
    this.process.stdin.write(body);
  }

  #read(chunk) {
    this.#held = Buffer.concat([this.#held, chunk]);
    for (;;) {
      const end = this.#held.indexOf('\r\n\r\n');
      if (end < 0) return;
      const length = Number(/Content-Length: (\d+)/.exec(this.#held.toString('latin1', 0, end))[1]);
      if (this.#held.length < end + 4 + length) return;
      this.#take(JSON.parse(this.#held.toString('utf8', end + 4, end + 4 + length)));
      this.#held = this.#held.subarray(end + 4 + length);
    }
  }

  #take(message) {
    if (message.method) {
      const at = this.#waiting.findIndex(each => each.method === message.method);
      if (at >= 0) this.#waiting.splice(at, 1)[0].answer(message.params);
      else this.#seen.push(message);
      return;
    }

    const asked = this.#answers.get(message.id);
    this.#answers.delete(message.id);
    if (message.error) asked.fail(new Error(`${asked.method}: ${message.error.message}`));
    else asked.answer(message.result);
  }
}
