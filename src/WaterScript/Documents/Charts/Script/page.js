// What a reader does with nights: they are drawn at the width there is, zoomed and moved; a run that is pointed at or stepped to is said in a line.
class NightPage {
  constructor(data, picture) {
    Object.assign(this, { data, picture, zoom: 1, pan: 0, chosen: null, printWidth: 0, end: new AbortController() });
    this.hasPanels = data.nights.length === 1;
    this.rows = new Map();
    for (const night of data.nights) this.add(night);
    this.listen();
    if (data.nights.length > 1) this.addSticky();
    this.draw();
  }

  add(night) {
    night.rows.forEach((row, index) => this.rows.set(`${night.id}-${index}`, { row, night, isHeld: false }));
    night.held.forEach((row, index) => this.rows.set(`${night.id}-h${index}`, { row, night, isHeld: true }));
    this.order = [...this.rows.keys()].sort((a, b) => {
      const [x, y] = [this.rows.get(a), this.rows.get(b)];
      return x.night.id - y.night.id || x.row[START] - y.row[START] || x.row[ZONE] - y.row[ZONE];
    });
  }

  get width() {
    return this.printWidth || Math.floor(this.picture.clientWidth);
  }

  /** Draws all nights anew: at another width or zoom every label has another place. */
  draw() {
    const width = this.width;
    if (width < 40) return;
    this.sizes = sizesOf(width);
    const busy = this.data.nights.filter((night) => night.rows.length + night.held.length > 0);
    const most = Math.max(...this.data.nights.map((night) => night.length));
    this.pieces = fold(busy.flatMap(busySpans), this.sizes, most);
    this.most = most;
    this.axis = axisOf(this.pieces, this.sizes, most, this.zoom, this.pan);
    const thumb = this.zoom > 1 ? [this.pan / this.axis.full, (this.pan + this.axis.right - this.axis.left) / this.axis.full] : null;
    let drawn = "";
    busy.forEach((night, index) => {
      const host = this.picture.querySelector(`[data-night="${night.id}"]`);
      if (!host) return;
      const options = { hasHours: index === 0, hasFoot: index === 0, hasPanels: this.hasPanels, thumb: index === 0 ? thumb : null };
      host.innerHTML = new NightDrawing(this.data, night, this.axis, this.sizes, options).draw().svg;
      drawn += host.innerHTML;
    });
    for (const entry of document.querySelectorAll(".legend [data-mark]")) entry.hidden = !drawn.includes(entry.dataset.mark);
    this.drawHours(busy[0]);
    this.mark();
    if (beside()) drawStrips(this);
  }

  /** Of several nights the hours stay at the top while the first of them is out of sight. */
  drawHours(night) {
    if (!this.sticky || !night) return;
    const drawing = new NightDrawing(this.data, night, this.axis, this.sizes, {});
    drawing.ticks = ticksOf(night, this.axis, drawing.isFine);
    drawing.drawHours();
    const width = number(this.sizes.width);
    this.sticky.innerHTML = `<svg class="sheet" width="${width}" height="18" viewBox="0 0 ${width} 18">${drawing.top}</svg>`;
    this.stick();
  }

  stick() {
    const first = this.picture.querySelector(".night svg");
    const isAbove = first && first.getBoundingClientRect().top < 0;
    this.sticky.hidden = !isAbove || this.picture.getBoundingClientRect().bottom < 60;
  }

  addSticky() {
    this.sticky = document.createElement("div");
    this.sticky.className = "hours";
    this.sticky.hidden = true;
    this.sticky.setAttribute("aria-hidden", "true");
    this.picture.prepend(this.sticky);
    addEventListener("scroll", () => this.stick(), { passive: true, signal: this.end.signal });
  }

  mark() {
    for (const each of this.picture.querySelectorAll(".run.chosen")) each.classList.remove("chosen");
    const own = this.chosen && this.picture.querySelector(`[data-run="${this.chosen}"]`);
    if (own) own.classList.add("chosen");
    return own;
  }

  choose(id, isStep) {
    if (!this.rows.has(id)) return;
    this.chosen = id;
    const { row } = this.rows.get(id);
    if (isStep) this.bringIntoView(row);
    const own = this.mark();
    if (isStep && own) {
      const box = own.getBoundingClientRect();
      if (box.top < 0 || box.bottom > innerHeight - 100) own.scrollIntoView({ block: "center", inline: "nearest" });
    }
    say(this.sentence(id), this.data.places[row[PLACE]][2]);
  }

  sentence(id) {
    const { row, night, isHeld } = this.rows.get(id);
    const times = `${clock(night, row[START], false)}–${clock(night, endOf(row), false)}`;
    const what = isComb(row) ? `every ${length(row[EVERY])} for ${length(row[LENGTH])}, ${row[TIMES]} times, ${times}` : `${times}, ${length(row[LENGTH])}`;
    const line = this.data.places[row[PLACE]][0];
    const water = isHeld || row[WATER] === "" ? "" : ` · ${row[WATER]}`;
    const why = isHeld ? ` · not watered, ${row[WATER]}` : "";
    const day = this.data.nights.length > 1 ? `${night.title}, ` : "";
    return [this.data.zones[row[ZONE]], ` ${day}${what}${water}`, `${this.data.schedules[row[SCHEDULE]]}, step ${row[STEP]}${why}, line ${line}`];
  }

  step(by) {
    const at = this.order.indexOf(this.chosen);
    const next = at < 0 ? (by > 0 ? 0 : this.order.length - 1) : Math.max(0, Math.min(this.order.length - 1, at + by));
    if (this.order.length > 0) this.choose(this.order[next], true);
  }

  stepNight(by) {
    const own = this.chosen ? this.rows.get(this.chosen).night.id : by > 0 ? -1 : this.data.nights.length;
    const found = by > 0 ? this.order.find((id) => this.rows.get(id).night.id > own)
      : this.order.filter((id) => this.rows.get(id).night.id < own).map((id) => this.rows.get(id).night.id).at(-1);
    const first = by > 0 ? found : this.order.find((id) => this.rows.get(id).night.id === found);
    if (first !== undefined) this.choose(first, true);
  }

  bringIntoView(row) {
    if (this.zoom === 1) return;
    const x = xOf(this.axis, row[START]);
    if (x >= this.axis.left + 20 && x <= this.axis.right - 60) return;
    this.moveTo(this.pan + x - this.axis.left - (this.axis.right - this.axis.left) / 3);
  }

  moveTo(pan) {
    const most = this.axis.full - (this.axis.right - this.axis.left);
    this.pan = Math.max(0, Math.min(most, pan));
    this.draw();
  }

  /** Zooms so that what is drawn at a place stays there; without a place the chosen run, or the middle. */
  zoomBy(factor, place) {
    const own = this.chosen ? xOf(this.axis, this.rows.get(this.chosen).row[START]) : -1;
    const middle = own >= this.axis.left && own <= this.axis.right ? own : (this.axis.left + this.axis.right) / 2;
    const x = place ?? middle;
    const at = timeAt(this.axis, x);
    this.zoom = Math.min(20000, Math.max(1, this.zoom * factor));
    this.axis = axisOf(this.pieces, this.sizes, this.most, this.zoom, 0);
    this.moveTo(this.zoom === 1 ? 0 : xOf(this.axis, at) - x);
  }

  /** Shows devices and all curves under the lanes of several nights, or hides them again. */
  panels() {
    const button = document.querySelector('[data-do="panels"]');
    if (!button) return;
    this.hasPanels = !this.hasPanels;
    button.setAttribute("aria-pressed", String(this.hasPanels));
    this.draw();
  }

  all() {
    this.zoom = 1;
    this.moveTo(0);
  }

  listen() {
    const { picture } = this;
    const steps = {
      earlier: () => this.step(-1), later: () => this.step(1), in: () => this.zoomBy(1.6), out: () => this.zoomBy(1 / 1.6), all: () => this.all(),
      beside: () => toggleBeside(this), panels: () => this.panels(),
    };
    const { signal } = this.end;
    for (const button of document.querySelectorAll("[data-do]")) button.addEventListener("click", () => steps[button.dataset.do]?.(), { signal });
    const keys = {
      ArrowLeft: steps.earlier, ArrowRight: steps.later, "[": () => this.stepNight(-1), "]": () => this.stepNight(1), "+": steps.in, "=": steps.in,
      "-": steps.out, 0: steps.all, Home: () => this.choose(this.order[0], true), End: () => this.choose(this.order.at(-1), true),
      Enter: () => this.goToLine(), p: steps.panels,
    };
    const shifted = { ArrowLeft: () => this.moveTo(this.pan - 120), ArrowRight: () => this.moveTo(this.pan + 120) };
    picture.addEventListener("keydown", (event) => {
      if (event.ctrlKey || event.metaKey || event.altKey) return;
      const act = (event.shiftKey && shifted[event.key]) || keys[event.key];
      if (!act) return;
      event.preventDefault();
      act();
    });
    picture.addEventListener("pointerover", (event) => {
      const run = event.target.closest?.(".run");
      if (run) this.choose(run.dataset.run, false);
    });
    picture.addEventListener("click", (event) => {
      const run = event.target.closest?.(".run");
      if (!run) return;
      this.choose(run.dataset.run, false);
      if (run.getAttribute("href").startsWith("#")) {
        event.preventDefault();
        showLine(run.getAttribute("href").slice(1));
      }
    });
    this.listenToPointer();
    new ResizeObserver(() => {
      if (this.width === this.sizes?.width) return;
      cancelAnimationFrame(this.frame);
      this.frame = requestAnimationFrame(() => this.draw());
    }).observe(picture);
    addEventListener("beforeprint", () => this.print(1040), { signal });
    addEventListener("afterprint", () => this.print(0), { signal });
  }

  /** Listens no more. */
  stop() {
    this.end.abort();
  }

  /** What a reader looks at: how far it is zoomed, the time at the left edge, the chosen run, and what is opened. */
  view() {
    const run = this.chosen ? this.rows.get(this.chosen) : null;
    return {
      zoom: this.zoom, at: timeAt(this.axis, this.axis.left), hasPanels: this.hasPanels, isBeside: beside(),
      opened: [...document.querySelectorAll("details")].map((details) => details.open),
      run: run && [run.night.title, run.row[ZONE], run.row[START]],
    };
  }

  /** Looks at the same in another picture of the same site, as far as it has it. */
  look({ zoom, at, hasPanels, isBeside, opened, run }) {
    [...document.querySelectorAll("details")].forEach((details, index) => (details.open = opened[index] ?? false));
    if (hasPanels !== this.hasPanels) this.panels();
    if (isBeside !== beside()) toggleBeside(this);
    this.zoom = zoom;
    this.axis = axisOf(this.pieces, this.sizes, this.most, zoom, 0);
    this.moveTo(zoom === 1 ? 0 : xOf(this.axis, at) - this.axis.left);
    const same = run && this.order.filter((id) => this.rows.get(id).night.title === run[0] && this.rows.get(id).row[ZONE] === run[1])
      .sort((a, b) => Math.abs(this.rows.get(a).row[START] - run[2]) - Math.abs(this.rows.get(b).row[START] - run[2]))[0];
    if (same) this.choose(same, false);
  }

  print(width) {
    this.printWidth = width;
    this.draw();
  }

  goToLine() {
    if (!this.chosen) return;
    const [, href, id] = this.data.places[this.rows.get(this.chosen).row[PLACE]];
    if (href.startsWith("#")) showLine(id);
    else location.href = href;
  }

  /** Ctrl and the wheel zoom, or the wheel alone once the picture has the focus; shift and the wheel, or a drag, move; two fingers zoom. */
  listenToPointer() {
    const { picture } = this;
    const placeOf = (event) => event.clientX - picture.getBoundingClientRect().left;
    picture.addEventListener("wheel", (event) => {
      const hasFocus = document.activeElement === picture;
      if (!event.ctrlKey && !event.shiftKey && !hasFocus) return;
      event.preventDefault();
      const by = event.deltaY || event.deltaX;
      if (event.shiftKey) this.moveTo(this.pan + by);
      else this.zoomBy(by < 0 ? 1.25 : 1 / 1.25, placeOf(event));
    }, { passive: false });
    const fingers = new Map();
    let distance = 0;
    picture.addEventListener("pointerdown", (event) => fingers.set(event.pointerId, placeOf(event)));
    for (const end of ["pointerup", "pointercancel", "pointerleave"])
      picture.addEventListener(end, (event) => {
        fingers.delete(event.pointerId);
        distance = 0;
      });
    picture.addEventListener("pointermove", (event) => {
      if (!fingers.has(event.pointerId)) return;
      const before = fingers.get(event.pointerId);
      fingers.set(event.pointerId, placeOf(event));
      if (fingers.size === 1) {
        if (this.zoom > 1 && Math.abs(placeOf(event) - before) > 0) this.moveTo(this.pan - (placeOf(event) - before));
        return;
      }
      const [a, b] = [...fingers.values()];
      const now = Math.abs(a - b);
      if (distance > 0 && now > 0) this.zoomBy(now / distance, (a + b) / 2);
      distance = now;
    });
  }
}

/** Points as they were before what repeats was written once: `[at, value]`, or `[at, times, every, value, at, value…]`. */
const unfolded = (points) => points.flatMap((point) => {
  if (point.length === 2) return [point];
  const [first, times, every, ...group] = point;
  return Array.from({ length: times }, (_, time) => first + time * every)
    .flatMap((at) => group.flatMap((value, index) => (index % 2 === 0 ? [[index === 0 ? at : at + group[index - 1], value]] : [])));
});
const unfoldedSpans = (points) => unfolded(points).map(([at, seconds]) => [at, at + seconds]);

/** A night as it is drawn. */
const nightOf = (night) => ({
  ...night,
  devices: night.devices.map(([name, total, spans]) => [name, total, unfoldedSpans(spans)]),
  panels: night.panels.map((panel) => [...panel.slice(0, 7), unfolded(panel[7]), unfolded(panel[8]), unfoldedSpans(panel[9])]),
});

/** When anything happens in a night that has to be in sight. */
const busySpans = (night) => [
  ...[...night.rows, ...night.held].map((row) => [row[START], endOf(row)]),
  ...night.devices.flatMap((device) => device[2]),
  ...night.findings.map((finding) => [finding[2], finding[2]]),
].map(([from, until]) => [Math.max(0, from), Math.min(night.length, until)]).filter(([from, until]) => until >= from);

/** Says what is chosen, and shows its line with one before and one after. */
const say = ([name, what, where], id) => {
  const host = document.querySelector(".say");
  const [bold, small] = [document.createElement("b"), document.createElement("span")];
  bold.textContent = name;
  small.textContent = where;
  host.replaceChildren(bold, what, small);
  const line = document.getElementById(id);
  for (const each of document.querySelectorAll(".source .hit")) each.classList.remove("hit");
  const lines = line ? [line.previousElementSibling, line, line.nextElementSibling].filter((each) => each !== null) : [];
  document.querySelector(".foot pre").replaceChildren(...lines.map((each) => {
    const shown = document.createElement("i");
    shown.textContent = `${each.querySelector("b").textContent.padStart(5)}  ${each.querySelector("span").textContent}`;
    if (each === line) shown.className = "hit";
    return shown;
  }));
  line?.classList.add("hit");
  if (line && beside()) line.scrollIntoView({ block: "nearest" });
};

/** Opens the file of a line and goes there. */
const showLine = (id) => {
  const line = document.getElementById(id);
  if (!line) return;
  line.closest("details").open = true;
  line.scrollIntoView({ block: "center" });
};

// The file beside the picture; each line that makes water has a strip of the first night beside it.
const beside = () => document.querySelector("main.beside") !== null;
const toggleBeside = (page) => {
  const main = document.querySelector("main");
  const files = [...document.querySelectorAll("details.file")];
  if (beside()) {
    const right = main.querySelector(".right");
    for (const strip of right.querySelectorAll("svg")) strip.remove();
    main.append(...files);
    right.remove();
    const left = main.querySelector(".left");
    main.prepend(...left.childNodes);
    left.remove();
    main.classList.remove("beside");
  } else {
    const [left, right] = [document.createElement("div"), document.createElement("div")];
    left.className = "left";
    right.className = "right";
    left.append(...main.childNodes);
    right.append(...files);
    main.append(left, right);
    main.classList.add("beside");
    for (const file of files) file.open = true;
  }
  page.draw();
};
const drawStrips = (page) => {
  const night = page.data.nights.find((each) => each.rows.length > 0);
  if (!night || page.pieces.length === 0) return;
  const axis = axisOf(page.pieces, { left: 0, room: 66, fold: 0 }, page.most, 1, 0);
  for (const strip of document.querySelectorAll(".source svg")) strip.remove();
  const byLine = new Map();
  for (const row of night.rows) {
    const id = page.data.places[row[PLACE]][2];
    if (!byLine.has(id)) byLine.set(id, []);
    byLine.get(id).push(row);
  }
  for (const [id, rows] of byLine) {
    const bars = rows.map((row) => box("w", xOf(axis, row[START]), 0, Math.max(1, xOf(axis, endOf(row)) - xOf(axis, row[START])), 10)).join("");
    document.getElementById(id)?.insertAdjacentHTML("beforeend",
      `<svg class="sheet" width="66" height="13" aria-hidden="true">${bars}<path class="rule" d="M0 12.5H66"/></svg>`);
  }
};

/** A line that is pointed at lights its bars and says how many there are. */
const listenToLines = (page) => {
  for (const source of document.querySelectorAll(".source"))
    source.addEventListener("pointerover", (event) => {
      const line = event.target.closest(".source > div");
      for (const each of page.picture.querySelectorAll(".run.lit")) each.classList.remove("lit");
      if (!line) return;
      const own = [...page.rows].filter(([, { row }]) => page.data.places[row[PLACE]][2] === line.id);
      if (own.length === 0) return;
      for (const [id] of own) page.picture.querySelector(`[data-run="${id}"]`)?.classList.add("lit");
      const runs = own.reduce((sum, [, { row }]) => sum + row[TIMES], 0);
      const nights = new Set(own.map(([, { night }]) => night.id)).size;
      document.querySelector(".say").textContent =
        `Line ${line.querySelector("b").textContent} makes ${runs} ${runs === 1 ? "run" : "runs"} in ${nights === 1 ? "this night" : `${nights} nights`}.`;
    });
};

if (typeof document !== "undefined" && document.getElementById("data") && document.getElementById("picture")) {
  const data = JSON.parse(document.getElementById("data").textContent);
  const page = new NightPage({ ...data, nights: data.nights.map(nightOf) }, document.getElementById("picture"));
  listenToLines(page);
  // What shows this page in a frame, and a later one after it, goes on where the reader was.
  globalThis.pictureView = { take: () => page.view(), give: (view) => page.look(view) };
  document.documentElement.dataset.ready = "";
}
