// What this extension asks the server beyond the protocol of all editors. The server answers null where a file has no timetable.
import { LanguageClient, NotificationType, RequestType } from 'vscode-languageclient/node';

/** The server says under this name that it answers the requests below; an older one does not know them. */
const capability = 'waterscript';

/** Asks the server; null where it is one that does not know the question. */
export async function ask<P, R>(client: LanguageClient, type: RequestType<P, R | null, void>, params: P): Promise<R | null> {
  const known = client.initializeResult?.capabilities.experimental?.[capability] as { requests?: string[] } | undefined;
  return known?.requests?.includes(type.method) ? client.sendRequest(type, params) : null;
}

export interface OfFile {
  textDocument: { uri: string };
}

/** A night of a file, by its date; the next with water where there is none. */
export interface OfNight extends OfFile {
  date?: string;
}

/** What one line makes in a night: from and until in seconds since its noon. */
export interface LineOfNight {
  line: number;
  runs: [number, number][];
  /** Many short passes, of which these are the first start and the last end. */
  isComb: boolean;
  text: string;
}

export interface Night {
  date: string;
  title: string;
  from: number;
  until: number;
  lines: LineOfNight[];
}

export interface Picture {
  html: string;
}

export interface NightChoice {
  date: string;
  text: string;
}

export interface Names {
  zones: { name: string; label: string }[];
  rules: { name: string; text: string }[];
}

export interface Status {
  text: string;
  tooltip: string;
}

export interface Text {
  text: string;
  language: string;
}

export const night = new RequestType<OfNight, Night | null, void>('waterscript/night');
export const picture = new RequestType<OfNight, Picture | null, void>('waterscript/picture');
export const nights = new RequestType<OfFile, NightChoice[] | null, void>('waterscript/nights');
export const names = new RequestType<OfFile, Names | null, void>('waterscript/names');
export const status = new RequestType<OfFile, Status | null, void>('waterscript/status');
export const list = new RequestType<OfNight, Text | null, void>('waterscript/list');
export const why = new RequestType<OfNight & { zone: string }, Text | null, void>('waterscript/why');
export const explain = new RequestType<{ rule: string }, Text | null, void>('waterscript/explain');

/** A file has been checked: all that is shown of it may be asked for again. */
export const checked = new NotificationType<OfFile>('waterscript/checked');
