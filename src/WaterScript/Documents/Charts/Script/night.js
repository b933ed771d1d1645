// A night as a whole.
class NightDrawing extends NightLabels {
  draw() {
    const { sizes, options, night } = this;
    this.findings = night.findings.filter((each) => this.isSeen(each[2], each[2]));
    this.zones = [...new Set([...night.rows, ...night.held].map((row) => row[ZONE]))].sort((a, b) => this.data.order[a] - this.data.order[b]);
    this.ticks = ticksOf(night, this.axis, this.isFine);
    let y = options.hasHours ? 30 : 8;
    this.skyY = y - 8;
    if (options.hasHours) this.drawHours();
    y = this.drawForbiddenWords(y);
    y = this.drawLooseFindings(y);
    this.lanesY = y;
    this.lanes = [];
    this.byZone = [this.night.rows, this.night.held, this.findings].map((list, index) => grouped(list, index < 2 ? ZONE : 1));
    for (const zone of this.zones) {
      const lane = this.laneOf(zone, y);
      this.lanes.push(lane);
      y += lane.height;
    }
    this.drawNames();
    for (const lane of this.lanes) this.drawLane(lane);
    const threads = this.threads();
    y = this.drawDevices(y);
    y = this.drawPanels(y);
    this.drawSky();
    this.drawForbidden();
    this.drawGrid(y);
    const folds = this.folds(y);
    y = this.drawFoot(y);
    const height = Math.ceil(y);
    const { left, right } = this.axis;
    const frame = `<rect x="${number(left)}" y="-2" width="${number(right - left)}" height="${number(height + 4)}"/>`;
    const clip = `<clipPath id="night-${night.id}">${frame}</clipPath>`;
    return {
      height,
      svg: `<svg class="sheet" width="${number(sizes.width)}" height="${number(height)}" viewBox="0 0 ${number(sizes.width)} ${number(height)}" role="group" ` +
        `aria-label="${escaped(night.title)}">${clip}${this.ground}<g clip-path="url(#night-${night.id})">${folds}${threads}${this.marks}</g>` +
        `${this.lines}${this.top}${this.words}${this.foot}</svg>`,
    };
  }

  drawHours() {
    let last = -99;
    for (const at of this.ticks) {
      const x = this.x(at);
      if (x < this.axis.left - 1 || x > this.axis.right + 1) continue;
      const words = clock(this.night, at, this.isFine && this.axis.scale > 2);
      const half = widthOf(words) / 2;
      const middle = Math.max(half, Math.min(this.sizes.width - half, x));
      if (middle - half < last + 6) continue;
      this.top += text(middle - half, 12, words, "s");
      last = middle + half;
    }
    if (this.sizes.right > 0) this.top += text(this.sizes.width - 82, 12, "time", "s e") + text(this.sizes.width, 12, "water", "s e");
  }

  /** What is forbidden, named once over its widest piece, with a line over all of them. */
  drawForbiddenWords(y) {
    const shown = this.night.forbidden.filter((each) => this.pieces(each[2]).length > 0);
    if (shown.length === 0 || !this.options.hasHours) return y;
    let used = -99;
    for (const [words, , bands] of shown) {
      const pieces = this.pieces(bands);
      for (const [from, until] of pieces) this.top += path("ax", `M${number(from)} ${number(y + 19)}H${number(until)}`);
      const widest = pieces.reduce((best, piece) => (piece[1] - piece[0] > best[1] - best[0] ? piece : best));
      const room = this.axis.right - Math.max(used + 8, this.axis.left);
      const fitting = [`no water allowed: ${words}`, "no water allowed"].find((each) => widthOf(each) <= room);
      if (fitting === undefined) continue;
      const x = Math.max(used + 8, this.axis.left, Math.min(widest[0], this.axis.right - widthOf(fitting)));
      this.top += text(x, y + 14, fitting, "s");
      used = x + widthOf(fitting);
    }
    return y + 22;
  }

  /** Findings that are about no zone stand in a line of their own over the lanes. */
  drawLooseFindings(y) {
    const loose = this.findings.filter((each) => each[1] < 0);
    if (loose.length === 0) return y;
    this.drawFindings(loose, y + 14, y + 25);
    return y + 30;
  }

  laneOf(zone, y) {
    const [rows, held, findings] = this.byZone.map((lists) => lists.get(zone) ?? []);
    const hasComb = this.sizes.isWide && [...rows, ...held].some((row) => isComb(row) && row[EVERY] * this.axis.scale <= 90);
    const height = (this.sizes.isWide ? 30 : 44) + (hasComb ? 16 : 0) + (findings.length > 0 ? 22 : 0);
    return { zone, y, height, rows, held, findings, hasComb, middle: y + height - (this.sizes.isWide ? 15 : 14), taken: [], labels: [], soaks: [] };
  }

  drawNames() {
    const { sizes } = this;
    const rights = this.lanes.map((lane) => (sizes.isWide ? "" : cut(this.summary(lane), sizes.width * 0.66)));
    const names = this.zones.map((zone) => this.data.zones[zone]);
    const most = Math.max(0, ...rights.map(widthOf));
    const short = cutAll(names, sizes.isWide ? sizes.left - 14 : sizes.width - most - 12);
    this.lanes.forEach((lane, index) => {
      const figures = this.night.figures[lane.zone];
      if (sizes.isWide) {
        const y = lane.middle + 4 - (lane.hasComb && lane.findings.length === 0 ? 8 : 0);
        this.lines += `<text x="0" y="${number(y)}"><title>${escaped(names[index])}</title>${escaped(short[index])}</text>`;
        if (sizes.right > 0) this.lines += text(sizes.width - 82, y, figures[0], "e") + text(sizes.width, y, figures[1], "e");
      } else {
        this.lines += text(0, lane.y + 13, short[index], "halo") + text(sizes.width, lane.y + 13, rights[index], "s e halo");
      }
      this.bands.push([lane.middle - 10, lane.middle + 11]);
    });
  }

  /** A lane in words, where it is narrow: <c>21:30–00:48, 2 × 22 min</c>. */
  summary(lane) {
    const all = [...lane.rows, ...lane.held];
    const combs = lane.rows.filter(isComb);
    if (combs.length === all.length && combs.every((row) => row[EVERY] === combs[0][EVERY]))
      return `every ${length(combs[0][EVERY])}, ${combs.reduce((sum, row) => sum + row[TIMES], 0)} times`;
    const from = Math.min(...all.map((row) => row[START]));
    const until = Math.max(...all.map(endOf));
    const times = `${clock(this.night, from, false).slice(0, 5)}–${clock(this.night, until, false).slice(0, 5)}`;
    if (lane.rows.length === 0) return `${times}, ${cause(lane.held[0])}`;
    const groups = this.groupsOf(lane);
    if (groups.length > 1) return `${times}, ${groups.length} passes`;
    return `${times}, ${this.lengths(groups[0])}`;
  }

  drawLane(lane) {
    const groups = this.groupsOf(lane).filter((group) => this.isSeen(group[0][START], Math.max(...group.map(endOf))));
    for (const group of groups) {
      if (group.isComb) this.drawComb(lane, group[0], group.isHeld);
      else this.drawBars(lane, group);
    }
    for (const fold of this.axis.folds)
      if (fold.x > this.axis.left + 1 && fold.x + this.axis.fold < this.axis.right - 1) lane.taken.push([fold.x + 6, fold.x + this.axis.fold - 6]);
    if (lane.findings.length > 0) this.drawFindings(lane.findings, lane.middle - (lane.hasComb ? 36 : 20), lane.middle - 8);
    for (const group of groups) {
      if (group.isComb) this.labelComb(lane, group[0], group.isHeld, groups);
      else if (this.sizes.isWide) this.labelBars(lane, group);
    }
    this.drawSoaks(lane);
    for (const [x, words, kind] of lane.labels) this.words += text(x, lane.middle + 4, words, kind);
  }
}
