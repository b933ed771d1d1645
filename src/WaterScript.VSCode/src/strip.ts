import * as vscode from 'vscode';
import { LanguageClient } from 'vscode-languageclient/node';
import * as protocol from './protocol';
import { stripSvg, StripColours } from './stripPicture';

const width = 64;
const height = 12;

/** Lines around those that can be seen, which are drawn too, so that scrolling shows no gap. */
const around = 100;

/** The night beside the text: on each line that makes water, when it does so. All lines get the width, so that the text stays aligned. */
export class Strip implements vscode.Disposable {
  private readonly type = vscode.window.createTextEditorDecorationType({
    before: { width: `${width}px`, height: `${height}px`, margin: '0 8px 0 0' },
    rangeBehavior: vscode.DecorationRangeBehavior.ClosedClosed,
  });
  private readonly nights = new Map<string, protocol.Night | null>();

  constructor(private readonly client: LanguageClient, private readonly chosen: () => string | undefined) {}

  /** Asks for the night of a file again, and draws it in each editor that shows the file. */
  async refresh(uri: string): Promise<void> {
    if (!isOn()) return this.clear();
    const night = await protocol.ask(this.client, protocol.night, { textDocument: { uri }, date: this.chosen() });
    // While a file has errors, the last good night stays, pale.
    if (night !== null || !this.nights.has(uri)) this.nights.set(uri, night);
    for (const editor of vscode.window.visibleTextEditors.filter(each => each.document.uri.toString() === uri)) this.draw(editor, night === null);
  }

  draw(editor: vscode.TextEditor, isPale = false): void {
    const night = this.nights.get(editor.document.uri.toString());
    if (!isOn() || !night) return editor.setDecorations(this.type, []);
    const lines = new Map(night.lines.map(line => [line.line, line]));
    editor.setDecorations(this.type, this.visibleLines(editor).map(line => this.decorationOf(line, lines.get(line), night, isPale)));
  }

  clear(): void {
    for (const editor of vscode.window.visibleTextEditors) editor.setDecorations(this.type, []);
  }

  dispose(): void {
    this.type.dispose();
  }

  private visibleLines(editor: vscode.TextEditor): number[] {
    const lines = new Set<number>();
    for (const range of editor.visibleRanges) {
      const last = Math.min(editor.document.lineCount - 1, range.end.line + around);
      for (let line = Math.max(0, range.start.line - around); line <= last; line++) lines.add(line);
    }

    return [...lines];
  }

  private decorationOf(line: number, made: protocol.LineOfNight | undefined, night: protocol.Night, isPale: boolean): vscode.DecorationOptions {
    const range = new vscode.Range(line, 0, line, 0);
    if (!made) return { range, renderOptions: { before: { contentText: '' } } };
    const picture = stripSvg(made, night, { width, height, isPale, colours: coloursOfTheme() });
    return {
      range,
      hoverMessage: made.text,
      renderOptions: { before: { contentIconPath: vscode.Uri.parse(`data:image/svg+xml;utf8,${encodeURIComponent(picture)}`) } },
    };
  }
}

function isOn(): boolean {
  return vscode.workspace.getConfiguration('waterscript').get<boolean>('strip', true);
}

function coloursOfTheme(): StripColours {
  switch (vscode.window.activeColorTheme.kind) {
    case vscode.ColorThemeKind.Dark: return 'dark';
    case vscode.ColorThemeKind.HighContrast: return 'contrast-dark';
    case vscode.ColorThemeKind.HighContrastLight: return 'contrast-light';
    default: return 'light';
  }
}
