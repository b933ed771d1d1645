// What npm packs into the extension, with the licences that the packages themselves have: as much as is in it, and no more.
import assert from 'node:assert/strict';
import { existsSync, readFileSync, readdirSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import test from 'node:test';
import { build } from 'esbuild';

const folder = fileURLToPath(new URL('..', import.meta.url));
const file = new URL('../THIRD-PARTY-NOTICES.txt', import.meta.url);

async function bundled() {
  const { metafile } = await build({
    absWorkingDir: folder, entryPoints: ['src/extension.ts'], bundle: true, write: false, metafile: true,
    external: ['vscode'], format: 'cjs', platform: 'node', target: 'node20', logLevel: 'silent',
  });
  const [output] = Object.values(metafile.outputs);
  const names = Object.entries(output.inputs).filter(([, input]) => input.bytesInOutput > 0)
    .map(([path]) => /^(node_modules\/(?:.*\/node_modules\/)?(?:@[^/]+\/)?[^/]+)\//.exec(path)?.[1]).filter(Boolean);
  return [...new Set(names)].sort();
}

function noticeOf(path) {
  const at = new URL(`../${path}/`, import.meta.url);
  const about = JSON.parse(readFileSync(new URL('package.json', at), 'utf8'));
  const licence = readdirSync(at).find(name => /^licen[cs]e(\.|$)/i.test(name));
  assert.ok(licence, `${about.name} has no licence beside it`);
  const text = readFileSync(new URL(licence, at), 'utf8').replaceAll('\r\n', '\n').trim();
  return `${about.name} ${about.version} - ${about.license}\n\n${text}`;
}

const rule = `\n\n${'='.repeat(78)}\n`;

test('the notices name what is in the package, with its licences', async () => {
  const notices = (await bundled()).map(noticeOf);
  assert.ok(notices.length >= 4);
  const now = `THIRD-PARTY NOTICES\n\nThe extension contains the packages below. Each is named with its version and\nlicence; the text of its licence follows. The program waterscript, where it is\nin the package, has notices of its own beside it.${rule}${notices.join(rule)}\n`;
  if (process.env.WATERSCRIPT_ACCEPT === '1') writeFileSync(file, now);
  assert.ok(existsSync(file), 'write it with WATERSCRIPT_ACCEPT=1 npm test');
  assert.equal(now, readFileSync(file, 'utf8'));
});

test('the notices go into the package', () =>
  assert.match(readFileSync(new URL('../.vscodeignore', import.meta.url), 'utf8'), /^!THIRD-PARTY-NOTICES\.txt$/m));
