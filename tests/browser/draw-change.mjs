// Draws a week of a change as the script of its page does, without a browser: draw-change.mjs SCRIPT DATA WIDTH…. Prints a JSON list of drawings: for each
// width those of the nights that have any water.
import { readFileSync } from "node:fs";

const [script, data] = process.argv.slice(2, 4).map((file) => readFileSync(file, "utf8"));
const draw = new Function("data", "widths", `${script}
  const nights = data.weeks[0][1].map((night) => changeNight(data, night));
  return widths.flatMap((width) => {
    const sizes = sizesOf(width);
    const axis = changeAxis(nights, sizes);
    return changeDrawings(nights, axis, sizes).filter((drawing) => drawing !== null);
  });`);
console.log(JSON.stringify(draw(JSON.parse(data), process.argv.slice(4).map(Number))));
