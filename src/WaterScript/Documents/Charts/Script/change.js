// A week in two versions, as Answers/Diff/Pages draws it, and what a reader does with the page of a change: weeks are chosen from a list, or by a day.
const CHANGE_BAR = 13;
class ChangeDrawing {
  // A night: { title, words, length, shifts, dark, hasSun, unit, lanes: [[name, amounts, difference, [[from, until, from, until]…]]…] }, old before new,
  // null where there is none. The first of a week has the hours, the last what is folded away.
  constructor(night, axis, sizes, options) {
    Object.assign(this, { night, axis, sizes, options, ground: "", svg: "", words: "" });
    this.lane = sizes.isWide ? 44 : 62;
  }

  draw() {
    const { sizes, night, options } = this;
    const sky = options.hasHours ? 20 : 4;
    const top = night.hasSun ? sky + 8 : sky;
    const bottom = top + this.lane * night.lanes.length;
    if (options.hasHours) this.drawHours();
    if (night.hasSun) this.drawSky(sky);
    this.drawGrid(top, bottom);
    const names = cutAll(night.lanes.map((lane) => lane[0]), sizes.isWide ? sizes.left - 14 : sizes.width * 0.5);
    night.lanes.forEach((lane, index) => this.drawLane(lane, names[index], top + this.lane * index));
    const hasFoot = options.hasFoot && this.axis.folds.length > 0;
    if (hasFoot) this.drawFoot(bottom + 16);
    const [width, tall] = [number(sizes.width), number(bottom + (hasFoot ? 22 : 4))];
    return `<svg class="sheet" width="${width}" height="${tall}" viewBox="0 0 ${width} ${tall}" role="img" ` +
      `aria-label="${escaped(`${night.title}: ${night.words}`)}">${this.ground}${this.svg}${this.words}</svg>`;
  }

  x(at) {
    return xOf(this.axis, at);
  }

  clock(at) {
    return clock(this.night, at, false);
  }

  drawHours() {
    let used = -99;
    for (const at of ticksOf(this.night, this.axis, false)) {
      const words = this.clock(at);
      const half = widthOf(words) / 2;
      const middle = Math.max(half, Math.min(this.sizes.width - half, this.x(at)));
      if (middle - half < used + 6) continue;
      this.words += text(middle - half, 12, words, "s");
      used = middle + half;
    }
    const heading = `${this.night.unit}, old → new`;
    if (this.sizes.right > 0 && this.sizes.width - 82 - widthOf(heading) > used + 6) this.words += text(this.sizes.width - 82, 12, heading, "s e");
  }

  drawSky(y) {
    for (const [from, until] of piecesOf(this.axis, [[0, this.night.length]])) this.ground += box("day", from + 0.5, y - 1.5, until - from - 1, 4);
    for (const [from, until] of piecesOf(this.axis, this.night.dark)) this.ground += box("dark", from, y - 2, until - from, 5);
  }

  drawGrid(top, bottom) {
    const lines = ticksOf(this.night, this.axis, false).map((at) => `M${number(this.x(at))} ${number(top)}V${number(bottom)}`).join("");
    const folds = this.axis.folds.map((fold) => fold.x + this.axis.fold / 2)
      .map((x) => [x - 4, x + 4].map((each) => `M${number(each)} ${number(top)}V${number(bottom)}`).join("")).join("");
    this.ground += path("hair", lines) + path("rule fold", folds);
  }

  /** How much each fold leaves out. */
  drawFoot(y) {
    let used = -99;
    for (const fold of this.axis.folds) {
      const words = folded(fold.seconds);
      const x = Math.max(0, Math.min(this.sizes.width - widthOf(words), fold.x + (this.axis.fold - widthOf(words)) / 2));
      if (x < used + 6) continue;
      this.words += text(x, y, words, "s");
      used = x + widthOf(words);
    }
  }

  drawLane([name, amounts, difference, runs], short, top) {
    const { sizes } = this;
    let y = top;
    this.ground += path("hair", `M0 ${number(y + this.lane - 0.5)}H${number(sizes.width)}`);
    if (sizes.isWide) {
      this.words += `<text x="0" y="${number(y + 26)}"><title>${escaped(name)}</title>${escaped(short)}</text>`;
      if (sizes.right > 0) this.words += text(sizes.width - 82, y + 26, amounts, "s e") + text(sizes.width, y + 26, difference, "e");
    } else {
      this.words += text(0, y + 13, short, "halo") + text(sizes.width, y + 13, difference, "s e halo");
      y += 18;
    }
    for (const run of runs) this.drawRun(run, y);
    this.drawTimes(runs.filter((run) => !isSameRun(run) && run[0] !== null).map((run) => [run[0], run[1]]), y + 6, "halo less-text");
    this.drawTimes(runs.filter((run) => run[2] !== null).map((run) => [run[2], run[3]]), y + 25, "halo");
  }

  drawRun(run, y) {
    const [oldFrom, oldUntil, newFrom, newUntil] = run;
    if (isSameRun(run)) {
      const [from, width] = this.placeOf(newFrom, newUntil);
      this.svg += box("same", from, y + 25, width, CHANGE_BAR);
      return;
    }
    if (oldFrom !== null) {
      const [from, width] = this.placeOf(oldFrom, oldUntil);
      const middle = number(y + 6 + CHANGE_BAR / 2);
      this.svg += box("was", from, y + 6, width, CHANGE_BAR) + path("struck", `M${number(from - 2)} ${middle}H${number(from + width + 2)}`);
    }
    if (newFrom === null) return;
    const [x, wide] = this.placeOf(newFrom, newUntil);
    this.svg += box("w", x, y + 25, wide, CHANGE_BAR);
    if (oldFrom === null) return;
    const [left, width] = this.placeOf(oldFrom, oldUntil);
    this.svg += path("slant", `M${number(left)} ${number(y + 6 + CHANGE_BAR)}L${number(x)} ${number(y + 25)}` +
      `M${number(left + width)} ${number(y + 6 + CHANGE_BAR)}L${number(x + wide)} ${number(y + 25)}`);
  }

  placeOf(from, until) {
    return [this.x(from), Math.max(2, this.x(until) - this.x(from))];
  }

  /** The first and the last time of half a lane, and how long in all, where there is room; where it is narrow there is none. */
  drawTimes(runs, y, kind) {
    if (runs.length === 0 || !this.sizes.isWide) return;
    const { left, right } = this.axis;
    const taken = runs.map(([from, until]) => [this.x(from), this.placeOf(from, until)[0] + this.placeOf(from, until)[1]]);
    const put = (x, words) => {
      const until = x + widthOf(words);
      if (x < left || until > right || taken.some((each) => x < each[1] + 4 && until > each[0] - 4)) return;
      taken.push([x, until]);
      this.words += text(x, y + 11, words, kind);
    };
    for (const group of this.groups(runs)) {
      const last = group[group.length - 1];
      const [start, end] = [this.clock(group[0][0]), this.clock(last[1])];
      put(this.x(group[0][0]) - 6 - widthOf(start), start);
      const x = this.placeOf(...last)[0] + this.placeOf(...last)[1] + 6;
      const both = `${end}, ${length(group.reduce((sum, [from, until]) => sum + until - from, 0))}`;
      put(x, x + widthOf(both) <= right ? both : end);
    }
  }

  /** Waterings that are far apart have their own times. */
  groups(runs) {
    const groups = [];
    for (const run of [...runs].sort((a, b) => a[0] - b[0])) {
      const last = groups[groups.length - 1];
      if (last && this.x(run[0]) - this.x(last[last.length - 1][1]) < 90) last.push(run);
      else groups.push([run]);
    }
    return groups;
  }
}

const isSameRun = (run) => run[0] === run[2] && run[1] === run[3];

/** The axis of a week. */
const changeAxis = (nights, sizes) => {
  const most = Math.max(...nights.map((night) => night.length));
  const busy = nights.flatMap((night) => night.lanes.flatMap((lane) => lane[3])).flatMap((run) => [[run[0], run[1]], [run[2], run[3]]])
    .filter(([from]) => from !== null).map(([from, until]) => [Math.max(0, from), Math.min(most, until)]);
  return axisOf(fold(busy, sizes, most), sizes, most, 1, 0);
};

/** Runs that repeat alike are one row of the data: [from, until, from, until, every, times]. */
const changeNight = (data, [title, words, long, shifts, lanes, dark]) => ({
  title, words, length: long, shifts, dark, hasSun: data.hasSun, unit: data.unit,
  lanes: lanes.map(([zone, amounts, difference, rows]) => [data.zones[zone], amounts, difference, rows.flatMap(([a, b, c, d, every, times]) =>
    Array.from({ length: times }, (_, index) => [a, b, c, d].map((at) => (at === null ? null : at + index * every)))).sort((x, y) =>
    (x[2] ?? x[0]) - (y[2] ?? y[0]))]),
});

/** The drawings of a week; of a night without water there is none. */
const changeDrawings = (nights, axis, sizes) => {
  const wet = nights.filter((night) => night.lanes.length > 0);
  return nights.map((night) => (wet.includes(night)
    ? new ChangeDrawing(night, axis, sizes, { hasHours: night === wet[0], hasFoot: night === wet.at(-1) }).draw()
    : null));
};
