import assert from 'node:assert/strict';
import { existsSync, mkdirSync, readFileSync, readdirSync, writeFileSync } from 'node:fs';
import test from 'node:test';
import { printed, tokensOf } from './tokens.mjs';

const examples = new URL('../../../examples/', import.meta.url);
const snapshots = new URL('snapshots/', import.meta.url);

const files = readdirSync(examples, { recursive: true }).filter(name => name.endsWith('.water')).sort();

/** What is written once is compared ever after; WATERSCRIPT_ACCEPT=1 writes it anew. */
for (const file of files) {
  test(`the colours of ${file} are those that were looked at`, () => {
    const now = printed(readFileSync(new URL(file, examples), 'utf8'));
    const snapshot = new URL(`${file.replaceAll('/', '-')}.txt`, snapshots);
    if (process.env.WATERSCRIPT_ACCEPT === '1') {
      mkdirSync(snapshots, { recursive: true });
      writeFileSync(snapshot, now);
    }

    assert.ok(existsSync(snapshot), `there is no snapshot of ${file}; write it with WATERSCRIPT_ACCEPT=1`);
    assert.equal(now, readFileSync(snapshot, 'utf8'));
  });
}

const scopesOf = line => tokensOf(line)[0].map(token => [token.text.trim(), token.scope]);

test('every word of the language is coloured where it may stand', () => {
  const lexer = readFileSync(new URL('../../../grammar/WaterScriptLexer.g4', import.meta.url), 'utf8');
  const words = [...lexer.matchAll(/^[A-Z]+\s*: '([a-z]+)' ;/gm)].map(match => match[1]);
  assert.ok(words.length > 60);
  for (const word of words) {
    const scope = scopesOf(`  from beds ${word} 3`).slice(1).find(([text]) => text === word)?.[1] ?? '';
    assert.match(scope, /^(keyword|constant\.language)/, `${word} is ${scope || 'not coloured'}`);
  }
});

test('a name that is a word of the language is coloured as a name where it is given', () => {
  assert.deepEqual(scopesOf('zone cycle { output 1 }').slice(0, 2), [['zone', 'keyword.declaration'], ['cycle', 'variable.other.declaration']]);
});

test('a quantity is one colour, number and unit', () => {
  for (const quantity of ['14 L/min', '1.5 mm2', '80 %', '300 ms', '9 mm', '12 mm/h', '18 AWG', '2 weeks'])
    assert.deepEqual(scopesOf(`  flow ${quantity}`)[1], [quantity, 'constant.numeric.quantity']);
});

test('a unit is not found within a word', () => assert.deepEqual(scopesOf('  flow 3 meadows')[1], ['3', 'constant.numeric']));

test('a number sign in a label begins no comment, and an open label ends with its line', () => {
  assert.deepEqual(scopesOf('note "bed #3"').map(([, scope]) => scope), ['keyword.control', 'string.quoted.double', 'string.quoted.double', 'string.quoted.double']);
  assert.equal(tokensOf('note "open\nwater lawn for 3 min')[1][0].scope, 'keyword.control');
});
