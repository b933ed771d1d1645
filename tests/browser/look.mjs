// Opens pages in headless Chromium and prints what is wrong with them, a line each; nothing when all is well.
// look.mjs PAGE…, or --version.
import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { pathToFileURL } from "node:url";
import puppeteer from "puppeteer-core";

const browser = await puppeteer.launch({
  executablePath: process.env.CHROMIUM ?? "/usr/bin/chromium",
  args: ["--no-sandbox", "--disable-gpu"],
});
const axe = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");
const looks = [
  { width: 1600, scheme: "light", isStepped: true },
  { width: 1100, scheme: "light", hasAxe: true, isPrinted: true },
  { width: 360, scheme: "light", hasAxe: true },
  { width: 1100, scheme: "dark", hasAxe: true },
];

const open = async (page, file, complain) => {
  page.on("console", (message) => ["error", "warn"].includes(message.type()) && complain(`console: ${message.text()}`));
  page.on("pageerror", (problem) => complain(`script: ${problem}`));
  page.on("request", (request) => /^(file|data):/.test(request.url()) || complain(`asks for ${request.url()}`));
  await page.goto(pathToFileURL(file).href);
  const isReady = await page.evaluate(() => "ready" in document.documentElement.dataset || document.querySelector("main.still") !== null);
  if (!isReady) complain("the script has not run to its end");
};

// Words lie neither on one another nor on bars, and none sticks out of its drawing.
const checkGeometry = async (page, when, complain) => {
  const problems = await page.evaluate(() => {
    const found = [];
    const root = document.documentElement;
    if (root.scrollWidth > root.clientWidth) found.push(`${root.scrollWidth} px wide in ${root.clientWidth}`);
    const meet = (a, b, x, y) => a.left + x < b.right && b.left + x < a.right && a.top + y < b.bottom && b.top + y < a.bottom;
    const isSeen = (svg) => svg.getBoundingClientRect().width > 0;
    for (const svg of [...document.querySelectorAll(".night svg, .drawing svg")].filter(isSeen)) {
      const frame = svg.getBoundingClientRect();
      const scale = frame.width / svg.viewBox.baseVal.width;
      const texts = [...svg.querySelectorAll("text")].map((text) => [text.firstElementChild ? text.lastChild.textContent : text.textContent,
        text.getBoundingClientRect(), text.classList]).filter(([words]) => words !== "");
      const clip = svg.querySelector("clipPath rect");
      const [least, most] = clip ? [clip.x.baseVal.value, clip.x.baseVal.value + clip.width.baseVal.value].map((x) => frame.left + x * scale) : [0, 1e9];
      const bars = [...svg.querySelectorAll(".run rect.w, .run rect.hold")].map((bar) => bar.getBoundingClientRect())
        .map(({ left, right, top, bottom }) => ({ left: Math.max(left, least), right: Math.min(right, most), top, bottom }))
        .filter(({ left, right }) => right > left);
      for (const [i, [a, box, kinds]] of texts.entries()) {
        if (box.left < frame.left - 1.5 || box.right > frame.right + 1.5 || box.top < frame.top - 4 || box.bottom > frame.bottom + 4)
          found.push(`"${a}" sticks out`);
        for (const [b, other] of texts.slice(i + 1)) if (meet(box, other, 0.5 * scale, 3 * scale)) found.push(`"${a}" lies on "${b}"`);
        if (!kinds.contains("on") && !kinds.contains("count") && !kinds.contains("s"))
          for (const bar of bars) if (meet(box, bar, 0.5, 4)) found.push(`"${a}" lies on a bar`);
      }
    }
    return found;
  });
  problems.forEach((problem) => complain(`${when}: ${problem}`));
};

// Every run of the table is drawn, with its times and its line.
const checkRuns = async (page, complain) => {
  const problems = await page.evaluate(() => {
    const found = [];
    const runs = [...document.querySelectorAll("#picture .run")];
    for (const run of runs) {
      if (!/\d\d:\d\d.* to \d\d:\d\d/.test(run.getAttribute("aria-label"))) found.push(`run ${run.dataset.run} has no times`);
      if (!(Number(run.dataset.line) > 0)) found.push(`run ${run.dataset.run} has no line`);
      if (!document.getElementById("row-" + run.dataset.run)) found.push(`run ${run.dataset.run} is not in the table`);
      if (run.getBoundingClientRect().width <= 0) found.push(`run ${run.dataset.run} is not to be seen`);
    }
    const rows = document.querySelectorAll("tr[id^=row-]").length;
    if (runs.length !== rows) found.push(`${runs.length} runs are drawn, ${rows} are in the table`);
    for (const finding of document.querySelectorAll(".findings li"))
      if (![...document.querySelectorAll("#picture .count")].some((count) => finding.textContent.includes(` ${count.textContent}: `)))
        found.push(`not marked: ${finding.textContent}`);
    return found;
  });
  problems.forEach(complain);
};

const chosen = (page) => page.evaluate(() => [document.querySelector(".run.chosen")?.dataset.run ?? "", document.querySelector(".say").textContent]);

// Keys reach every run; zooming leads to seconds and back, and at each zoom words have room.
const checkSteps = async (page, complain) => {
  const count = await page.$$eval("#picture .run", (runs) => runs.length);
  await page.focus("#picture");
  const reached = new Set();
  await page.keyboard.press("Home");
  for (let i = 0; i < Math.min(count, 400); i++) {
    const [run, words] = await chosen(page);
    reached.add(run);
    if (i === 0 && !/\d\d:\d\d/.test(words)) complain(`the first run is said as "${words}"`);
    await page.keyboard.press("ArrowRight");
  }
  if (count <= 400 && count > 0 && reached.size !== count) complain(`keys reach ${reached.size} of ${count} runs`);
  if (count === 0) return;
  await page.keyboard.press("]");
  await page.keyboard.press("[");
  for (const zoom of ["a little", "some", "much"]) {
    for (let i = 0; i < 4; i++) await page.keyboard.press("+");
    if ((await chosen(page))[0] === "") complain(`zoomed ${zoom}, the chosen run is out of sight`);
    await checkGeometry(page, `zoomed ${zoom}`, complain);
  }
  await page.keyboard.press("0");
  if ((await page.$$eval("#picture .run", (runs) => runs.length)) !== count) complain("0 does not show all again");
  if ((await page.$$("[id^=L]")).length > 0) {
    await page.keyboard.press("Enter");
    if (!(await page.$eval(".file", (file) => file.open))) complain("Enter does not open the file");
  }
};

// In a year keys go by weeks and days, each day is said, and a day opens its nights.
const checkYear = async (page, complain) => {
  const said = () => page.$eval(".say", (say) => say.textContent);
  await page.focus("#year");
  await page.keyboard.press("Home");
  const first = await said();
  if (!/^\w{3} \d+ \w{3} \d{4} /.test(first)) complain(`the first day is said as "${first}"`);
  await page.keyboard.press("ArrowRight");
  const next = await said();
  for (let i = 0; i < 7; i++) await page.keyboard.press("ArrowUp");
  if (next === first || (await said()) !== first) complain("seven days back are not a week");
  await page.keyboard.press("s");
  if (!(await page.$eval("#year", (year) => year.classList.contains("common")))) complain("s does not put zones on one scale");
  const days = await page.evaluate(() => JSON.parse(document.getElementById("year-data").textContent).days);
  const { nights } = await page.evaluate(() => JSON.parse(document.getElementById("year-data").textContent).picture);
  const some = (test) => days.findIndex((day) => day[3].some((id) => test(nights[id])));
  const opened = new Set([some((night) => night.rows.length > 0), some((night) => night.held.length > 0), some((night) => night.findings.length > 0),
    some((night) => night.forbidden.length > 0), days.findIndex((day) => day[3].length > 1)]);
  for (const day of [...opened].filter((each) => each >= 0)) {
    await page.focus("#year");
    await page.keyboard.press("Home");
    for (let i = 0; i < day; i++) await page.keyboard.press("ArrowDown");
    await page.keyboard.press("Enter");
    await checkOpened(page, days[day][3].map((id) => nights[id]), `${days[day][0]}`, complain);
  }
};

// What is opened shows all of its nights: runs and what is held, each finding with its mark and its line, and every curve when it is asked for.
const checkOpened = async (page, nights, when, complain) => {
  const count = (selector) => page.$$eval(selector, (all) => all.length);
  const sum = (list) => nights.reduce((total, night) => total + night[list].length, 0);
  if ((await count("#opened .run")) !== sum("rows") + sum("held")) complain(`${when}: not every run is drawn`);
  if ((await count('#opened .run[aria-label*="not watered"]')) !== sum("held")) complain(`${when}: not all that is held is drawn`);
  const numbers = new Set(nights.flatMap((night) => night.findings.map(([number]) => number)));
  const [items, marks] = [await count("#opened .findings li"), await page.$$eval("#opened .night .count", (all) => [...new Set(all.map((each) => each.textContent))])];
  if (items !== numbers.size) complain(`${when}: ${items} of ${numbers.size} findings are listed`);
  if (marks.some((mark) => Number(mark) < 1 || Number(mark) > items) || (items > 0 && marks.length === 0)) complain(`${when}: findings are marked ${marks}`);
  if ((await count("#opened .findings a.line")) !== items) complain(`${when}: a finding has no line`);
  if (nights.length > 1) {
    await page.$eval('#opened [data-do="panels"]', (button) => button.click());
    await checkLegend(page, `${when}, with panels`, complain);
  }
  if ((await count("#opened .night .wl")) < sum("panels")) complain(`${when}: a curve is missing`);
  await checkGeometry(page, when, complain);
  await checkLegend(page, when, complain);
  await page.focus("#opened .picture");
  for (let i = 0; i < 6; i++) await page.keyboard.press("+");
  await checkGeometry(page, `${when}, zoomed`, complain);
};

// The legend has the marks that are drawn, and no others.
const checkLegend = async (page, when, complain) => {
  const wrong = await page.$$eval(".legend [data-mark]", (all) => {
    const drawn = [...document.querySelectorAll("#picture .night, #opened .night")].map((night) => night.innerHTML).join("");
    return all.filter((entry) => drawn.includes(entry.dataset.mark) === entry.hidden).map((entry) => entry.textContent);
  });
  wrong.forEach((words) => complain(`${when}, the legend is wrong on "${words}"`));
};

// Of several nights devices and curves are shown when they are asked for, and the hours stay in sight.
const checkPanels = async (page, complain) => {
  if (!(await page.$('[data-do="panels"]'))) return;
  const height = () => page.$$eval(".night svg", (all) => all.reduce((sum, svg) => sum + svg.getBoundingClientRect().height, 0));
  const before = await height();
  await page.focus("#picture");
  await page.keyboard.press("p");
  if (!((await height()) > before)) complain("p shows no panels");
  await checkLegend(page, "with panels", complain);
  await checkGeometry(page, "with panels", complain);
  await page.keyboard.press("p");
  if ((await height()) !== before) complain("p does not hide them again");
  await page.evaluate(() => scrollTo(0, document.querySelector(".night").getBoundingClientRect().top + scrollY + 60));
  await new Promise((resolve) => setTimeout(resolve, 100));
  // A page that is not much higher than its screen cannot be scrolled so far.
  const isAbove = await page.$eval("#picture .night svg", (svg) => svg.getBoundingClientRect().top < 0);
  if ((await page.$eval(".hours", (hours) => !hours.hidden && hours.querySelectorAll("text").length > 0)) !== isAbove) complain("the hours are out of sight");
  await page.evaluate(() => scrollTo(0, 0));
};

// Every week that changes can be chosen, by the list, the buttons and a day of the year; each has room.
const checkChange = async (page, complain) => {
  const said = () => page.$eval(".say", (say) => say.textContent);
  const data = await page.evaluate(() => JSON.parse(document.getElementById("change-data").textContent));
  const title = () => page.$eval("#week h2, #week p b", (first) => first.firstChild.textContent);
  if ((await title()) !== data.weeks[0][1][0][0]) complain("the first week is not shown");
  for (let week = 1; week < data.weeks.length; week++) {
    await page.$eval('[data-do="later-week"]', (button) => button.click());
    if ((await title()) !== data.weeks[week][1][0][0]) complain(`week ${week} is not shown`);
    if (week < 6) await checkGeometry(page, `week ${week}`, complain);
  }
  const hours = () => page.$$eval("#week .night svg", (all) =>
    all.map((svg) => [...svg.querySelectorAll("text")].filter((text) => text.getAttribute("y") === "12" && /^\d\d:\d\d$/.test(text.textContent)).length));
  const [first, ...others] = await hours();
  if (!(first > 0) || others.some((count) => count > 0)) complain(`hours stand over nights ${[first, ...others]}`);
  if (data.hasSun && (await page.$$eval("#week .night svg", (all) => all.some((svg) => !svg.querySelector(".dark"))))) complain("a night has no strip of day");
  await page.evaluate(() => scrollTo(0, document.querySelector("#week .night").getBoundingClientRect().top + scrollY + 60));
  await new Promise((resolve) => setTimeout(resolve, 100));
  const isAbove = await page.$eval("#week .night svg", (svg) => svg.getBoundingClientRect().top < 0);
  const isStuck = await page.$eval("#week .hours", (each) => !each.hidden && each.getBoundingClientRect().top === 0 && each.querySelectorAll("text").length > 0);
  if (isStuck !== isAbove) complain("the hours are out of sight");
  await page.evaluate(() => scrollTo(0, 0));
  const index = data.days.findIndex((day) => day[3].length > 0);
  if (index < 0) return;
  await page.focus("#difference");
  await page.keyboard.press("Home");
  for (let i = 0; i < index; i++) await page.keyboard.press("ArrowDown");
  if (!(await said()).startsWith(data.days[index][0])) complain(`the day is said as "${await said()}"`);
  await page.keyboard.press("Enter");
  if ((await title()) !== data.weeks[data.days[index][3][0]][1][0][0]) complain("Enter does not show the week of a day");
};

// On paper there are no buttons, the paper is white whatever the screen is, and nothing sticks out of an A4 sheet across.
const checkPrint = async (page, complain) => {
  const { width, height } = page.viewport();
  await page.emulateMediaType("print");
  await page.setViewport({ width: 1047, height: 718 });
  const found = await page.evaluate(() => {
    dispatchEvent(new Event("beforeprint"));
    return [
      getComputedStyle(document.body).backgroundColor === "rgb(255, 255, 255)" ? "" : "dark paper",
      [...document.querySelectorAll(".tools, .foot")].every((each) => getComputedStyle(each).display === "none") ? "" : "buttons",
      ...[...document.querySelectorAll(".night > .sheet, .drawing > .sheet")].map((sheet) => sheet.getBoundingClientRect())
        .map((box) => (box.right <= 1048 ? "" : `a drawing that ends at ${box.right} px`)),
    ];
  });
  found.filter((text) => text !== "").forEach((text) => complain(`in print: ${text}`));
  await checkGeometry(page, "in print", complain);
  await page.evaluate(() => dispatchEvent(new Event("afterprint")));
  await page.emulateMediaType(undefined);
  await page.setViewport({ width, height });
};

const checkAxe = async (page, complain) => {
  await page.$$eval("details", (all) => all.forEach((details) => (details.open = true)));
  await page.evaluate(axe);
  const { passes, violations } = await page.evaluate(() => globalThis.axe.run());
  const buttons = (await page.$("button")) ? ["button-name"] : [];
  for (const rule of ["color-contrast", "document-title", ...buttons])
    if (![...passes, ...violations].some((result) => result.id === rule)) complain(`axe has not looked at ${rule}`);
  violations.forEach((violation) => complain(`axe ${violation.id}: ${violation.help}: ${violation.nodes[0].html.slice(0, 120)}`));
};

const keep = async (page, name) => {
  await page.screenshot({ path: `${name}.png` });
  await page.screenshot({ path: `${name}.whole.png`, fullPage: true });
  await page.pdf({ path: `${name}.pdf`, preferCSSPageSize: true });
};

try {
  if (process.argv[2] === "--version") console.log(await browser.version());
  else
    for (const file of process.argv.slice(2))
      for (const { width, scheme, isStepped, isPrinted, hasAxe } of looks) {
        const page = await browser.newPage();
        const complain = (text) => console.log(`${file} ${width} px ${scheme}: ${text}`);
        await page.setViewport({ width, height: 900 });
        await page.emulateMediaFeatures([{ name: "prefers-color-scheme", value: scheme }]);
        await open(page, file, complain);
        await checkGeometry(page, "whole", complain);
        if (await page.$("#year")) await checkYear(page, complain);
        if (await page.$("#change-data")) await checkChange(page, complain);
        if (await page.$("#picture")) {
          await checkRuns(page, complain);
          await checkLegend(page, "whole", complain);
          if (isStepped) await checkSteps(page, complain);
          if (!hasAxe || width < 700) await checkPanels(page, complain);
        }
        if (process.env.PICTURES) await keep(page, `${process.env.PICTURES}/${file.split("/").pop()}.${width}.${scheme}`);
        if (isPrinted) await checkPrint(page, complain);
        if (hasAxe) await checkAxe(page, complain);
        await page.close();
      }
} finally {
  await browser.close();
}
