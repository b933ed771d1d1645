// Between the page of a chart and the editor, apart from both, so that it can be tested by itself.

/** How the chart of a file names a line: by its number, behind the address of its file where that is another. */
export function lineOf(uri: string, line: number, own: string): string {
  return uri === own ? String(line) : `${uri}#${line}`;
}

/** The place that such a name means; undefined for what is none. The page is no place to be trusted: it may open nothing but a file. */
export function placeOf(name: unknown, own: string): { uri: string; line: number } | undefined {
  const parts = typeof name === 'string' ? /^(?:(file:[^#]*)#)?([1-9][0-9]{0,6})$/.exec(name) : null;
  return parts ? { uri: parts[1] ?? own, line: Number(parts[2]) } : undefined;
}

const script = `(() => {
  const editor = acquireVsCodeApi();
  addEventListener('click', event => {
    const line = event.target.closest?.('[data-line]')?.dataset.line;
    if (line) editor.postMessage({ line });
  });
  addEventListener('message', event => {
    for (const run of document.querySelectorAll('[data-line]')) run.classList.toggle('of-line', run.dataset.line === event.data.line);
  });
  editor.postMessage({ isLoaded: true });
})();`;

// As particular as what the page says of its runs, so that it counts.
const style = '.sheet .run.of-line rect { stroke: currentColor; stroke-width: 3; }';

/** The page with what ties it to the editor: a chosen run says its line, a line marks its runs. The page's own policy lets no other script run. */
export function withBridge(html: string, nonce: string): string {
  const policy = '<meta http-equiv="Content-Security-Policy" content="[^"]*?';
  const allow = (page: string, what: string) => page.replace(new RegExp(`(${policy}${what} )`), `$1'nonce-${nonce}' `);
  return allow(allow(html, 'script-src'), 'style-src')
    .replace('</body>', `<script nonce="${nonce}">${script}</script><style nonce="${nonce}">${style}</style></body>`);
}

export function newNonce(): string {
  return [...crypto.getRandomValues(new Uint8Array(16))].map(byte => byte.toString(16).padStart(2, '0')).join('');
}
