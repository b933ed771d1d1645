// The page: one site, its text on the left, what it comes to on the right. Nothing of it leaves the browser.
import { Compiler, Outdated, Refused, type SiteText } from "./compiler";
import { Editor } from "./editor";
import { byId, showChart, showFindings, showTimetable, showVerdict, type FindingActs } from "./panels";
import { pack, unpack } from "./share";
import type {
  Action, ActionsAnswer, ChartAnswer, CheckAnswer, CompletionAnswer, DocumentAnswer, EditsAnswer, Finding, HoverAnswer, Place, Question, ReadAnswer, TimetableAnswer,
} from "./protocol";

interface Example {
  name: string;
  label: string;
  site: SiteText;
}

const restBeforeCheck = 150;
const restBeforeAddress = 400;
const restOfUnfinished = 850;
const rowsDays = 14;

let site: SiteText;
let shown: string;
let latest: readonly Finding[] = [];
let chosen: string | undefined;
let timer = 0;
let addressTimer = 0;
let hasOwnText = false;
/** Counts the texts; what is offered is about one of them. */
let text = 0;
let checkedText = -1;
/** The compiler is slow at what it does for the first time: whoever comes here sees the verdict first, then colours. */
let isFirst = true;

const status = (words: string): void => void (byId("status").textContent = words);

const quietly = async (work: Promise<unknown>): Promise<void> => {
  try {
    await work;
  } catch (problem) {
    if (problem instanceof Outdated) return;
    status(problem instanceof Refused ? problem.message : `This is a mistake in the page itself: ${String(problem)}`);
  }
};

const compiler = new Compiler((problem) => status(`The compiler could not be started here: ${problem}`));

const editor = new Editor(byId("editor"), {
  changed: (written) => {
    site.files[shown] = written;
    hasOwnText = true;
    compiler.change(site);
    soon();
  },
  hover: (offset) => compiler.ask<HoverAnswer>({ method: "hover", file: shown, from: offset }),
  complete: (offset) => compiler.ask<CompletionAnswer>({ method: "complete", file: shown, from: offset }),
  apply: (action) => apply(action),
});

const acts: FindingActs = {
  show: (place) => {
    if (place.file !== shown && site.files[place.file] !== undefined) show(place.file);
    editor.goTo(place.from, place.to);
  },
  apply: (action) => apply(action),
  fixAll: () => void quietly(fixAll()),
  lineOf: (place) => (place.file === shown ? `line ${editor.lineOf(place.from)}` : `${place.file}, line ${lineIn(place)}`),
};

const lineIn = (place: Place): number => (site.files[place.file] ?? "").slice(0, place.from).split("\n").length;

/** Makes the changes of an action, which is about the text as it is: a change of the text takes away what was offered before. */
const apply = (action: Action): void => {
  if (checkedText !== text) return status("The text has changed meanwhile; what can be done about it comes in a moment.");
  for (const file of new Set(action.edits.map((edit) => edit.file)))
    if (file !== shown) {
      const edits = action.edits.filter((edit) => edit.file === file).sort((one, other) => other.from - one.from);
      site.files[file] = edits.reduce((old, edit) => old.slice(0, edit.from) + edit.text + old.slice(edit.to), site.files[file] ?? "");
    }
  compiler.change(site);
  editor.edit(action.edits.filter((edit) => edit.file === shown));
  if (action.edits.every((edit) => edit.file !== shown)) soon();
};

const fixAll = async (): Promise<void> => {
  const answer = await compiler.ask<ActionsAnswer>({ method: "fix" });
  if (answer?.actions[0]) apply(answer.actions[0]);
  else status("None of these can be made without another mistake.");
};

const show = (file: string): void => {
  shown = file;
  byId<HTMLSelectElement>("file").value = file;
  editor.load(site.files[file] ?? "");
  if (!isFirst) void quietly(read());
  editor.showFindings(inShown(latest));
};

const inShown = (findings: readonly Finding[]): Finding[] => findings.filter((finding) => finding.place.file === shown);

const soon = (): void => {
  clearTimeout(timer);
  text++;
  latest = [];
  void quietly(read());
  timer = setTimeout(() => void quietly(check()), restBeforeCheck);
  clearTimeout(addressTimer);
  addressTimer = setTimeout(() => void quietly(writeAddress()), restBeforeAddress);
};

/** What reading gives is there at once: colours, and what cannot be read. */
const read = async (): Promise<void> => {
  const answer = await compiler.ask<ReadAnswer>({ method: "read" });
  editor.showColours(answer?.colours[shown] ?? []);
};

const check = async (): Promise<void> => {
  const slow = setTimeout(() => status("Checking…"), 1000);
  try {
    const answer = (await compiler.ask<CheckAnswer>({ method: "check" }))!;
    latest = answer.findings;
    checkedText = text;
    // Somebody who is still writing a name has made no mistake yet.
    const at = editor.unfinishedAt;
    const isUnfinished = (finding: Finding): boolean =>
      finding.rule === "unknown-name" && finding.place.file === shown && finding.place.from <= at && at <= finding.place.to;
    if (latest.some(isUnfinished)) setTimeout(() => latest === answer.findings && showAll(answer), restOfUnfinished);
    showAll({ ...answer, findings: answer.findings.filter((finding) => !isUnfinished(finding)) });
    performance.mark("checked");
    if (isFirst) {
      isFirst = false;
      await read();
    }

    await days();
    document.documentElement.dataset.checked = String(Number(document.documentElement.dataset.checked ?? 0) + 1);
  } finally {
    clearTimeout(slow);
  }
};

const showAll = (answer: CheckAnswer): void => {
  editor.showFindings(inShown(answer.findings));
  showVerdict(answer, acts);
  showFindings(answer.findings, acts);
  document.title = `${answer.name} - WaterScript`;
  status(answer.verdict[0] ?? "");
};

const days = async (): Promise<void> => {
  const first = chosen === undefined ? {} : { first: chosen };
  try {
    const chart = await compiler.ask<ChartAnswer>({ method: "chart", days: Number(byId<HTMLSelectElement>("days").value), ...first });
    showChart(chart, "No chart: the site has an error, or no watering by a calendar.");
    showTimetable(await compiler.ask<TimetableAnswer>({ method: "timetable", days: rowsDays, ...first }));
  } catch (problem) {
    if (!(problem instanceof Refused)) throw problem;
    showChart(null, problem.message);
    showTimetable(null);
  }
};

const step = (by: number): void => {
  const date = new Date(`${byId<HTMLInputElement>("first").value}T00:00:00Z`);
  if (Number.isNaN(date.getTime())) return;
  date.setUTCDate(date.getUTCDate() + by);
  chosen = date.toISOString().slice(0, 10);
  void quietly(days());
};

const save = async (format: NonNullable<Question["format"]>): Promise<void> => {
  const made = await compiler.ask<DocumentAnswer>({ method: "document", format });
  if (!made) return;
  const link = document.createElement("a");
  link.href = URL.createObjectURL(new Blob([made.text], { type: made.type }));
  link.download = made.name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 10_000);
  status(`${made.name} is among your downloads.`);
};

const layOut = async (): Promise<void> => {
  const answer = await compiler.ask<EditsAnswer>({ method: "format", file: shown });
  if (answer && answer.edits.length > 0) editor.edit(answer.edits);
  else status("It is laid out already, or has an error.");
};

const writeAddress = async (): Promise<void> => {
  const fragment = await pack(site);
  history.replaceState(null, "", `#${fragment}`);
};

const copyLink = async (): Promise<void> => {
  await writeAddress();
  try {
    await navigator.clipboard.writeText(location.href);
    status("The link is copied. The whole text is in it.");
  } catch {
    status("The address of this page is the link. The whole text is in it.");
  }
};

const open = (next: SiteText): Promise<void> => {
  site = { root: next.root, files: { ...next.files } };
  text++;
  chosen = undefined;
  byId<HTMLInputElement>("first").value = "";
  latest = [];
  const files = byId<HTMLSelectElement>("file");
  files.replaceChildren(...Object.keys(site.files).map((name) => new Option(name, name)));
  byId("file-label").hidden = Object.keys(site.files).length === 1;
  compiler.change(site);
  shown = site.root;
  files.value = shown;
  editor.load(site.files[shown] ?? "");
  void quietly(read());
  return quietly(check());
};

const connect = (examples: readonly Example[]): void => {
  const picker = byId<HTMLSelectElement>("example");
  picker.append(...examples.map((example) => new Option(example.label, example.name)));
  picker.addEventListener("change", () => {
    const example = examples.find((each) => each.name === picker.value);
    picker.value = "";
    if (!example || (hasOwnText && !confirm("Put the example in place of your text?"))) return;
    hasOwnText = false;
    void open(example.site);
    void quietly(writeAddress());
  });
  byId("file").addEventListener("change", () => show(byId<HTMLSelectElement>("file").value));
  byId("days").addEventListener("change", () => void quietly(days()));
  byId("first").addEventListener("change", () => {
    chosen = byId<HTMLInputElement>("first").value || undefined;
    void quietly(days());
  });
  byId("earlier").addEventListener("click", () => step(-1));
  byId("later").addEventListener("click", () => step(1));
  byId("share").addEventListener("click", () => void quietly(copyLink()));
  byId("format").addEventListener("click", () => void quietly(layOut()));
  byId("save-calendar").addEventListener("click", () => void quietly(save("icalendar")));
  byId("save-yaml").addEventListener("click", () => void quietly(save("yaml")));
  byId("save-csv").addEventListener("click", () => void quietly(save("csv")));
  addEventListener("hashchange", () => void unpack(location.hash.slice(1)).then((next) => next && open(next)));
};

// What it starts with is fetched while the compiler starts.
const examples = (await (await fetch("examples.json")).json()) as Example[];
const linked = location.hash.length > 1 ? await unpack(location.hash.slice(1)) : null;
site = linked ?? examples.find((each) => each.name === "balcony")!.site;
shown = site.root;
connect(examples);
const firstCheck = open(site);
// Once the first check is there: what is kept for later is fetched again by the worker, and must not hold up what is shown.
await firstCheck;
if (location.hash.length > 1 && !linked) status("The text in this link cannot be read; here is an example.");
if ("serviceWorker" in navigator) await navigator.serviceWorker.register("offline.js").catch(() => undefined);
