// What the page asks the compiler, and what it answers; the records of Answers/PageQuestion.cs. Offsets are UTF-16, as in the editor.

export interface Question {
  method: "open" | "read" | "check" | "chart" | "timetable" | "document" | "hover" | "complete" | "actions" | "fix" | "format";
  root?: string;
  files?: Record<string, string>;
  file?: string;
  from?: number;
  to?: number;
  first?: string;
  days?: number;
  format?: "icalendar" | "yaml" | "csv" | "report";
}

/** Nothing to say, or why not. */
export interface NoAnswer {
  problem: string | null;
}

export interface Place {
  file: string;
  from: number;
  to: number;
  words: string;
}

export interface Edit {
  file: string;
  from: number;
  to: number;
  text: string;
}

export interface Action {
  title: string;
  kind: string;
  isPreferred: boolean;
  edits: Edit[];
}

export interface Finding {
  severity: "error" | "warning" | "advice";
  rule: string;
  place: Place;
  message: string;
  help: string;
  related: Place[];
  isPale: boolean;
  isAccepted: boolean;
  actions: Action[];
}

export interface ReadAnswer {
  colours: Record<string, number[]>;
  findings: Finding[];
}

export interface CheckAnswer {
  name: string;
  worst: Finding["severity"] | null;
  findings: Finding[];
  verdict: string[];
  safeFixes: number;
}

export interface ChartAnswer {
  first: string;
  days: number;
  svg: string;
}

export interface Row {
  date: string;
  times: string;
  zone: string;
  length: string;
  water: string;
  schedule: string;
}

export interface TimetableAnswer {
  first: string;
  days: number;
  rows: Row[];
  hasMore: boolean;
}

export interface DocumentAnswer {
  name: string;
  type: string;
  text: string;
}

export interface HoverAnswer {
  from: number;
  to: number;
  lines: string[];
}

export interface Offer {
  label: string;
  detail: string;
  kind: string;
  snippet: string | null;
  alsoCalled: string;
}

export interface CompletionAnswer {
  from: number;
  to: number;
  items: Offer[];
}

export interface ActionsAnswer {
  actions: Action[];
}

export interface EditsAnswer {
  edits: Edit[];
}

/** The names of the kinds of colours, in the order of their numbers. */
export const colourKinds = [
  "keyword", "property", "variable", "function", "method", "class", "struct", "value", "number", "string", "comment", "parameter", "label",
];
