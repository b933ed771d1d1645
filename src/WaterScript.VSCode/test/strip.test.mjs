import assert from 'node:assert/strict';
import test from 'node:test';
import { load } from './load.mjs';

const { stripSvg } = await load('stripPicture.ts');

const look = { width: 60, height: 12, isPale: false, colours: 'light' };
const night = { from: 0, until: 3600 };
const bars = svg => [...svg.matchAll(/<rect x="([\d.]+)" y="[\d.]+" width="([\d.]+)"/g)].map(bar => [Number(bar[1]), Number(bar[2])]);

test('a run stands where it is in the night', () =>
  assert.deepEqual(bars(stripSvg({ runs: [[900, 1800], [2700, 3600]], isComb: false }, night, look)), [[15, 15], [45, 15]]));

test('a short run can be seen, also at the end of the night', () =>
  assert.deepEqual(bars(stripSvg({ runs: [[0, 1], [3599, 3600]], isComb: false }, night, look)), [[0, 2], [58, 2]]));

test('what begins before the night or ends after it is cut', () =>
  assert.deepEqual(bars(stripSvg({ runs: [[-600, 600], [3000, 9000]], isComb: false }, night, look)), [[0, 10], [50, 10]]));

test('a night of no length divides by nothing', () =>
  assert.doesNotMatch(stripSvg({ runs: [[5, 5]], isComb: false }, { from: 5, until: 5 }, look), /NaN|Infinity/));

test('high contrast draws outlines, and a file with errors is pale', () => {
  assert.match(stripSvg({ runs: [[0, 60]], isComb: false }, night, { ...look, colours: 'contrast-dark' }), /fill="none" stroke="#ffffff"/);
  assert.match(stripSvg({ runs: [], isComb: false }, night, { ...look, isPale: true }), /opacity="\.4"/);
});
