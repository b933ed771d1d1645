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
const sizes = [
  { width: 1400, height: 900 },
  { width: 360, height: 740 },
];

const check = async (page, file, complain) => {
  page.on("console", (message) => ["error", "warn"].includes(message.type()) && complain(`console: ${message.text()}`));
  page.on("pageerror", (problem) => complain(`script: ${problem}`));
  page.on("request", (request) => /^(file|data):/.test(request.url()) || complain(`asks for ${request.url()}`));
  await page.goto(pathToFileURL(file).href);
  const problems = await page.evaluate(() => {
    const found = [];
    if (document.documentElement.dataset.ready === undefined) found.push("the script has not run to its end");
    const root = document.documentElement;
    if (root.scrollWidth > root.clientWidth) found.push(`${root.scrollWidth} px wide in ${root.clientWidth}`);
    for (const scroll of document.querySelectorAll(".scroll")) {
      const edge = scroll.querySelector(".names rect").getBoundingClientRect().right;
      for (const hour of scroll.querySelectorAll(".hour:not([visibility=hidden])"))
        if (hour.getBoundingClientRect().left < edge - 0.5) found.push(`the hour ${hour.textContent} is covered`);
    }
    const runs = [...document.querySelectorAll(".run[data-run]")];
    for (const run of runs) {
      if (!/\d\d:\d\d.*–\d\d:\d\d/.test(run.querySelector("title")?.textContent ?? "")) found.push(`run ${run.dataset.run} has no times`);
      if (!document.getElementById("row-" + run.dataset.run)) found.push(`run ${run.dataset.run} is not in the table`);
      if (run.querySelector("rect").getBoundingClientRect().width <= 0) found.push(`run ${run.dataset.run} is not to be seen`);
    }
    if (runs.length !== document.querySelectorAll("tbody tr").length) found.push("table and drawing differ");
    for (const sheet of document.querySelectorAll(".scroll")) {
      const texts = [...sheet.querySelectorAll("svg > text")].map((text) => [text.textContent, text.getBBox()]);
      for (const [i, [a, box]] of texts.entries())
        for (const [b, other] of texts.slice(i + 1))
          if (box.x + 0.5 < other.x + other.width && other.x + 0.5 < box.x + box.width && box.y + 3 < other.y + other.height && other.y + 3 < box.y + box.height)
            found.push(`"${a}" lies on "${b}"`);
    }
    return found;
  });
  problems.forEach(complain);
};

const at = (page) => page.evaluate(() => [document.activeElement.dataset?.run ?? "", document.querySelector("output").textContent]);

const countRuns = (page) => page.$$eval(".run[data-run]", (runs) => runs.length);

// Without a run there is nothing to step to, and nothing to fall over.
const checkNoSteps = async (page, complain) => {
  const [, before] = await at(page);
  await page.keyboard.press("ArrowRight");
  await page.click("#later-run");
  const [run, told] = await at(page);
  if (run !== "" || told !== before) complain(`a step leads to "${told}" where there is no run`);
};

const checkSteps = async (page, complain) => {
  const count = await countRuns(page);
  if (count === 0) return checkNoSteps(page, complain);
  const steps = [["ArrowRight", 1], ["ArrowRight", 2], ["ArrowLeft", 1], ["End", count], ["Home", 1]];
  for (const [key, wanted] of steps) {
    await page.keyboard.press(key);
    const [run, told] = await at(page);
    const number = String(Math.min(wanted, count));
    if (run !== number || !told.startsWith(`${number} of ${count}. `)) complain(`${key} leads to run ${run}, which is told as "${told}", not to ${number}`);
  }
  await page.click("#later-run");
  if ((await at(page))[0] !== String(Math.min(2, count))) complain("the button does not lead to the next run");
};

// On paper there are no buttons, the paper is white whatever the screen is, and nothing sticks out of an A4 sheet across.
const checkPrint = async (page, complain) => {
  const { width, height } = page.viewport();
  await page.emulateMediaType("print");
  await page.setViewport({ width: 1047, height: 718 });
  const found = await page.evaluate(() => [
    getComputedStyle(document.body).backgroundColor === "rgb(255, 255, 255)" ? "" : "dark paper",
    getComputedStyle(document.querySelector(".sheet .paper")).fill === "rgb(255, 255, 255)" ? "" : "dark paper under the names",
    getComputedStyle(document.querySelector(".steps")).display === "none" ? "" : "buttons",
    ...[...document.querySelectorAll(".scroll .sheet")].map((sheet) => sheet.getBoundingClientRect())
      .map((box) => (box.right <= 1047 && box.height <= 718 ? "" : `a drawing of ${box.right} by ${box.height} px`)),
  ]);
  found.filter((text) => text !== "").forEach((text) => complain(`in print: ${text}`));
  await page.emulateMediaType(undefined);
  await page.setViewport({ width, height });
};

const checkAxe = async (page, complain) => {
  await page.$$eval("details", (all) => all.forEach((details) => (details.open = true)));
  await page.evaluate(axe);
  const { passes, violations } = await page.evaluate(() => globalThis.axe.run());
  const drawings = (await countRuns(page)) > 0 ? ["svg-img-alt"] : [];
  for (const rule of ["color-contrast", "document-title", "button-name", ...drawings])
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
      for (const scheme of ["light", "dark"])
        for (const size of sizes) {
          const page = await browser.newPage();
          const complain = (text) => console.log(`${file} ${size.width} px ${scheme}: ${text}`);
          await page.setViewport(size);
          await page.emulateMediaFeatures([{ name: "prefers-color-scheme", value: scheme }]);
          await check(page, file, complain);
          await checkSteps(page, complain);
          if (process.env.PICTURES) await keep(page, `${process.env.PICTURES}/${file.split("/").pop()}.${size.width}.${scheme}`);
          await checkPrint(page, complain);
          await checkAxe(page, complain);
          await page.close();
        }
} finally {
  await browser.close();
}
