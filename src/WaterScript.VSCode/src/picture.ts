import * as vscode from 'vscode';
import { LanguageClient } from 'vscode-languageclient/node';
import { lineOf, newNonce, placeOf, withBridge } from './pictureBridge';
import * as protocol from './protocol';

/** The chart of a file beside it. It follows the cursor, and the cursor follows it: a bar selects its step, a step its bars. */
export class Picture implements vscode.Disposable {
  private panel: vscode.WebviewPanel | undefined;
  private uri: string | undefined;
  private shown: string | undefined;

  constructor(private readonly client: LanguageClient, private readonly chosen: () => string | undefined) {}

  async show(document: vscode.TextDocument): Promise<void> {
    this.uri = document.uri.toString();
    this.panel ??= this.create();
    this.panel.title = `Watering of ${vscode.workspace.asRelativePath(document.uri)}`;
    this.panel.reveal(vscode.ViewColumn.Beside, true);
    await this.refresh(this.uri);
  }

  /** Draws it again, if it shows this file; the last good picture stays while the file has errors. */
  async refresh(uri: string): Promise<void> {
    if (!this.panel || this.uri !== uri) return;
    const picture = await protocol.ask(this.client, protocol.picture, { textDocument: { uri }, date: this.chosen() });
    // What is the same is left alone, so that whoever has scrolled stays there.
    if (!picture || !this.panel || picture.html === this.shown) return;
    this.shown = picture.html;
    this.panel.webview.html = withBridge(picture.html, newNonce());
  }

  /** Marks what a line makes; a step may stand in another file than the one whose chart it is. */
  follow(editor: vscode.TextEditor): void {
    if (!this.panel || !this.uri || editor.document.languageId !== 'waterscript') return;
    void this.panel.webview.postMessage({ line: lineOf(editor.document.uri.toString(), editor.selection.active.line + 1, this.uri) });
  }

  dispose(): void {
    this.panel?.dispose();
  }

  private create(): vscode.WebviewPanel {
    const panel = vscode.window.createWebviewPanel('waterscript.picture', 'Watering', { viewColumn: vscode.ViewColumn.Beside, preserveFocus: true },
      { enableScripts: true, localResourceRoots: [], retainContextWhenHidden: true });
    panel.onDidDispose(() => (this.panel = this.shown = undefined));
    panel.webview.onDidReceiveMessage(message => void this.select(message));
    return panel;
  }

  private async select(message: unknown): Promise<void> {
    // A page that has just been loaded asks what to mark.
    if ((message as { isLoaded?: unknown } | null)?.isLoaded === true && vscode.window.activeTextEditor) return this.follow(vscode.window.activeTextEditor);
    const place = this.uri ? placeOf((message as { line?: unknown } | null)?.line, this.uri) : undefined;
    if (!place) return;
    const document = await vscode.workspace.openTextDocument(vscode.Uri.parse(place.uri));
    if (place.line > document.lineCount) return;
    const editor = await vscode.window.showTextDocument(document, { viewColumn: vscode.ViewColumn.One, preserveFocus: false });
    const range = document.lineAt(place.line - 1).range;
    editor.selection = new vscode.Selection(range.start, range.end);
    editor.revealRange(range, vscode.TextEditorRevealType.InCenterIfOutsideViewport);
  }
}
