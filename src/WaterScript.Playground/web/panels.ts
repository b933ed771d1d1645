// What stands beside the text: the verdict, the findings, the chart and the timetable.
import type { Action, ChartAnswer, CheckAnswer, Finding, Place, TimetableAnswer } from "./protocol";

export const byId = <T extends HTMLElement>(id: string): T => document.getElementById(id) as T;

const made = (name: string, text = "", className = ""): HTMLElement => {
  const element = document.createElement(name);
  if (text) element.textContent = text;
  if (className) element.className = className;
  return element;
};

const button = (text: string, click: () => void): HTMLButtonElement => {
  const element = made("button", text) as HTMLButtonElement;
  element.type = "button";
  element.addEventListener("click", click);
  return element;
};

/** More are in the report of the program. */
const mostFindings = 100;

export interface FindingActs {
  show(place: Place): void;
  apply(action: Action): void;
  fixAll(): void;
  lineOf(place: Place): string;
}

export const showVerdict = (check: CheckAnswer, acts: FindingActs): void => {
  const verdict = byId("verdict");
  verdict.className = check.worst ?? "fine";
  verdict.replaceChildren(...check.verdict.map((line) => made("p", line)));
  if (check.safeFixes > 0) verdict.append(button(`Fix ${check.safeFixes === 1 ? "the slip" : `all ${check.safeFixes} slips`}`, () => acts.fixAll()));
};

export const showFindings = (findings: readonly Finding[], acts: FindingActs): void => {
  const counting = findings.filter((finding) => !finding.isAccepted);
  const list = byId("findings");
  list.replaceChildren(...counting.slice(0, mostFindings).map((finding) => item(finding, acts)));
  const more = counting.length - mostFindings;
  if (more > 0) list.append(made("li", `${more} more`));
  byId("findings-section").hidden = counting.length === 0;
};

const item = (finding: Finding, acts: FindingActs): HTMLElement => {
  const [heading = "", ...facts] = finding.message.split("\n");
  const element = made("li", "", finding.severity);
  const title = made("h3");
  title.append(made("span", finding.severity, "severity"), ` ${heading} `);
  element.append(title, button(acts.lineOf(finding.place), () => acts.show(finding.place)), made("code", finding.rule));
  for (const fact of facts) element.append(made("p", fact));
  for (const place of finding.related) {
    const line = made("p");
    line.append(button(acts.lineOf(place), () => acts.show(place)), ` ${place.words}`);
    element.append(line);
  }
  if (finding.help) element.append(made("p", `Fix: ${finding.help}`));
  if (finding.actions.length > 0) {
    const row = made("p", "", "actions");
    row.append(...finding.actions.map((action) => button(action.title, () => acts.apply(action))));
    element.append(row);
  }
  return element;
};

let drawing: ShadowRoot | undefined;

export const showChart = (chart: ChartAnswer | null, why: string): void => {
  const scroll = byId("drawing");
  byId("no-chart").textContent = chart ? "" : why;
  scroll.hidden = chart === null;
  if (!chart) return;
  // In a tree of its own, so that the style of the drawing is not that of the page.
  drawing ??= byId("picture").attachShadow({ mode: "open" });
  const svg = document.importNode(new DOMParser().parseFromString(chart.svg, "image/svg+xml").documentElement, true);
  const title = svg.querySelector("title")?.textContent ?? "Chart";
  const words = svg.querySelector("desc")?.textContent ?? "";
  svg.setAttribute("role", "group");
  svg.setAttribute("aria-label", `${title}. ${words}`);
  drawing.replaceChildren(svg);
  // On a narrow screen the first watering would be out of sight.
  const water = svg.querySelector(".run")?.getBoundingClientRect();
  if (water && water.right > scroll.getBoundingClientRect().right) scroll.scrollLeft += water.left - scroll.getBoundingClientRect().left - 60;
  (byId("first") as HTMLInputElement).value = chart.first;
};

export const showTimetable = (timetable: TimetableAnswer | null): void => {
  const body = byId("rows");
  body.replaceChildren(
    ...(timetable?.rows ?? []).map((row) => {
      const line = made("tr");
      for (const cell of [row.date, row.times, row.zone, row.length, row.water, row.schedule]) line.append(made("td", cell));
      return line;
    }),
  );
  byId("timetable").hidden = !timetable || timetable.rows.length === 0;
  byId("rows-caption").textContent = timetable
    ? `${timetable.days} days from ${timetable.first}${timetable.hasMore ? `: the first ${timetable.rows.length} runs` : ""}`
    : "";
};
