// What stands in the lanes of a night: bars, combs, their labels, and findings.
class NightLabels extends NightGround {
  lengths(group) {
    if (group.length === 1) return length(group[0][LENGTH]);
    return group.every((row) => row[LENGTH] === group[0][LENGTH]) ? `${group.length} × ${length(group[0][LENGTH])}` : `${group.length} cycles`;
  }

  /** What one label speaks for: the runs of a zone in a pass, or a comb. */
  groupsOf(lane) {
    const groups = new Map();
    [...lane.rows, ...lane.held].forEach((row, index) => {
      const isHeld = index >= lane.rows.length;
      const key = isComb(row) ? `comb ${index}` : `${row[SCHEDULE]} ${row[PASS]} ${isHeld}`;
      if (!groups.has(key)) groups.set(key, Object.assign([], { isHeld, isComb: isComb(row), first: index }));
      groups.get(key).push(row);
    });
    const all = [...groups.values()];
    for (const group of all) group.sort((a, b) => a[START] - b[START]);
    return all.sort((a, b) => a[0][START] - b[0][START] || a.first - b.first);
  }

  link(row, isHeld, shapes) {
    const [line, href, , mark] = this.data.places[row[PLACE]];
    const id = `${this.night.id}-${isHeld ? "h" : ""}${this.numbers.get(row)}`;
    return `<a class="run" tabindex="-1" data-run="${id}" data-line="${escaped(mark ?? String(line))}" href="${escaped(href)}" ` +
      `aria-label="${escaped(this.says(row, isHeld))}">${shapes}</a>`;
  }

  says(row, isHeld) {
    const repeats = isComb(row) ? `, every ${length(row[EVERY])} for ${length(row[LENGTH])}, ${row[TIMES]} times` : "";
    const held = isHeld ? `, not watered: ${row[WATER]}` : "";
    return `${this.data.zones[row[ZONE]]}, ${clock(this.night, row[START], false)} to ${clock(this.night, endOf(row), false)}${repeats}${held}`;
  }

  drawBars(lane, group) {
    const { left, right } = this.axis;
    const y = lane.middle - BAR / 2;
    let before = null;
    for (const row of group) {
      const from = this.x(row[START]);
      const until = Math.max(from + 2, this.x(endOf(row)));
      if (before !== null && before < from - 1 && from > left && before < right) lane.soaks.push([Math.max(left, before), Math.min(from, right), group.isHeld]);
      before = this.x(endOf(row));
      if (until < left || from > right) continue;
      const shape = group.isHeld ? box("hold", from, y + 0.75, until - from, BAR - 1.5) : box("w", from, y, until - from, BAR);
      this.marks += this.link(row, group.isHeld, shape);
      lane.taken.push([from, until]);
    }
  }

  drawComb(lane, row, isHeld) {
    const y = lane.middle - BAR / 2;
    const [from, until] = [this.x(row[START]), this.x(endOf(row))];
    lane.taken.push([from, until]);
    const pitch = row[EVERY] * this.axis.scale;
    if (pitch < 5) {
      const frame = `M${number(from)} ${number(y)}v16M${number(until)} ${number(y)}v16M${number(from)} ${number(y + 15)}H${number(until)}`;
      this.marks += this.link(row, isHeld, isHeld ? box("hold", from, y + 0.75, Math.max(2, until - from), BAR - 1.5)
        : box("pick wash", from, y, Math.max(2, until - from), BAR) + path("wl", frame));
      return;
    }
    let teeth = "";
    for (const at of this.teeth(row)) {
      const width = number(Math.max(2, row[LENGTH] * this.axis.scale));
      teeth += `M${number(this.x(at))} ${number(y)}h${width}v16h-${width}z`;
    }
    const base = path(isHeld ? "ax held" : "soak base", `M${number(from)} ${number(y + 16)}H${number(until)}`);
    this.marks += this.link(row, isHeld, box("pick", from, y, Math.max(8, until - from), BAR) + path(isHeld ? "hold" : "w", teeth) + base);
  }

  /** The starts of a comb's passes that are in sight. */
  teeth(row) {
    const all = [];
    const [seenFrom, seenUntil] = [timeAt(this.axis, this.axis.left), timeAt(this.axis, this.axis.right)];
    const first = Math.max(0, Math.floor((seenFrom - row[START]) / row[EVERY]) - 1);
    const last = Math.min(row[TIMES] - 1, Math.ceil((seenUntil - row[START]) / row[EVERY]) + 1);
    for (let i = first; i <= last; i++) all.push(row[START] + i * row[EVERY]);
    return all;
  }

  /** Takes room for a label where nothing else is; whether there is any. */
  put(lane, x, words, kind) {
    const until = x + widthOf(words);
    if (x < this.axis.left || until > this.axis.right || lane.taken.some((taken) => x < taken[1] + 5 && until > taken[0] - 5)) return false;
    lane.taken.push([x, until]);
    lane.labels.push([x, words, kind]);
    return true;
  }

  labelComb(lane, row, isHeld, groups) {
    const { left, right } = this.axis;
    const pitch = row[EVERY] * this.axis.scale;
    if (pitch > 90) {
      if (this.sizes.isWide) this.labelTeeth(lane, row, pitch);
      return;
    }
    if (!this.sizes.isWide) return;
    const from = Math.max(left, this.x(row[START]));
    let room = right - from;
    for (const other of groups)
      if (other.isComb && other[0] !== row && this.x(other[0][START]) > from) room = Math.min(room, this.x(other[0][START]) - from - 8);
    for (const fold of this.axis.folds) if (fold.x > from) room = Math.min(room, fold.x - from);
    const repeats = `${isHeld ? `${cause(row)}, ` : ""}every ${length(row[EVERY])}`;
    const whole = `${clock(this.night, row[START], false)}–${clock(this.night, endOf(row) - row[LENGTH], false)}`;
    const forms = [`${whole}, ${repeats} for ${length(row[LENGTH])}, ${row[TIMES]} times`, `${repeats}, ${row[TIMES]} times`, `${row[TIMES]} times`];
    const fitting = forms.find((each) => widthOf(each) <= room);
    if (fitting !== undefined) this.words += text(from, lane.middle - 13, fitting, "halo");
  }

  labelTeeth(lane, row, pitch) {
    const width = Math.max(2, row[LENGTH] * this.axis.scale);
    for (const at of this.teeth(row)) {
      const x = this.x(at) + width + 5;
      const both = `${this.clock(at)}–${this.clock(at + row[LENGTH])}`;
      const words = widthOf(both) + width + 15 < pitch ? both : this.clock(at);
      if (this.x(at) < this.axis.left || x + widthOf(words) > this.axis.right || widthOf(words) + width + 10 > pitch) continue;
      lane.labels.push([x, words, "halo"]);
    }
  }

  labelBars(lane, group) {
    if (!group.isHeld && group.some((row) => row[LENGTH] * this.axis.scale > 140)) {
      group.forEach((row, index) => this.labelInside(lane, row, index, group.length));
      return;
    }
    const [first, last] = [group[0], group[group.length - 1]];
    const [from, until] = [this.x(first[START]), Math.max(this.x(endOf(last)), this.x(first[START]) + 2)];
    const [start, end] = [this.clock(first[START]), this.clock(endOf(last))];
    const kind = group.isHeld ? "halo s" : "halo";
    if (!group.isHeld && group.length === 1 && from >= this.axis.left && until <= this.axis.right && widthOf(start) + widthOf(end) + 26 < until - from) {
      this.labelWithin(lane, from, until, start, end, length(first[LENGTH]));
      return;
    }
    let after = until + 6;
    if (this.put(lane, from - 6 - widthOf(start), start, kind)) {
      if (this.put(lane, after, end, kind)) after += widthOf(end) + 8;
    } else if (this.put(lane, after, `${start}–${end}`, kind)) after += widthOf(`${start}–${end}`) + 8;
    else if (this.put(lane, after, end, kind)) after += widthOf(end) + 8;
    this.labelLength(lane, group, from, until, after);
  }

  labelLength(lane, group, from, until, after) {
    const words = group.isHeld ? `${cause(group[0])}, ${this.lengths(group)}` : this.lengths(group);
    if (group.length === 1) {
      const inside = group.isHeld ? cause(group[0]) : words;
      const isWhole = from >= this.axis.left && until <= this.axis.right;
      if (isWhole && widthOf(inside) + 8 < until - from) lane.labels.push([(from + until - widthOf(inside)) / 2, inside, group.isHeld ? "s" : "on"]);
      else if (group.isHeld) this.put(lane, after, inside, "halo s");
      return;
    }
    for (let i = 1; i < group.length; i++) {
      const gapFrom = Math.max(this.axis.left, this.x(endOf(group[i - 1])));
      const gapUntil = Math.min(this.axis.right, this.x(group[i][START]));
      if (widthOf(words) + 16 < gapUntil - gapFrom && this.put(lane, (gapFrom + gapUntil - widthOf(words)) / 2, words, "halo gap")) return;
    }
    this.put(lane, after, words, "halo s");
  }

  labelWithin(lane, from, until, start, end, middle) {
    lane.labels.push([from + 6, start, "on"], [until - 6 - widthOf(end), end, "on"]);
    if (widthOf(middle) + widthOf(start) + widthOf(end) + 50 < until - from) lane.labels.push([(from + until - widthOf(middle)) / 2, middle, "on"]);
  }

  /** Where a bar is wide it speaks for itself; what is cut off at an edge says so. */
  labelInside(lane, row, index, count) {
    const { left, right } = this.axis;
    const [from, until] = [Math.max(this.x(row[START]), left), Math.min(this.x(endOf(row)), right)];
    if (until - from < 8) return;
    const start = (this.x(row[START]) < left - 1 ? "since " : "") + this.clock(row[START]);
    const end = (this.x(endOf(row)) > right + 1 ? "to " : "") + this.clock(endOf(row));
    const middle = length(row[LENGTH]) + (count > 1 ? `, ${index + 1} of ${count}` : "");
    if (widthOf(start) + widthOf(end) + 26 < until - from) this.labelWithin(lane, from, until, start, end, middle);
    else if (this.x(row[START]) >= left - 1 && this.put(lane, from - 6 - widthOf(start), start, "halo")) this.put(lane, until + 6, end, "halo");
    else if (widthOf(end) + 12 < until - from) lane.labels.push([until - 6 - widthOf(end), end, "on"]);
  }

  drawSoaks(lane) {
    for (const [from, until, isHeld] of lane.soaks) {
      const label = lane.labels.find((each) => each[2] === "halo gap" && each[0] > from && each[0] < until);
      const line = (a, b) => `M${number(a)} ${number(lane.middle)}H${number(b)}`;
      const d = label ? line(from, label[0] - 5) + line(label[0] + widthOf(label[1]) + 5, until) : line(from, until);
      this.marks += path(isHeld ? "ax held" : "soak", d);
    }
  }

  /** Marks of findings over their seconds, the first of each with its words; none lies on another. */
  drawFindings(findings, y, stem) {
    const { left, right } = this.axis;
    const sorted = [...findings].sort((a, b) => a[2] - b[2] || a[0] - b[0]).slice(0, Math.floor(this.sizes.width / 24) - 1);
    const places = this.placesOf(sorted);
    let used = -1e9;
    sorted.forEach((each, index) => {
      const [severity, words] = this.data.findings[each[0] - 1];
      const at = this.x(each[2]);
      const x = places[index];
      const kind = ["advice", "warning", "error"][severity];
      this.words += path(`stem ${kind}`, `M${number(x)} ${number(y)}L${number(at)} ${number(stem)}`) + this.sign(kind, x, y, each[0]);
      const isLeftFree = x - 14 - Math.max(used, left);
      used = x + 12;
      if (this.named.has(each[0])) return;
      const next = index + 1 < sorted.length ? places[index + 1] - 14 : right;
      const room = next - x - 14;
      if (widthOf(words) <= room || isLeftFree < Math.max(room, widthOf(words))) {
        const short = cut(words, room);
        if (room < 40 || widthOf(short) > room) return;
        this.words += text(x + 14, y + 4, short, "halo");
        used = x + 14 + widthOf(short);
      } else this.words += text(x - 14 - widthOf(words), y + 4, words, "halo");
      this.named.add(each[0]);
    });
  }

  /** Where marks stand: each at its second, moved where it would lie on the one before, or out of the picture. */
  placesOf(findings) {
    const places = [];
    for (const each of findings) places.push(Math.max(this.x(each[2]), 11, (places.length > 0 ? places[places.length - 1] : -1e9) + 24));
    for (let i = places.length - 1; i >= 0; i--) places[i] = Math.min(places[i], i + 1 < places.length ? places[i + 1] - 24 : this.sizes.width - 11);
    return places;
  }

  sign(kind, x, y, count) {
    const shape = kind === "error" ? path(`sign ${kind}`, `M${number(x)} ${number(y - 11)}l10.5 18h-21z`)
      : kind === "warning" ? path(`sign ${kind}`, `M${number(x)} ${number(y - 10.5)}l10.5 10.5l-10.5 10.5l-10.5 -10.5z`)
        : path(`sign ${kind}`, `M${number(x - 8.5)} ${number(y)}a8.5 8.5 0 1 0 17 0a8.5 8.5 0 1 0 -17 0z`);
    return shape + text(x, y + 4, String(count), "count");
  }
}
