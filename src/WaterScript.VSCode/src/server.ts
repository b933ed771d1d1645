import { existsSync } from 'node:fs';
import { join } from 'node:path';
import * as vscode from 'vscode';
import { LanguageClient, LanguageClientOptions, ServerOptions, StaticFeature, Trace } from 'vscode-languageclient/node';

/** The program: the one that is set, else the one in this package, else the one on the path. */
function programOf(context: vscode.ExtensionContext): string {
  const set = vscode.workspace.getConfiguration('waterscript').get<string>('server.path', '');
  if (set !== '') return set;
  const name = process.platform === 'win32' ? 'waterscript.exe' : 'waterscript';
  const own = join(context.extensionPath, 'server', name);
  return existsSync(own) ? own : name;
}

/** Tells the server that it may say when a file has been checked. */
const takesChecked: StaticFeature = {
  fillClientCapabilities: capabilities => (capabilities.experimental = { ...capabilities.experimental, waterscript: { checked: true } }),
  initialize: () => undefined,
  getState: () => ({ kind: 'static' }),
  clear: () => undefined,
};

export function createClient(context: vscode.ExtensionContext): LanguageClient {
  const server: ServerOptions = { command: programOf(context), args: ['lsp'] };
  const client: LanguageClientOptions = {
    documentSelector: [{ language: 'waterscript' }],
    synchronize: { configurationSection: 'waterscript', fileEvents: vscode.workspace.createFileSystemWatcher('**/*.water') },
    initializationOptions: vscode.workspace.getConfiguration('waterscript'),
    outputChannelName: 'WaterScript',
  };
  const made = new LanguageClient('waterscript', 'WaterScript', server, client);
  made.registerFeature(takesChecked);
  return made;
}

export async function applyTrace(client: LanguageClient): Promise<void> {
  await client.setTrace(Trace.fromString(vscode.workspace.getConfiguration('waterscript').get<string>('trace', 'off')));
}
