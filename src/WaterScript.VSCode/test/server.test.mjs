// The extension's questions, put to the real program. WATERSCRIPT_BINARY says where that is; CI does.
import assert from 'node:assert/strict';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import test, { after, before } from 'node:test';
import { load } from './load.mjs';
import { Server } from './server.mjs';

const program = process.env.WATERSCRIPT_BINARY;
const options = { skip: program ? false : 'WATERSCRIPT_BINARY is not set' };
const { stripSvg } = await load('stripPicture.ts');
const { withBridge, placeOf } = await load('pictureBridge.ts');
const text = readFileSync(new URL('../../../examples/terraces.water', import.meta.url), 'utf8');
const lines = text.split('\n');

let folder, server, greeting, textDocument;

before(async () => {
  if (!program) return;
  folder = mkdtempSync(join(tmpdir(), 'waterscript-'));
  writeFileSync(join(folder, 'terraces.water'), text);
  server = new Server(program, folder);
  textDocument = { uri: pathToFileURL(join(folder, 'terraces.water')).href };
  greeting = await server.ask('initialize', {
    processId: process.pid, workspaceFolders: [{ uri: pathToFileURL(folder).href, name: 'work' }],
    capabilities: { experimental: { waterscript: { checked: true } } },
  });
  server.say('initialized', {});
  server.say('textDocument/didOpen', { textDocument: { ...textDocument, languageId: 'waterscript', version: 1, text } });
});

after(async () => {
  if (!server) return;
  assert.equal(await server.end(), 0);
  rmSync(folder, { recursive: true });
});

test('the server knows each question of the extension', options, () => {
  const source = readFileSync(new URL('../src/protocol.ts', import.meta.url), 'utf8');
  const asked = [...source.matchAll(/new RequestType<[^']*'(waterscript\/[a-z]+)'/g)].map(match => match[1]);
  assert.equal(asked.length, 8);
  assert.deepEqual([...greeting.capabilities.experimental.waterscript.requests].sort(), asked.sort());
});

test('it says when a file has been checked', options, async () => {
  assert.deepEqual(await server.heard('waterscript/checked'), { textDocument });
});

test('each line of the night is one that makes water, and can be drawn', options, async () => {
  const night = await server.ask('waterscript/night', { textDocument, date: '2026-05-04' });
  assert.equal(night.date, '2026-05-04');
  assert.ok(night.lines.length >= 9);
  for (const line of night.lines) {
    assert.match(lines[line.line], /^\s*(zone|water|schedule|repeat) /);
    const picture = stripSvg(line, night, { width: 64, height: 12, isPale: false, colours: 'light' });
    assert.equal(picture.match(/<rect /g).length, line.runs.length);
    assert.ok(line.runs.every(([from, until]) => night.from <= from && from < until && until <= night.until));
  }
});

test('a bar of the chart leads to the line that makes it', options, async () => {
  const { html } = await server.ask('waterscript/picture', { textDocument, date: '2026-05-04' });
  const names = [...withBridge(html, 'abc').matchAll(/class="run"[^>]* data-line="([^"$]*)"/g)].map(match => match[1]);
  assert.equal(names.length, 8);
  for (const name of names) {
    const place = placeOf(name, textDocument.uri);
    assert.equal(place.uri, textDocument.uri);
    assert.match(lines[place.line - 1], /^\s*water /);
  }

  assert.match(html, /<meta http-equiv="Content-Security-Policy" content="[^"]*style-src [^"]*script-src /);
});

test('texts, names and the line at the foot of the window', options, async () => {
  const names = await server.ask('waterscript/names', { textDocument });
  assert.ok(names.zones.some(zone => zone.name === 'lemons' && zone.label === 'Lemon terrace'));
  assert.match((await server.ask('waterscript/why', { textDocument, zone: 'lemons', date: '2026-06-10' })).text, /not watered/);
  assert.match((await server.ask('waterscript/explain', { rule: names.rules[0].name })).text, /^# /);
  assert.match((await server.ask('waterscript/list', { textDocument, date: '2026-05-04' })).text, /Lemon terrace/);
  assert.match((await server.ask('waterscript/status', { textDocument })).text, /^Upper terraces: /);
  assert.ok((await server.ask('waterscript/nights', { textDocument })).every(night => /^\d{4}-\d{2}-\d{2}$/.test(night.date)));
});
