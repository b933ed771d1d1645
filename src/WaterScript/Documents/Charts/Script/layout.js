"use strict";
// The layout of a night, as Documents/Charts/Drawing has it: the same rule in both, and a test compares what they draw. What is
// changed here is changed there.

// How wide letters are, in thousandths of their size: Arial from U+0020 on, which Liberation Sans and Helvetica share.
const WIDTHS = [
  278, 278, 355, 556, 556, 889, 667, 191, 333, 333, 389, 584, 278, 333, 278, 278, 556, 556, 556, 556, 556, 556, 556, 556, 556, 556, 278, 278, 584, 584,
  584, 556, 1015, 667, 667, 722, 722, 667, 611, 778, 722, 278, 500, 667, 556, 833, 722, 778, 667, 778, 722, 667, 611, 722, 667, 944, 667, 667, 611, 278,
  278, 278, 469, 556, 333, 556, 556, 500, 556, 556, 278, 556, 556, 222, 222, 500, 222, 833, 556, 556, 556, 556, 333, 500, 278, 556, 500, 722, 500, 500,
  500, 334, 260, 334, 584,
];
const OTHER_WIDTHS = { "–": 556, "…": 1000, "×": 584, "·": 333, "−": 584, "½": 834, "\u00a0": 278, "²": 333 };
const widthOf = (text) => {
  let sum = 0;
  for (const letter of text) {
    const code = letter.codePointAt(0);
    sum += code >= 32 && code < 127 ? WIDTHS[code - 32] : OTHER_WIDTHS[letter] ?? (code < 0x370 ? 722 : 1000);
  }
  return (sum * 12) / 1000;
};
const number = (value) => {
  const rounded = Math.floor(value * 10 + 0.5) / 10;
  return rounded === 0 ? "0" : String(rounded);
};
const escaped = (text) => text.replace(/[&<>"]/g, (sign) => ({ "&": "&amp;", "<": "&lt;", ">": "&gt;", '"': "&quot;" })[sign]);
const two = (value) => (value < 10 ? "0" : "") + value;

/** A name cut in the middle where it is wider than its room. */
const cut = (text, room) => {
  if (widthOf(text) <= room) return text;
  const letters = [...text];
  let head = Math.ceil(letters.length / 2);
  let tail = letters.length - head;
  while (head + tail > 2) {
    if (tail >= head) tail--;
    else head--;
    const short = letters.slice(0, head).join("").trimEnd() + "…" + letters.slice(letters.length - tail).join("").trimStart();
    if (widthOf(short) <= room) return short;
  }
  return "…";
};
/** Names, each cut; those that come out alike give all but a letter of their room to the end. */
const cutAll = (names, room) => {
  const all = names.map((name) => cut(name, room));
  const seen = new Map();
  for (const short of all) seen.set(short, (seen.get(short) ?? 0) + 1);
  return all.map((short, index) => (seen.get(short) > 1 && short !== names[index] ? withTail(names[index], short, room) : short));
};
const withTail = (name, short, room) => {
  const letters = [...name];
  let best = short;
  for (let from = letters.length - 1; from > 0; from--) {
    const tried = letters[0] + "…" + letters.slice(from).join("");
    if (widthOf(tried) > room) break;
    best = tried;
  }
  return best;
};

// Times: seconds since the noon at which the night begins; what clocks show is `shift` seconds on.
const shiftAt = (night, at) => {
  let shift = 0;
  for (const [from, by] of night.shifts) if (at >= from) shift = by;
  return shift;
};
const clock = (night, at, withSeconds) => {
  const second = (((43200 + at + shiftAt(night, at)) % 86400) + 86400) % 86400;
  const text = two(Math.floor(second / 3600)) + ":" + two(Math.floor(second / 60) % 60);
  return second % 60 > 0 || withSeconds ? text + ":" + two(second % 60) : text;
};
const length = (seconds) => {
  const parts = [];
  if (seconds >= 3600) parts.push(Math.floor(seconds / 3600) + " h");
  if (Math.floor(seconds / 60) % 60 > 0) parts.push((Math.floor(seconds / 60) % 60) + " min");
  if (seconds % 60 > 0 || seconds === 0) parts.push((seconds % 60) + " s");
  return parts.join(" ");
};

const sizesOf = (width) => {
  const isWide = width >= 700;
  const left = isWide ? (width >= 1000 ? 172 : 150) : 0;
  const right = width >= 820 ? 168 : 0;
  return { width, isWide, left, right, fold: isWide ? 30 : 18, room: width - left - (right > 0 ? right + 4 : isWide ? 64 : 0) };
};

// Folding: what is shown of the hours from noon to noon.
const joinNear = (pieces) => {
  for (;;) {
    const kept = pieces.reduce((sum, piece) => sum + piece[1] - piece[0], 0);
    const allowed = Math.max(2700, kept * 0.12);
    let narrowest = -1;
    for (let i = 1; i < pieces.length; i++) {
      const gap = pieces[i][0] - pieces[i - 1][1];
      if (gap < allowed && (narrowest < 0 || gap < pieces[narrowest][0] - pieces[narrowest - 1][1])) narrowest = i;
    }
    if (narrowest < 0) return kept;
    pieces[narrowest - 1][1] = pieces[narrowest][1];
    pieces.splice(narrowest, 1);
  }
};
const joined = (pieces, gap) => {
  const all = [];
  for (const [from, until] of pieces) {
    const last = all[all.length - 1];
    if (last && from - last[1] < gap) last[1] = Math.max(last[1], until);
    else all.push([from, until]);
  }
  return all;
};
const fold = (spans, sizes, most) => {
  let pieces = joined([...spans].sort((a, b) => a[0] - b[0] || a[1] - b[1]), 2700);
  if (pieces.length === 0) return [];
  const kept = joinNear(pieces);
  const step = kept > 14400 ? 1800 : kept > 5400 ? 900 : 300;
  const pad = kept > 14400 ? 420 : 120;
  const events = pieces.map((piece) => [...piece]);
  pieces = joined(pieces.map(([from, until]) => [Math.floor((from - pad) / step) * step, Math.ceil((until + pad) / step) * step]), 1800);
  widen(pieces, events, sizes, step);
  pieces = joined(pieces.map(([from, until]) => [Math.max(0, from), Math.min(most, until)]), 2700);
  return pieces;
};
const pixelsPerSecond = (pieces, sizes) =>
  Math.max(1, sizes.room - sizes.fold * (pieces.length + 1)) / pieces.reduce((sum, piece) => sum + piece[1] - piece[0], 0);
/** Widens pieces until there is room for what stands in them; a few rounds, as each takes room from the others. */
const widen = (pieces, events, sizes, step) => {
  const [least, before, after] = sizes.isWide ? [108, 46, 50] : [34, 0, 0];
  for (let round = 0; round < 4; round++) {
    for (const piece of pieces) {
      const own = events.filter((event) => event[1] >= piece[0] && event[0] <= piece[1]);
      for (let i = 0; i < 12 && (piece[1] - piece[0]) * pixelsPerSecond(pieces, sizes) < least && piece[1] - piece[0] < 28800; i++) {
        piece[0] -= step;
        piece[1] += step;
      }
      if (own.length === 0) continue;
      for (let i = 0; i < 12 && piece[0] > 0 && (own[0][0] - piece[0]) * pixelsPerSecond(pieces, sizes) < before; i++) piece[0] -= step;
      for (let i = 0; i < 12 && piece[1] < 90000 && (piece[1] - own[own.length - 1][1]) * pixelsPerSecond(pieces, sizes) < after; i++) piece[1] += step;
    }
  }
};

/** One scale over all pieces; what is left out between them is a fold of one width. */
const axisOf = (pieces, sizes, most, zoom, pan) => {
  const gaps = pieces.map((piece, index) => piece[0] - (index > 0 ? pieces[index - 1][1] : 0));
  const rest = pieces.length > 0 ? most - pieces[pieces.length - 1][1] : 0;
  const count = gaps.filter((gap) => gap > 0).length + (rest > 0 ? 1 : 0);
  const kept = pieces.reduce((sum, piece) => sum + piece[1] - piece[0], 0);
  const scale = (Math.max(1, sizes.room - count * sizes.fold) / Math.max(1, kept)) * zoom;
  const folds = [];
  const shown = [];
  let x = sizes.left - pan;
  pieces.forEach(([from, until], index) => {
    if (gaps[index] > 0) {
      folds.push({ x, seconds: gaps[index] });
      x += sizes.fold;
    }
    shown.push({ from, until, x, width: (until - from) * scale });
    x += (until - from) * scale;
  });
  if (rest > 0) {
    folds.push({ x, seconds: rest });
    x += sizes.fold;
  }
  return { shown, folds, scale, fold: sizes.fold, left: sizes.left, right: sizes.left + sizes.room, full: x - sizes.left + pan, pan };
};
const xOf = (axis, at) => {
  let x = axis.left;
  for (const piece of axis.shown) {
    if (at < piece.from) return piece.x - (axis.folds.some((each) => each.x === piece.x - axis.fold) ? axis.fold / 2 : 0);
    x = piece.x + piece.width;
    if (at <= piece.until) return piece.x + (at - piece.from) * axis.scale;
  }
  return x + axis.fold / 2;
};
const timeAt = (axis, x) => {
  let at = 0;
  for (const piece of axis.shown) {
    if (x < piece.x) return piece.from;
    at = piece.until;
    if (x <= piece.x + piece.width) return piece.from + (x - piece.x) / axis.scale;
  }
  return at;
};
/** The visible pieces of stretches of time, in pixels. */
const piecesOf = (axis, bands) => {
  const all = [];
  for (const piece of axis.shown) {
    for (const [from, until] of bands) {
      const [a, b] = [Math.max(from, piece.from), Math.min(until, piece.until)];
      const [left, right] = [Math.max(axis.left, xOf(axis, a)), Math.min(axis.right, xOf(axis, b))];
      if (b > a && right - left >= 0.5) all.push([left, right]);
    }
  }
  return all;
};
const isShown = (axis, at) => axis.shown.some((piece) => at >= piece.from && at <= piece.until);

const TICKS = [1, 2, 5, 10, 15, 30, 60, 120, 300, 600, 900, 1800, 3600, 7200, 10800, 14400, 21600];
const ticksOf = (night, axis, isFine) => {
  const step = TICKS.find((each) => each * axis.scale >= (isFine ? 72 : 58)) ?? 21600;
  const ticks = [];
  for (const piece of axis.shown) {
    const from = Math.max(piece.from, Math.floor(timeAt(axis, axis.left)) - step);
    const until = Math.min(piece.until, Math.ceil(timeAt(axis, axis.right)) + step);
    for (let at = from; at <= until; at++) {
      const off = (((43200 + at + shiftAt(night, at)) % step) + step) % step;
      if (off === 0) ticks.push(at);
      else {
        const next = at + step - off;
        // The clock may change before the next one: then it is looked for from there.
        const change = night.shifts.find(([when]) => when > at && when <= next);
        at = (change ? change[0] : next) - 1;
      }
    }
  }
  return ticks;
};
