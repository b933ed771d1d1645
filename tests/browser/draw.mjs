// Draws nights as the script of a page does, without a browser: draw.mjs SCRIPT DATA, both files. DATA is { picture, sizes: [[width, zoom, pan]…] }.
// Prints a JSON list of drawings: for each of the sizes, each night that has any water.
import { readFileSync } from "node:fs";

const [script, data] = process.argv.slice(2).map((file) => readFileSync(file, "utf8"));
const draw = new Function("input", `${script}
  return input.sizes.flatMap(([width, zoom, pan]) => {
    const picture = { ...input.picture, nights: input.picture.nights.map(nightOf) };
    const sizes = sizesOf(width);
    const busy = picture.nights.filter((night) => night.rows.length + night.held.length > 0);
    const most = Math.max(...picture.nights.map((night) => night.length));
    const axis = axisOf(fold(busy.flatMap(busySpans), sizes, most), sizes, most, zoom, pan);
    return busy.map((night, index) => {
      const options = { hasHours: index === 0, hasFoot: index === 0, hasPanels: picture.nights.length === 1, thumb: zoom > 1 ? [0.25, 0.5] : null };
      return new NightDrawing(picture, night, axis, sizes, options).draw().svg;
    });
  });`);
console.log(JSON.stringify(draw(JSON.parse(data))));
