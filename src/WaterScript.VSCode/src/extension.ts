import * as vscode from 'vscode';
import { LanguageClient } from 'vscode-languageclient/node';
import { Picture } from './picture';
import * as protocol from './protocol';
import { applyTrace, createClient } from './server';
import { StatusItem } from './statusItem';
import { Strip } from './strip';

let client: LanguageClient | undefined;

const noAnswer = 'No answer: the file has errors, or the waterscript program is one that does not know this question.';

/** The night that somebody chose, by file; without one it is the next with water. */
const chosen = new Map<string, string>();

export async function activate(context: vscode.ExtensionContext): Promise<void> {
  client = createClient(context);
  const server = client;
  const chosenNight = () => {
    const uri = vscode.window.activeTextEditor?.document.uri.toString();
    return uri !== undefined && configuration().get<string>('strip.night') === 'chosen' ? chosen.get(uri) : undefined;
  };
  const strip = new Strip(server, chosenNight);
  const picture = new Picture(server, () => chosen.get(currentUri() ?? ''));
  const status = new StatusItem(server);
  const refresh = async (uri: string) => {
    await Promise.all([strip.refresh(uri), picture.refresh(uri), status.refresh(uri)]);
  };

  context.subscriptions.push(
    server, strip, picture, status,
    command('showWatering', document => picture.show(document)),
    command('chooseNight', document => chooseNight(server, document, refresh)),
    command('makeList', document => makeList(server, document)),
    command('why', document => why(server, document)),
    vscode.commands.registerCommand('waterscript.explain', () => explain(server)),
    vscode.commands.registerCommand('waterscript.restartServer', () => server.restart()),
    vscode.commands.registerCommand('waterscript.showLog', () => server.outputChannel.show()),
    vscode.window.onDidChangeTextEditorVisibleRanges(event => strip.draw(event.textEditor)),
    vscode.window.onDidChangeTextEditorSelection(event => picture.follow(event.textEditor)),
    vscode.window.onDidChangeActiveTextEditor(editor => editor && isOurs(editor.document) ? void refresh(editor.document.uri.toString()) : status.hide()),
    vscode.workspace.onDidChangeConfiguration(async event => {
      if (event.affectsConfiguration('waterscript.server.path')) await server.restart();
      if (event.affectsConfiguration('waterscript.trace')) await applyTrace(server);
      const uri = currentUri();
      if (event.affectsConfiguration('waterscript') && uri) await refresh(uri);
    }));
  await server.start();
  context.subscriptions.push(server.onNotification(protocol.checked, of => void refresh(of.textDocument.uri)));
  await applyTrace(server);
}

export async function deactivate(): Promise<void> {
  await client?.stop();
}

function configuration(): vscode.WorkspaceConfiguration {
  return vscode.workspace.getConfiguration('waterscript');
}

function isOurs(document: vscode.TextDocument): boolean {
  return document.languageId === 'waterscript';
}

function currentUri(): string | undefined {
  const document = vscode.window.activeTextEditor?.document;
  return document && isOurs(document) ? document.uri.toString() : undefined;
}

/** A command about the file in front; without one it says so. */
function command(name: string, run: (document: vscode.TextDocument) => Promise<void>): vscode.Disposable {
  return vscode.commands.registerCommand(`waterscript.${name}`, async () => {
    const document = vscode.window.activeTextEditor?.document;
    if (document && isOurs(document)) await run(document);
    else await vscode.window.showInformationMessage('Open a .water file first.');
  });
}

async function chooseNight(server: LanguageClient, document: vscode.TextDocument, refresh: (uri: string) => Promise<void>): Promise<void> {
  const uri = document.uri.toString();
  const nights = await protocol.ask(server, protocol.nights, { textDocument: { uri } });
  if (!nights?.length) return void vscode.window.showInformationMessage(noAnswer);
  const next = { label: 'The next night with water', date: undefined as string | undefined };
  const choice = await vscode.window.showQuickPick([next, ...nights.map(night => ({ label: night.date, description: night.text, date: night.date }))],
    { placeHolder: 'The night that strip, hints and chart show' });
  if (!choice) return;
  if (choice.date) chosen.set(uri, choice.date);
  else chosen.delete(uri);
  await refresh(uri);
}

async function makeList(server: LanguageClient, document: vscode.TextDocument): Promise<void> {
  const uri = document.uri.toString();
  await open(await protocol.ask(server, protocol.list, { textDocument: { uri }, date: chosen.get(uri) }));
}

async function why(server: LanguageClient, document: vscode.TextDocument): Promise<void> {
  const textDocument = { uri: document.uri.toString() };
  const names = await protocol.ask(server, protocol.names, { textDocument });
  if (!names) return void vscode.window.showInformationMessage(noAnswer);
  const zone = await vscode.window.showQuickPick(names.zones.map(each => ({ label: each.name, description: each.label })), { placeHolder: 'Which zone?' });
  if (!zone) return;
  const date = await vscode.window.showInputBox({
    prompt: `On which date is ${zone.label} watered or not?`,
    placeHolder: '2027-05-01',
    validateInput: text => /^\d{4}-\d{2}-\d{2}$/.test(text) ? undefined : 'A date such as 2027-05-01',
  });
  if (date) await open(await protocol.ask(server, protocol.why, { textDocument, zone: zone.label, date }));
}

async function explain(server: LanguageClient): Promise<void> {
  const uri = currentUri() ?? '';
  const names = await protocol.ask(server, protocol.names, { textDocument: { uri } });
  const rule = await vscode.window.showQuickPick((names?.rules ?? []).map(each => ({ label: each.name, description: each.text })), { placeHolder: 'Which rule?' });
  if (rule) await open(await protocol.ask(server, protocol.explain, { rule: rule.label }));
}

async function open(text: protocol.Text | null): Promise<void> {
  if (!text) return void vscode.window.showInformationMessage(noAnswer);
  const document = await vscode.workspace.openTextDocument({ content: text.text, language: text.language });
  await vscode.window.showTextDocument(document, { viewColumn: vscode.ViewColumn.Beside, preserveFocus: true, preview: true });
}
