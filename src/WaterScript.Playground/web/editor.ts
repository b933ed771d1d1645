// The editor: text in colours, findings underlined, cards, offers. What it shows comes from the compiler; it decides nothing itself.
import { autocompletion, closeBrackets, closeBracketsKeymap, completionKeymap, snippet, type Completion, type CompletionContext } from "@codemirror/autocomplete";
import { defaultKeymap, history, historyKeymap } from "@codemirror/commands";
import { bracketMatching, indentUnit } from "@codemirror/language";
import { lintGutter, lintKeymap, nextDiagnostic, setDiagnostics, type Diagnostic } from "@codemirror/lint";
import { highlightSelectionMatches, searchKeymap } from "@codemirror/search";
import { EditorState, RangeSetBuilder, StateEffect, StateField, type Extension } from "@codemirror/state";
import {
  Decoration, drawSelection, dropCursor, EditorView, highlightActiveLine, hoverTooltip, keymap, lineNumbers, type DecorationSet,
} from "@codemirror/view";
import { card } from "./card";
import { colourKinds, type Action, type CompletionAnswer, type Finding, type HoverAnswer } from "./protocol";

/** What the editor asks for. */
export interface Asks {
  changed(text: string): void;
  hover(offset: number): Promise<HoverAnswer | null>;
  complete(offset: number): Promise<CompletionAnswer | null>;
  apply(action: Action): void;
}

const setColours = StateEffect.define<readonly number[]>();

const classes = colourKinds.map((kind) => Decoration.mark({ class: `w-${kind}` }));

const colours = StateField.define<DecorationSet>({
  create: () => Decoration.none,
  update(shown, transaction) {
    for (const effect of transaction.effects) if (effect.is(setColours)) return decorated(effect.value, transaction.state.doc.length);
    return shown.map(transaction.changes);
  },
  provide: (field) => EditorView.decorations.from(field),
});

const decorated = (numbers: readonly number[], length: number): DecorationSet => {
  const builder = new RangeSetBuilder<Decoration>();
  for (let i = 0; i + 3 < numbers.length; i += 4) {
    const from = numbers[i]!;
    const to = from + numbers[i + 1]!;
    if (to <= length && to > from) builder.add(from, to, classes[numbers[i + 2]!]!);
  }
  return builder.finish();
};

const completions = (asks: Asks) => async (context: CompletionContext) => {
  const answer = await asks.complete(context.pos).catch(() => null);
  if (!answer || answer.items.length === 0) return null;
  if (!context.explicit && answer.from === answer.to) return null;
  const options: Completion[] = answer.items.map((offer, index) => ({
    label: offer.label,
    detail: offer.detail,
    type: offer.kind,
    boost: Math.max(-99, 99 - index),
    apply: offer.snippet === null ? offer.label : snippet(offer.snippet.replaceAll("\\$", "$")),
  }));
  return { from: answer.from, to: answer.to, options, validFor: /^[\w-]*$/ };
};

const hovers = (asks: Asks) =>
  hoverTooltip(async (view, offset) => {
    const answer = await asks.hover(offset).catch(() => null);
    if (!answer || answer.to > view.state.doc.length) return null;
    return { pos: answer.from, end: answer.to, above: true, create: () => ({ dom: card(answer.lines) }) };
  });

export class Editor {
  readonly view: EditorView;
  private editedAt = -1;
  private edited = 0;

  constructor(parent: HTMLElement, private readonly asks: Asks) {
    this.view = new EditorView({ parent, state: this.stateOf("") });
  }

  get text(): string {
    // What cannot be a letter, and a mark of the order of bytes, are another character of the same length: offsets stay.
    return this.view.state.doc.toString().toWellFormed().replace(/^\uFEFF/, " ");
  }

  /** Another text; what was done to the one before cannot be undone in it. */
  load(text: string): void {
    this.view.setState(this.stateOf(text));
  }

  /** Where somebody has just written a word, if that is so. */
  get unfinishedAt(): number {
    return performance.now() - this.edited < 800 ? this.editedAt : -1;
  }

  showColours(numbers: readonly number[]): void {
    this.view.dispatch({ effects: setColours.of(numbers) });
  }

  showFindings(findings: readonly Finding[]): void {
    const length = this.view.state.doc.length;
    const diagnostics = findings
      .filter((finding) => finding.place.to <= length && !finding.isAccepted)
      .map((finding): Diagnostic => ({
        from: finding.place.from,
        to: finding.place.to,
        severity: finding.severity === "advice" ? "info" : finding.severity,
        message: finding.message,
        ...(finding.isPale ? { markClass: "pale" } : {}),
        renderMessage: () => messageOf(finding),
        actions: finding.actions.map((action) => ({ name: action.title, apply: () => this.asks.apply(action) })),
      }));
    this.view.dispatch(setDiagnostics(this.view.state, diagnostics));
  }

  /** Makes changes that the compiler proposed for the text as it is. */
  edit(edits: readonly { from: number; to: number; text: string }[]): void {
    this.view.dispatch({
      changes: edits.map(({ from, to, text }) => ({ from, to, insert: text })).sort((one, other) => one.from - other.from),
      userEvent: "input.fix",
    });
  }

  goTo(from: number, to: number): void {
    const length = this.view.state.doc.length;
    this.view.dispatch({ selection: { anchor: Math.min(from, length), head: Math.min(to, length) }, scrollIntoView: true });
    this.view.focus();
  }

  lineOf(offset: number): number {
    return this.view.state.doc.lineAt(Math.min(offset, this.view.state.doc.length)).number;
  }

  private stateOf(doc: string): EditorState {
    return EditorState.create({ doc, extensions: this.extensions() });
  }

  private extensions(): Extension[] {
    return [
      lineNumbers(), lintGutter(), history(), drawSelection(), dropCursor(), bracketMatching(), closeBrackets(), highlightActiveLine(),
      highlightSelectionMatches(), indentUnit.of("  "), EditorState.tabSize.of(2), EditorView.lineWrapping, colours,
      autocompletion({ override: [completions(this.asks)], selectOnOpen: false, icons: false }),
      hovers(this.asks),
      // Tab leaves the editor, so that nobody is caught in it.
      keymap.of([{ key: "F8", run: nextDiagnostic }, ...closeBracketsKeymap, ...completionKeymap, ...lintKeymap, ...searchKeymap, ...historyKeymap,
        ...defaultKeymap]),
      EditorView.contentAttributes.of({ "aria-label": "Text of the site", "autocapitalize": "off", "spellcheck": "false", "tabindex": "0" }),
      EditorView.updateListener.of((update) => {
        if (!update.docChanged) return;
        this.editedAt = update.state.selection.main.head;
        this.edited = performance.now();
        this.asks.changed(this.text);
      }),
    ];
  }
}

const messageOf = (finding: Finding): HTMLElement => {
  const made = document.createElement("div");
  const [heading = "", ...facts] = finding.message.split("\n");
  const strong = document.createElement("strong");
  strong.textContent = heading;
  made.append(strong);
  for (const fact of facts) {
    const line = document.createElement("div");
    line.textContent = fact;
    made.append(line);
  }
  return made;
};
