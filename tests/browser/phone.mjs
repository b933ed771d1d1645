// Opens pages of a year as a phone does, and prints what takes longer than a second, a line each; nothing when all is well. FIGURES=1 prints every time.
// phone.mjs PAGE…: 360 px wide, with touch, on a processor five times slower than this one. Each is opened a few times, as others may use the machine.
import { pathToFileURL } from "node:url";
import puppeteer from "puppeteer-core";

const SLOWER = 5;
const TRIES = 4;
const MOST = 1000;
const browser = await puppeteer.launch({
  executablePath: process.env.CHROMIUM ?? "/usr/bin/chromium",
  args: ["--no-sandbox", "--disable-gpu"],
});

const timesOf = async (file) => {
  const page = await browser.newPage();
  await page.setViewport({ width: 360, height: 740, isMobile: true, hasTouch: true });
  await page.emulateCPUThrottling(SLOWER);
  await page.goto(pathToFileURL(file).href, { waitUntil: "load" });
  const { painted, ready } = await page.evaluate(() => new Promise((resolve) => {
    const ready = performance.now();
    new PerformanceObserver((list) => resolve({ painted: list.getEntriesByName("first-contentful-paint")[0].startTime, ready }))
      .observe({ type: "paint", buffered: true });
  }));
  // The day with the most runs.
  const place = await page.evaluate(() => {
    const { days, picture } = JSON.parse(document.getElementById("year-data").textContent);
    const runs = days.map((day) => day[3].reduce((sum, id) => sum + picture.nights[id].rows.length + picture.nights[id].held.length, 0));
    const day = runs.indexOf(Math.max(...runs));
    const svg = [...document.querySelectorAll("svg[data-grid]")].find((each) => each.getBoundingClientRect().width > 0);
    const [left, top, pitch, row, first, isWide] = svg.dataset.grid.split(" ").map(Number);
    const [week, weekday] = [Math.floor((first + day) / 7), (first + day) % 7];
    const [across, down] = isWide ? [week, weekday] : [weekday, week];
    const frame = svg.getBoundingClientRect();
    const scale = frame.width / svg.viewBox.baseVal.width;
    scrollTo(0, frame.top + (top + down * row) * scale - 300);
    const { left: x, top: y } = svg.getBoundingClientRect();
    // What is drawn is painted in the frame after the next.
    globalThis.opened = new Promise((resolve) => addEventListener("click", (event) => {
      const drawn = () => (document.querySelector("#opened .run") ? resolve(performance.now() - event.timeStamp) : requestAnimationFrame(drawn));
      requestAnimationFrame(() => requestAnimationFrame(drawn));
    }, { once: true, capture: true }));
    return [x + (left + (across + 0.5) * pitch) * scale, y + (top + (down + 0.5) * row) * scale];
  });
  await page.touchscreen.tap(...place);
  const opened = await page.evaluate(() => Promise.race([globalThis.opened, new Promise((resolve) => setTimeout(() => resolve(Infinity), 8000))]));
  await page.close();
  return { "first paint": painted, usable: ready, "a tap opens a day": opened };
};

try {
  for (const file of process.argv.slice(2)) {
    const tries = [];
    for (let i = 0; i < TRIES; i++) tries.push(await timesOf(file));
    for (const what of Object.keys(tries[0])) {
      const best = Math.min(...tries.map((times) => times[what]));
      if (best > MOST || process.env.FIGURES) console.log(`${file}: ${what}: ${Math.round(best)} ms`);
    }
  }
} finally {
  await browser.close();
}
