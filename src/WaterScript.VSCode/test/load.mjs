// A source file of the extension as a module, without the editor around it.
import { readFileSync } from 'node:fs';
import { transformSync } from 'esbuild';

export function load(name) {
  const source = readFileSync(new URL(`../src/${name}`, import.meta.url), 'utf8');
  return import(`data:text/javascript,${encodeURIComponent(transformSync(source, { loader: 'ts', format: 'esm' }).code)}`);
}
