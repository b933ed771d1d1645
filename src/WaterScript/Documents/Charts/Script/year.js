// What a reader does with a year: days are pointed at or stepped to and said in a line; a click opens the nights of a day.
class YearView {
  constructor(data, host) {
    Object.assign(this, { data, host, day: -1 });
    const steps = {
      "earlier-day": () => this.choose(this.day - 1), "later-day": () => this.choose(this.day + 1), open: () => this.open(), scale: () => this.scale(),
    };
    const keys = {
      ArrowLeft: () => this.choose(this.day - 7), ArrowRight: () => this.choose(this.day + 7), ArrowUp: steps["earlier-day"], ArrowDown: steps["later-day"],
      Home: () => this.choose(0), End: () => this.choose(data.days.length - 1), Enter: steps.open, s: steps.scale,
    };
    for (const button of document.querySelectorAll("[data-do]")) button.addEventListener("click", () => steps[button.dataset.do]?.());
    host.addEventListener("keydown", (event) => {
      if (event.ctrlKey || event.metaKey || event.altKey || !keys[event.key]) return;
      event.preventDefault();
      keys[event.key]();
    });
    host.addEventListener("pointermove", (event) => this.pointAt(event));
    host.addEventListener("click", (event) => this.pointAt(event) && this.open());
  }

  /** The grid of a drawing: left, top, pitch of weeks, pitch of weekdays, weekday of the first day, whether weeks stand beside one another. */
  gridOf(svg) {
    const [left, top, pitch, row, first, isWide] = svg.dataset.grid.split(" ").map(Number);
    return { left, top, pitch, row, first, isWide };
  }

  pointAt(event) {
    const svg = event.target.closest?.("svg[data-grid]");
    if (!svg) return false;
    const grid = this.gridOf(svg);
    const frame = svg.getBoundingClientRect();
    const scale = svg.viewBox.baseVal.width / frame.width;
    const [across, down] = [Math.floor(((event.clientX - frame.left) * scale - grid.left) / grid.pitch),
      Math.floor(((event.clientY - frame.top) * scale - grid.top) / grid.row)];
    const [week, weekday] = grid.isWide ? [across, down] : [down, across];
    const day = week * 7 + weekday - grid.first;
    if (week < 0 || weekday < 0 || weekday > 6 || day < 0 || day >= this.data.days.length) return false;
    this.choose(day);
    return true;
  }

  choose(day) {
    this.day = Math.max(0, Math.min(this.data.days.length - 1, day));
    for (const svg of this.host.querySelectorAll("svg[data-grid]")) {
      const grid = this.gridOf(svg);
      const [week, weekday] = [Math.floor((grid.first + this.day) / 7), (grid.first + this.day) % 7];
      const [x, y] = grid.isWide ? [grid.left + week * grid.pitch, grid.top + weekday * grid.row]
        : [grid.left + weekday * grid.pitch, grid.top + week * grid.row];
      svg.querySelector(".chosen-day")?.remove();
      svg.insertAdjacentHTML("beforeend", box("chosen-day", x, y, grid.pitch - 0.5, grid.row - 0.5));
    }
    const [date, words, zones, nights] = this.data.days[this.day];
    const small = zones + (nights.length > 0 ? `${zones === "" ? "" : ". "}Enter opens the ${this.data.weeks ? "week" : nights.length > 1 ? "nights" : "night"}.` : "");
    say([date, ` ${words}`, small], "");
  }

  scale() {
    const isCommon = this.host.classList.toggle("common");
    document.querySelector('[data-do="scale"]').setAttribute("aria-pressed", String(isCommon));
  }

  /** Draws the nights of the chosen day under the year. */
  open() {
    if (this.day < 0) return;
    const [date, words, , ids] = this.data.days[this.day];
    const section = document.getElementById("opened");
    section.hidden = false;
    section.querySelector("h2").textContent = `${date}: ${words}`;
    section.classList.toggle("empty", ids.length === 0 || !this.data.picture);
    this.nights?.stop();
    if (ids.length === 0 || !this.data.picture) return;
    const picture = section.querySelector(".picture").cloneNode(false);
    section.querySelector(".picture").replaceWith(picture);
    const { nights, findings } = this.picked(ids);
    for (const night of nights) {
      const [title, small, place] = ["h3", "small", "div"].map((name) => document.createElement(name));
      small.textContent = night.words;
      title.append(night.title, small);
      place.className = "night";
      place.dataset.night = night.id;
      picture.append(title, place);
    }
    section.querySelector('[data-do="panels"]').hidden = nights.length < 2;
    section.querySelector('[data-do="panels"]').setAttribute("aria-pressed", "false");
    section.querySelector(".findings").replaceChildren(...findings.map((finding, index) => this.item(finding, index + 1)));
    this.nights = new NightPage({ ...this.data.picture, nights, findings }, picture);
    section.scrollIntoView({ block: "nearest" });
  }

  /** Some nights, and their findings, which are numbered from 1. */
  picked(ids) {
    const nights = ids.map((id) => nightOf(this.data.picture.nights[id]));
    const numbers = [...new Set(nights.flatMap((night) => night.findings.map(([number]) => number)))].sort((a, b) => a - b);
    return {
      nights: nights.map((night) => ({ ...night, findings: night.findings.map(([number, ...rest]) => [numbers.indexOf(number) + 1, ...rest]) })),
      findings: numbers.map((number) => this.data.picture.findings[number - 1]),
    };
  }

  /** A finding in the list under the nights. */
  item([severity, words, place, when], number) {
    const kind = ["advice", "warning", "error"][severity];
    const [line, href] = this.data.picture.places[place];
    const item = document.createElement("li");
    const [text, link] = [document.createElement("span"), document.createElement("a")];
    item.innerHTML = `<svg class="sheet" width="24" height="26" aria-hidden="true">${NightDrawing.prototype.sign(kind, 12, 14, number)}</svg>`;
    link.className = "line";
    link.href = href;
    link.textContent = `line ${line}`;
    text.append(`${kind} ${number}: ${words}. ${when} `, link);
    item.append(text);
    return item;
  }
}

if (typeof document !== "undefined" && document.getElementById("year-data")) {
  new YearView(JSON.parse(document.getElementById("year-data").textContent), document.getElementById("year"));
  document.documentElement.dataset.ready = "";
}
