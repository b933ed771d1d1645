// Looks at a live picture in headless Chromium while its file is saved: view.mjs ADDRESS FILE. Prints what is wrong, a line each; nothing when all is well.
import { readFileSync, renameSync, truncateSync, unlinkSync, writeFileSync } from "node:fs";
import puppeteer from "puppeteer-core";

const [address, file] = process.argv.slice(2);
const browser = await puppeteer.launch({
  executablePath: process.env.CHROMIUM ?? "/usr/bin/chromium",
  args: ["--no-sandbox", "--disable-gpu"],
});
try {
  const page = await browser.newPage();
  page.on("pageerror", (problem) => console.log(`script: ${problem}`));
  page.on("request", (request) => request.url().startsWith(address) || /^(about|data):/.test(request.url()) || console.log(`asks for ${request.url()}`));
  await page.goto(address);
  const picture = async () => {
    const frame = page.frames().find((each) => each.url().includes("/picture"));
    return frame ? frame.evaluate(() => document.body.innerText) : "";
  };
  const findings = () => page.$eval("pre", (words) => words.textContent);
  const expect = async (what, isSo) => {
    for (let i = 0; i < 150; i++) {
      // A frame that is being replaced cannot be asked.
      if (await isSo().catch(() => false)) return;
      await new Promise((resolve) => setTimeout(resolve, 200));
    }
    console.log(`not seen: ${what}`);
  };
  const view = () => page.frames().find((each) => each.url().includes("/picture")).evaluate(() => globalThis.pictureView.take());
  const text = readFileSync(file, "utf8");
  await expect("the first picture", async () => (await picture()).includes("10 min"));
  writeFileSync(file, text.replace("10 min", "17 min"));
  await expect("a save", async () => (await picture()).includes("17 min"));
  const frame = page.frames().find((each) => each.url().includes("/picture"));
  await frame.focus("#picture");
  for (const key of ["Home", "+", "+", "+", "+"]) await frame.page().keyboard.press(key);
  const before = await view();
  if (!(before.zoom > 4) || before.run === null) console.log(`zoomed to ${before.zoom}, with ${before.run} chosen`);
  writeFileSync(file, text.replace("10 min", "19 min"));
  await expect("a save while it is zoomed", async () => (await picture()).includes("19 min"));
  await expect("the zoom, the time at the edge and the run of before", async () => {
    const after = await view();
    return after.zoom === before.zoom && Math.abs(after.at - before.at) < 60 && JSON.stringify(after.run) === JSON.stringify(before.run);
  });
  // Fifty saves in five manners: written anew, renamed over, deleted and written, moved away and written, and cut short and written in place.
  const saves = [
    (words) => writeFileSync(file, words),
    (words) => (writeFileSync(`${file}.new`, words), renameSync(`${file}.new`, file)),
    (words) => (unlinkSync(file), writeFileSync(file, words)),
    (words) => (renameSync(file, `${file}~`), writeFileSync(file, words)),
    (words) => (truncateSync(file, 0), writeFileSync(file, words, { flag: "r+" })),
  ];
  for (let i = 0; i < 50; i++) {
    const length = `${(i % 40) + 11} min`;
    saves[i % 5](text.replace("10 min", length));
    await expect(`save ${i + 1}`, async () => (await picture()).includes(length));
  }
  // An include is followed as well.
  const included = `${file}.zones.water`;
  writeFileSync(included, 'zone other "One more" { output 7 }\nschedule other { every day; start at 06:30; steps { water other for 41 min } }\n');
  writeFileSync(file, `include "${included.split("/").pop()}"\n${text}`);
  await expect("an include", async () => (await picture()).includes("One more"));
  writeFileSync(included, readFileSync(included, "utf8").replace("One more", "Renamed"));
  await expect("a change of the include", async () => (await picture()).includes("Renamed"));
  writeFileSync(file, text.replace("10 min", "23 min"));
  await expect("the file without it", async () => (await picture()).includes("23 min"));
  writeFileSync(file, text.replace("10 min", "10"));
  await expect("an error beside the last picture", async () => (await findings()).includes("error") && (await picture()).includes("23 min"));
  writeFileSync(file, text);
  await expect("its repair", async () => (await findings()) === "" && (await picture()).includes("10 min"));
  await page.close();
  const next = await browser.newPage();
  await next.goto(address);
  if (!(await next.title()).includes(file.split("/").pop())) console.log("after a closed tab nothing is shown");
} finally {
  await browser.close();
}
