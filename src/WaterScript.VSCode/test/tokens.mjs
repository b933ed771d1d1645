// Colours of a text by the TextMate grammar, through the tokenizer that editors use.
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';

const require = createRequire(import.meta.url);
const { Registry, INITIAL, parseRawGrammar } = require('vscode-textmate');
const { loadWASM, OnigScanner, OnigString } = require('vscode-oniguruma');

const folder = new URL('..', import.meta.url);
export const grammarText = readFileSync(new URL('syntaxes/waterscript.tmLanguage.json', folder), 'utf8');

const wasm = readFileSync(require.resolve('vscode-oniguruma/release/onig.wasm'));
await loadWASM(wasm.buffer.slice(wasm.byteOffset, wasm.byteOffset + wasm.byteLength));

const registry = new Registry({
  onigLib: Promise.resolve({
    createOnigScanner: patterns => new OnigScanner(patterns),
    createOnigString: text => new OnigString(text),
  }),
  loadGrammar: async () => parseRawGrammar(grammarText, 'waterscript.tmLanguage.json'),
});
const grammar = await registry.loadGrammar('source.waterscript');

/** Each line's tokens: the text, and its innermost scope without the language's name. */
export function tokensOf(text) {
  let state = INITIAL;
  return text.split('\n').map(line => {
    const result = grammar.tokenizeLine(line, state);
    state = result.ruleStack;
    return result.tokens
      .map(token => ({ text: line.slice(token.startIndex, token.endIndex), scope: token.scopes.at(-1).replace(/\.?(source)?\.waterscript$/, '') }))
      .filter(token => token.text.trim() !== '');
  });
}

/** A text with what each word is coloured as below its line, to be read as a reviewer would. */
export function printed(text) {
  return tokensOf(text).map((tokens, index) =>
    [text.split('\n')[index], ...tokens.map(token => `  ~ ${token.text.trim()}  ${token.scope || '-'}`)].join('\n')).join('\n');
}
