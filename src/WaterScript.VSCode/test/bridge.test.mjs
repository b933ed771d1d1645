import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import test from 'node:test';
import vm from 'node:vm';
import { load } from './load.mjs';

const { lineOf, placeOf, withBridge } = await load('pictureBridge.ts');
const own = 'file:///work/a.water';
const page = '<html><head><meta http-equiv="Content-Security-Policy" content="default-src \'none\'; style-src \'sha256-x\'; script-src \'sha256-y\'"></head><body></body></html>';

test('the name of a line means the same line again', () => {
  for (const place of [{ uri: own, line: 48 }, { uri: 'file:///work/b%20c.water', line: 1 }])
    assert.deepEqual(placeOf(lineOf(place.uri, place.line, own), own), place);
});

test('a page can open files and nothing else', () => {
  for (const name of ['', '0', '-1', '1e3', '12345678', 'https://example.com/#1', 'command:x#1', 'file:///a', 7, null, undefined, {}])
    assert.equal(placeOf(name, own), undefined);
});

test('the policy of the page allows this script and style beside its own', () => {
  const html = withBridge(page, 'abc');
  assert.match(html, /style-src 'nonce-abc' 'sha256-x'; script-src 'nonce-abc' 'sha256-y'/);
  assert.equal(html.match(/<(script|style) nonce="abc">/g).length, 2);
});

test('the mark of a line is as particular as what the page says of runs', () => {
  const page = readFileSync(new URL('../../WaterScript/Documents/Charts/Pages/PictureStyle.cs', import.meta.url), 'utf8');
  assert.match(page, /^ *\.sheet \.run \{/m);
  assert.doesNotMatch(page, /!important|#[a-z-]+ \.run/);
  assert.match(withBridge('</body>', 'abc'), /\.sheet \.run\.of-line rect \{ stroke: currentColor/);
});

/** The script runs in a page of two bars. */
function opened() {
  const listeners = {};
  const sent = [];
  const bars = ['48', '51'].map(line => ({ dataset: { line }, marks: new Set(), closest: () => null }));
  for (const bar of bars) {
    bar.classList = { toggle: (name, on) => (on ? bar.marks.add(name) : bar.marks.delete(name)) };
    bar.closest = () => bar;
  }

  const script = /<script nonce="abc">([\s\S]*?)<\/script>/.exec(withBridge(page, 'abc'))[1];
  vm.runInNewContext(script, {
    acquireVsCodeApi: () => ({ postMessage: message => sent.push({ ...message }) }),
    addEventListener: (name, listener) => (listeners[name] = listener),
    document: { querySelectorAll: () => bars },
  });
  return { listeners, sent, bars };
}

test('a bar says its line, and what is none says nothing', () => {
  const { listeners, sent, bars } = opened();
  listeners.click({ target: bars[1] });
  listeners.click({ target: { closest: () => null } });
  listeners.click({ target: {} });
  assert.deepEqual(sent, [{ isLoaded: true }, { line: '51' }]);
});

test('a line marks its bars alone', () => {
  const { listeners, bars } = opened();
  listeners.message({ data: { line: '48' } });
  assert.deepEqual(bars.map(bar => bar.marks.has('of-line')), [true, false]);
  listeners.message({ data: { line: '51' } });
  assert.deepEqual(bars.map(bar => bar.marks.has('of-line')), [false, true]);
});
