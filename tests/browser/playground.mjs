// Opens the playground in headless Chromium and prints what is wrong with it, a line each; FIGURES=1 has it say sizes and times.
// playground.mjs FOLDER SITES: the folder that holds the page, and a file with sites and what a check of each reports:
// [{ name, root, files: { path: text }, report, calendar }].
import { createServer } from "node:http";
import { existsSync, readFileSync, statSync } from "node:fs";
import { createRequire } from "node:module";
import { extname, join, normalize } from "node:path";
import puppeteer from "puppeteer-core";

const [folder, sitesFile] = process.argv.slice(2);
const sites = JSON.parse(readFileSync(sitesFile, "utf8"));
const axe = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");
const most = 3_000_000;
const typo = `site s { timezone Europe/Lisbon; effective 2026-05-01 }
zone lawn { output 1; flow 12 L/min }
schedule a { on mno; start at 20:00; steps { water lawn for 20 min } }
`;

const types = {
  ".html": "text/html", ".js": "text/javascript", ".css": "text/css", ".json": "application/json", ".wasm": "application/wasm", ".svg": "image/svg+xml",
  ".txt": "text/plain",
};
let sent = 0;
const asked = [];
const server = createServer((request, response) => {
  const path = normalize(new URL(request.url, "http://x").pathname);
  const file = join(folder, path.endsWith("/") ? `${path}index.html` : path);
  asked.push(path);
  if (!existsSync(file) || !statSync(file).isFile()) return response.writeHead(404).end();
  const packed = existsSync(`${file}.br`);
  const bytes = readFileSync(packed ? `${file}.br` : file);
  sent += bytes.length;
  response.writeHead(200, {
    "Content-Type": types[extname(file)] ?? "application/octet-stream", "Cache-Control": "max-age=60", ...(packed ? { "Content-Encoding": "br" } : {}),
  });
  return response.end(bytes);
});
await new Promise((resolve) => server.listen(0, "127.0.0.1", resolve));
const origin = `http://127.0.0.1:${server.address().port}`;

const complain = (text) => console.log(text);
const figure = (text) => process.env.FIGURES && console.error(text);
const browser = await puppeteer.launch({ executablePath: process.env.CHROMIUM ?? "/usr/bin/chromium", args: ["--no-sandbox", "--disable-gpu"] });

const open = async (address, { width = 1400, height = 1000, scheme = "light" } = {}) => {
  const page = await browser.newPage();
  page.on("console", (message) => ["error", "warn"].includes(message.type()) && complain(`console: ${message.text()}`));
  page.on("pageerror", (problem) => complain(`script: ${problem}`));
  page.on("request", (request) => request.url().startsWith(origin) || /^(blob|data):/.test(request.url()) || complain(`asks for ${request.url()}`));
  await page.setViewport({ width, height });
  await page.emulateMediaFeatures([{ name: "prefers-color-scheme", value: scheme }]);
  await page.goto(address);
  return page;
};
const checkedTimes = (page) => page.evaluate(() => Number(document.documentElement.dataset.checked ?? 0));
const untilChecked = async (page, before = 0) => {
  await page.waitForFunction((count) => Number(document.documentElement.dataset.checked ?? 0) > count, { timeout: 60_000 }, before);
};
const textOf = (page) => page.$eval(".cm-content", (content) => [...content.querySelectorAll(".cm-line")].map((line) => line.textContent).join("\n"));
const write = async (page, text) => {
  await page.focus(".cm-content");
  await page.keyboard.down("Control");
  await page.keyboard.press("a");
  await page.keyboard.up("Control");
  const before = await checkedTimes(page);
  await page.evaluate((inserted) => {
    const data = new DataTransfer();
    data.setData("text/plain", inserted);
    document.querySelector(".cm-content").dispatchEvent(new ClipboardEvent("paste", { clipboardData: data, bubbles: true, cancelable: true }));
  }, text);
  await untilChecked(page, before);
};

// The first visit: what it loads, and how long until the first check is there.
const checkFirstVisit = async () => {
  const start = performance.now();
  const page = await open(`${origin}/`);
  await untilChecked(page);
  const took = performance.now() - start;
  const framework = [...new Set(asked)];
  const cold = framework.filter((path) => path !== "/offline.js").reduce((sum, path) => {
    const file = join(folder, path.endsWith("/") ? `${path}index.html` : path);
    return sum + (existsSync(`${file}.br`) ? statSync(`${file}.br`).size : existsSync(file) ? statSync(file).size : 0);
  }, 0);
  const checked = await page.evaluate(() => performance.getEntriesByName("checked")[0].startTime);
  figure(`cold load ${cold} bytes in ${framework.length} files, first check after ${checked.toFixed(0)} ms, all shown after ${took.toFixed(0)} ms`);
  if (cold > most) complain(`the first visit loads ${cold} bytes, more than ${most}`);
  const drawn = await page.$eval("#picture", (host) => host.shadowRoot?.querySelectorAll(".run").length ?? 0);
  if (drawn === 0) complain("no chart is drawn");
  if ((await page.$$eval("#rows tr", (rows) => rows.length)) === 0) complain("the timetable is empty");
  if ((await page.$$eval(".cm-content [class*=w-]", (words) => words.length)) === 0) complain("the text has no colours");
  return page;
};

const checkTypo = async (page) => {
  await write(page, typo);
  await page.waitForSelector(".cm-lintRange-error", { timeout: 10_000 }).catch(() => complain("a typo is not underlined"));
  const marked = await page.$$eval(".cm-lintRange-error", (marks) => marks.map((mark) => mark.textContent).join(""));
  if (marked !== "mno") complain(`"${marked}" is underlined, not the typo`);
  const before = await checkedTimes(page);
  const fix = await page.$("xpath/.//*[@id='findings']//button[text()='Write mon']");
  if (!fix) return complain("the typo has no fix to click");
  await fix.click();
  await untilChecked(page, before);
  if ((await textOf(page)) !== typo.trimEnd().replace("mno", "mon") + "\n") complain("the fix has not put the word right");
  if ((await page.$$(".cm-lintRange-error")).length > 0) complain("the word that was put right is still underlined");
};

// The same fix from the mark itself.
const checkTooltip = async (page) => {
  await write(page, typo);
  await page.waitForSelector(".cm-lintRange-error");
  await page.hover(".cm-lintRange-error");
  const fix = await page.waitForSelector(".cm-tooltip .cm-diagnosticAction", { timeout: 5000 }).catch(() => null);
  if (!fix) return complain("pointing at a mark offers no fix");
  const before = await checkedTimes(page);
  await fix.click();
  await untilChecked(page, before);
  if (!(await textOf(page)).includes("on mon;")) complain("the fix at the mark has done nothing");
};

const checkAllAtOnce = async (page) => {
  await write(page, typo);
  const before = await checkedTimes(page);
  await page.click("xpath/.//*[@id='verdict']//button[text()='Fix the slip']").catch(() => complain("slips cannot be fixed all at once"));
  await untilChecked(page, before);
  if (!(await textOf(page)).includes("on mon;")) complain("fixing all slips has done nothing");
};

const checkWriting = async (page) => {
  await page.hover("xpath/.//*[contains(@class,'w-variable')][text()='lawn']");
  await page.waitForFunction(() => /zone lawn/.test(document.querySelector(".cm-tooltip .card")?.textContent ?? ""), { timeout: 5000 })
    .catch(() => complain("pointing at a zone shows no card"));
  await page.focus(".cm-content");
  await page.keyboard.down("Control");
  await page.keyboard.press("End");
  await page.keyboard.up("Control");
  await page.keyboard.type("sched");
  const isOffered = () => [...document.querySelectorAll(".cm-tooltip-autocomplete li")].some((item) => item.textContent.startsWith("schedule"));
  await page.waitForFunction(isOffered, { timeout: 5000 })
    .catch(() => complain("nothing is offered for a word that is begun"));
  await page.keyboard.press("Escape");
};

const checkLink = async (page) => {
  const text = `${typo}# Schöne Grüße: "ü", 水, ${"\u{1F331}"}\n`;
  await write(page, text);
  await page.click("#share");
  await page.waitForFunction(() => /link/.test(document.getElementById("status").textContent));
  const address = await page.evaluate(() => location.href);
  const other = await open(address);
  await untilChecked(other);
  if ((await textOf(other)) !== text) complain("a link does not bring the text back");
  await other.close();
  const broken = await open(`${origin}/#1.AAAA`);
  await broken.waitForFunction(() => /cannot be read/.test(document.getElementById("status").textContent), { timeout: 30_000 })
    .catch(() => complain("a broken link is not reported"));
  await broken.close();
};

// Everything once more, without a network.
const checkOffline = async (page) => {
  await page.evaluate(() => navigator.serviceWorker.ready.then(() => undefined));
  await new Promise((resolve) => server.close(resolve).closeAllConnections());
  const other = await open(`${origin}/`);
  await untilChecked(other).catch(() => complain("the second visit needs a network"));
  await other.close();
};

// In a worker of its own, as the page has it.
const checkSites = async (page) => {
  const answers = await page.evaluate(async (all) => {
    const worker = new Worker("worker.js", { type: "module" });
    let number = 0;
    const ask = (question) => new Promise((resolve) => {
      const id = ++number;
      worker.addEventListener("message", function answered({ data }) {
        if (data.id !== id) return;
        worker.removeEventListener("message", answered);
        resolve(data.failed ? { failed: data.failed } : JSON.parse(data.answer));
      });
      worker.postMessage({ id, question: JSON.stringify(question) });
    });
    const answers = [];
    for (const { root, files, calendar } of all) {
      const start = performance.now();
      await ask({ method: "open", root, files });
      await ask({ method: "read" });
      const check = await ask({ method: "check" });
      const took = performance.now() - start;
      const { text: report } = await ask({ method: "document", format: "report" });
      answers.push({ report: report ?? JSON.stringify(check), took, calendar: calendar && (await ask({ method: "document", format: "icalendar" })).text });
    }
    worker.terminate();
    return answers;
  }, sites);
  for (const [i, { name, report, calendar }] of sites.entries()) {
    if (answers[i].report !== report) complain(`${name}: the page reports something else than the program: ${answers[i].report.slice(0, 300)}`);
    if (calendar && answers[i].calendar !== calendar) complain(`${name}: the calendar is another one than that of the program`);
  }
  const times = answers.map((answer) => answer.took).sort((one, other) => one - other);
  figure(`${times.length} sites checked, ${times[Math.floor(times.length / 2)].toFixed(0)} ms in the middle, ${times.at(-1).toFixed(0)} ms at most`);
};

const checkLooks = async () => {
  for (const scheme of ["light", "dark"])
    for (const [width, height] of [[1400, 1000], [360, 740]]) {
      const page = await open(`${origin}/`, { width, height, scheme });
      await untilChecked(page);
      const say = (text) => complain(`${width} px ${scheme}: ${text}`);
      for (const text of [undefined, typo]) {
        if (text) await write(page, text);
        const wide = await page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
        if (wide > 0) say(`${wide} px wider than the screen`);
        await page.evaluate(axe);
        const { violations } = await page.evaluate(() => globalThis.axe.run());
        violations.forEach((violation) => say(`axe ${violation.id}: ${violation.help}: ${violation.nodes[0].html.slice(0, 160)}`));
        const name = `playground.${width}.${scheme}${text ? ".typo" : ""}.png`;
        if (process.env.PICTURES) await page.screenshot({ path: `${process.env.PICTURES}/${name}`, fullPage: true });
      }
      await page.close();
    }
};

try {
  const page = await checkFirstVisit();
  await checkTypo(page);
  await checkTooltip(page);
  await checkAllAtOnce(page);
  await checkWriting(page);
  await checkLink(page);
  await checkSites(page);
  await checkLooks();
  await checkOffline(page);
} finally {
  await browser.close();
  server.close();
}
