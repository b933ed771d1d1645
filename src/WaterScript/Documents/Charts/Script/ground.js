// The drawing of a night: a text of SVG, the same to the letter as Documents/Charts/Drawing writes. Here is what lies under and beside the lanes.
const BAR = 16;
const text = (x, y, words, kind) => `<text${kind ? ` class="${kind}"` : ""} x="${number(x)}" y="${number(y)}">${escaped(words)}</text>`;
const path = (kind, d) => (d === "" ? "" : `<path class="${kind}" d="${d}"/>`);
const box = (kind, x, y, width, height) =>
  `<rect class="${kind}" x="${number(x)}" y="${number(y)}" width="${number(width)}" height="${number(height)}"/>`;

// A row: [zone, start, length, schedule, pass, place, step, every, times, water]; of a held one the last is why.
const [ZONE, START, LENGTH, SCHEDULE, PASS, PLACE, STEP, EVERY, TIMES, WATER] = [0, 1, 2, 3, 4, 5, 6, 7, 8, 9];
const isComb = (row) => row[EVERY] > 0;
const endOf = (row) => row[START] + (isComb(row) ? row[EVERY] * (row[TIMES] - 1) : 0) + row[LENGTH];

/** Why a row is not watered, in a word or two. */
const cause = (row) => row[WATER].split(":")[0];

const grouped = (list, key) => {
  const groups = new Map();
  for (const each of list) {
    if (!groups.has(each[key])) groups.set(each[key], []);
    groups.get(each[key]).push(each);
  }
  return groups;
};

class NightGround {
  constructor(data, night, axis, sizes, options) {
    Object.assign(this, { data, night, axis, sizes, options });
    this.isFine = axis.scale > 0.6;
    this.ground = "";
    this.lines = "";
    this.marks = "";
    this.words = "";
    this.top = "";
    this.foot = "";
    this.bands = [];
    this.named = new Set();
    this.numbers = new Map([...night.rows.entries(), ...night.held.entries()].map(([index, row]) => [row, index]));
  }

  x(at) {
    return xOf(this.axis, at);
  }

  isSeen(from, until) {
    return this.x(until) > this.axis.left - 1 && this.x(from) < this.axis.right + 1;
  }

  clock(at) {
    return clock(this.night, at, this.isFine);
  }

  /** The visible pieces of stretches of time, in pixels. */
  pieces(bands) {
    return piecesOf(this.axis, bands);
  }

  /** Where a pass goes on in another zone, and the pause before. */
  threads() {
    const middles = new Map(this.lanes.map((lane) => [lane.zone, lane.middle]));
    const passes = new Map();
    for (const row of this.night.rows) {
      if (isComb(row)) continue;
      const key = `${row[SCHEDULE]} ${row[PASS]}`;
      if (!passes.has(key)) passes.set(key, []);
      passes.get(key).push(row);
    }
    let lines = "";
    let pauses = "";
    for (const pass of passes.values()) {
      const starts = [...pass].sort((a, b) => a[START] - b[START]);
      const ends = [...pass].sort((a, b) => endOf(a) - endOf(b));
      let done = 0;
      for (let i = 0; i < starts.length; ) {
        const at = starts[i][START];
        const next = [];
        for (; i < starts.length && starts[i][START] === at; i++) next.push(middles.get(starts[i][ZONE]));
        while (done < ends.length && endOf(ends[done]) <= at + 1) done++;
        if (done === 0) continue;
        const end = endOf(ends[done - 1]);
        const before = [];
        for (let k = done - 1; k >= 0 && endOf(ends[k]) === end; k--) before.push(middles.get(ends[k][ZONE]));
        const [high, low] = [Math.min(...next, ...before), Math.max(...next, ...before)];
        const x = this.x(at);
        if (high === low || x < this.axis.left || x > this.axis.right) continue;
        lines += `M${number(x)} ${number(high)}V${number(low)}`;
        if (at - end <= 1 || x - this.x(end) <= 3) continue;
        for (const middle of before) pauses += `M${number(Math.max(this.axis.left, this.x(end)))} ${number(middle)}H${number(x)}`;
      }
    }
    return path("thread", lines) + path("thread pause", pauses);
  }

  drawDevices(y) {
    const { sizes, night } = this;
    if (!this.options.hasPanels || night.devices.length === 0) return y;
    let top = y + 6;
    for (const [name, total, spans] of night.devices) {
      const middle = top + (sizes.isWide ? 12 : 28);
      this.lines += text(0, sizes.isWide ? middle + 4 : top + 14, cut(name, sizes.isWide ? sizes.left - 14 : sizes.width), "s");
      if (sizes.right > 0) this.lines += text(sizes.width - 82, middle + 4, total, "s e");
      let boxes = "";
      for (const [from, until] of spans) {
        if (!this.isSeen(from, until)) continue;
        const [a, b] = [this.x(from), Math.max(this.x(from) + 2, this.x(until))];
        boxes += `M${number(a)} ${number(middle - 6)}H${number(b)}v12H${number(a)}z`;
      }
      this.marks += path("device", boxes);
      if (!sizes.isWide) this.bands.push([middle - 10, middle + 10]);
      top += sizes.isWide ? 24 : 38;
    }
    return top;
  }

  drawPanels(y) {
    let top = y;
    for (const panel of this.night.panels) {
      if (!this.options.hasPanels && panel[9].length === 0) continue;
      top += this.sizes.isWide ? 16 : 30;
      this.drawPanel(panel, top);
      this.bands.push([top, top + 44]);
      top += 44;
    }
    // What stands at the foot of the last curve has room where nothing else follows.
    return top > y && !this.options.hasFoot ? top + 8 : top;
  }

  // A panel: [kind, name, note, limit or null, limit in words, zero in words, greatest, [[at, value]…], [[at, inrush]…], [[from, until]…]]
  drawPanel([kind, name, note, limit, limitWords, zero, greatest, points, rushes, beyond], top) {
    const { sizes } = this;
    const { left, right } = this.axis;
    const most = greatest * 1.12;
    const yOf = (value) => top + 44 - (value / most) * 44;
    const bottom = top + 44;
    let area = "";
    let line = "";
    for (const piece of this.axis.shown) {
      const drawn = this.curve(kind, points, piece, yOf);
      line += "M" + drawn;
      area += `M${number(this.x(piece.from))} ${number(bottom)}L${drawn}V${number(bottom)}z`;
    }
    const ticks = rushes.filter(([at]) => this.isSeen(at, at)).map(([at, value]) => `M${number(this.x(at))} ${number(bottom)}V${number(yOf(value))}`).join("");
    this.marks += path("wash", area) + path("ax rush", ticks);
    if (limit !== null)
      for (const [from, until] of this.pieces(beyond))
        if (kind === "level") this.marks += box("over", from, Math.min(yOf(limit), bottom - 7), until - from, Math.max(7, bottom - yOf(limit)));
        else this.marks += box("over", from, top, until - from, Math.max(7, yOf(limit) - top));
    this.marks += path("wl", line) + path("rule", `M${number(left)} ${number(bottom)}H${number(right)}`);
    if (limit !== null && limit > 0) this.marks += path("limit", `M${number(left)} ${number(yOf(limit))}H${number(right)}`);
    if (!sizes.isWide) {
      const room = sizes.width * 0.62;
      const words = limitWords !== "" && widthOf(`${note}, ${limitWords}`) <= room ? `${note}, ${limitWords}` : cut(note, room);
      this.lines += text(0, top - 6, cut(name, sizes.width - widthOf(words) - 12), "") + text(sizes.width, top - 6, words, "s e");
      return;
    }
    this.lines += text(0, top + 16, cut(name, sizes.left - 14), "") + text(0, top + 32, cut(note, sizes.left - 14), "s");
    const hasLimit = limit !== null && limit > 0 && sizes.right > 0;
    if (hasLimit) this.lines += text(right + 8, yOf(limit) + 4, cut(limitWords, sizes.right - 8), "s");
    if (!hasLimit || bottom - yOf(limit) > 14) this.lines += text(right + 8, bottom + 4, cut(zero, (sizes.right > 0 ? sizes.right : 64) - 8), "s");
  }

  /** A curve within a piece of the axis: steps, or of a level straight lines between its points. */
  curve(kind, points, piece, yOf) {
    let i = 0;
    while (i + 1 < points.length && points[i + 1][0] <= piece.from) i++;
    const valueAt = (at) => {
      const [a, b] = [points[i], points[i + 1]];
      return kind === "level" && b && b[0] > a[0] ? a[1] + ((b[1] - a[1]) * (at - a[0])) / (b[0] - a[0]) : a[1];
    };
    let drawn = `${number(this.x(piece.from))} ${number(yOf(valueAt(piece.from)))}`;
    for (; i + 1 < points.length && points[i + 1][0] < piece.until; i++) {
      const [at, value] = points[i + 1];
      if (kind !== "level") drawn += `H${number(this.x(at))}V${number(yOf(value))}`;
      else drawn += `L${number(this.x(at))} ${number(yOf(value))}`;
    }
    return drawn + `${kind === "level" ? "L" : "H"}${number(this.x(piece.until))}` + (kind === "level" ? ` ${number(yOf(valueAt(piece.until)))}` : "");
  }

  drawSky() {
    const { night } = this;
    if (!night.hasSun) return;
    for (const [from, until] of this.pieces([[0, night.length]])) this.ground += box("day", from + 0.5, this.skyY - 1.5, until - from - 1, 4);
    for (const [from, until] of this.pieces(night.dark)) this.ground += box("dark", from, this.skyY - 2, until - from, 5);
  }

  drawForbidden() {
    for (const [, zones, bands] of this.night.forbidden) {
      for (const lane of this.lanes) {
        if (!zones.includes(lane.zone)) continue;
        const [above, less] = this.sizes.isWide ? [2, 4] : [18, 20];
        for (const [from, until] of this.pieces(bands)) this.ground += box("forbidden", from, lane.y + above, until - from, lane.height - less);
        this.ground += this.forbiddenFolds(lane, bands);
      }
    }
  }

  /** Forbidden hours that are folded away are marked on the fold. */
  forbiddenFolds(lane, bands) {
    let marks = "";
    for (const fold of this.axis.folds) {
      const piece = this.axis.shown.find((each) => Math.abs(each.x - fold.x - this.axis.fold) < 0.01);
      const until = piece ? piece.from : this.night.length;
      const from = until - fold.seconds;
      if (fold.x < this.axis.left - 1 || fold.x + this.axis.fold > this.axis.right + 1) continue;
      if (bands.some((band) => band[0] < until && band[1] > from))
        marks += box("forbidden", fold.x, lane.middle - 10, this.axis.fold, 20);
    }
    return marks;
  }

  drawGrid(y) {
    const { sizes } = this;
    const [minor, major] = [[], []];
    for (const at of this.ticks) {
      const x = this.x(at);
      if (x < this.axis.left - 0.5 || x > this.axis.right + 0.5) continue;
      const isMidnight = (43200 + at + shiftAt(this.night, at)) % 86400 === 0;
      const spans = sizes.isWide ? [[this.skyY + 4, y]] : this.bands;
      for (const [from, until] of spans) (isMidnight ? major : minor).push(`M${number(x)} ${number(from)}V${number(until)}`);
    }
    const end = number(sizes.right > 0 || !sizes.isWide ? sizes.width : this.axis.right);
    for (const lane of this.lanes) minor.push(`M0 ${number(lane.y + lane.height - 0.5)}H${end}`);
    this.ground += path("hair", minor.join("")) + path("rule", major.join(""));
  }

  folds(y) {
    const { sizes } = this;
    let marks = "";
    for (const fold of this.axis.folds) {
      if (fold.x + this.axis.fold < this.axis.left || fold.x > this.axis.right) continue;
      if (sizes.isWide && this.night.forbidden.length === 0) marks += box("paper", fold.x, this.lanesY - 1, this.axis.fold, y - this.lanesY + 2);
      const middle = fold.x + this.axis.fold / 2;
      const spans = sizes.isWide ? [[this.lanesY, y]] : this.bands;
      const lines = spans.map(([from, until]) => [middle - 4, middle + 4].map((x) => `M${number(x)} ${number(from)}V${number(until)}`).join("")).join("");
      marks += path("rule fold", lines);
    }
    return marks;
  }

  drawFoot(y) {
    const { sizes, options, night } = this;
    let bottom = y;
    if (options.hasFoot) {
      const used = [];
      const place = (x, words) => {
        const from = Math.max(0, Math.min(sizes.width - widthOf(words), x));
        if (used.some((each) => from < each[1] + 6 && from + widthOf(words) > each[0] - 6)) return false;
        used.push([from, from + widthOf(words)]);
        this.foot += text(from, y + 16, words, "s");
        return true;
      };
      for (const fold of this.axis.folds) {
        if (fold.x + this.axis.fold <= this.axis.left || fold.x >= this.axis.right) continue;
        const words = folded(fold.seconds);
        place(fold.x + this.axis.fold / 2 - widthOf(words) / 2, words);
      }
      for (const [words, at] of night.sun) {
        const x = this.x(at);
        if (!isShown(this.axis, at) || x <= this.axis.left || x >= this.axis.right) continue;
        if (place(x - widthOf(words) / 2, words) || place(x + 4, words) || place(x - 4 - widthOf(words), words))
          this.foot += path("rule", `M${number(x)} ${number(y)}v5`);
      }
      bottom += 22;
    }
    if (options.thumb) {
      const { left, right } = this.axis;
      const [from, until] = options.thumb;
      this.foot += path("rule", `M${number(left)} ${number(bottom + 7)}H${number(right)}`) +
        box("dark", left + (right - left) * from, bottom + 4.5, Math.max(8, (right - left) * (until - from)), 5);
      bottom += 14;
    }
    return bottom;
  }
}

const folded = (seconds) => {
  if (seconds < 3600) return `${Math.floor(seconds / 60 + 0.5)} min`;
  const halves = Math.floor(seconds / 1800 + 0.5);
  return `${Math.floor(halves / 2)}${halves % 2 === 1 ? "½" : ""} h`;
};
