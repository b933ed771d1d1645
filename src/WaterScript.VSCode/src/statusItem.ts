import * as vscode from 'vscode';
import { LanguageClient } from 'vscode-languageclient/node';
import * as protocol from './protocol';

/** The file in front, in one line at the foot of the window. */
export class StatusItem implements vscode.Disposable {
  private readonly item = vscode.window.createStatusBarItem('waterscript.status', vscode.StatusBarAlignment.Left);

  constructor(private readonly client: LanguageClient) {
    this.item.name = 'WaterScript';
    this.item.command = 'waterscript.showWatering';
  }

  async refresh(uri: string): Promise<void> {
    if (vscode.window.activeTextEditor?.document.uri.toString() !== uri) return;
    const status = await protocol.ask(this.client, protocol.status, { textDocument: { uri } });
    if (!status) return this.hide();
    this.item.text = status.text;
    this.item.tooltip = status.tooltip;
    this.item.show();
  }

  hide(): void {
    this.item.hide();
  }

  dispose(): void {
    this.item.dispose();
  }
}
