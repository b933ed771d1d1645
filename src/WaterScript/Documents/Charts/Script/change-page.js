// What a reader does with the page of a change.
class ChangeView extends YearView {
  constructor(data, host) {
    super(data, host);
    this.week = 0;
    this.nights = document.getElementById("week");
    this.list = document.querySelector("select");
    for (const [name, by] of [["earlier-week", -1], ["later-week", 1]])
      document.querySelector(`[data-do="${name}"]`)?.addEventListener("click", () => this.show(this.week + by));
    this.list?.addEventListener("change", () => this.show(this.list.selectedIndex));
    new ResizeObserver(() => {
      if (this.width() !== this.drawn) this.draw();
    }).observe(this.nights);
    addEventListener("scroll", () => this.stick(), { passive: true });
    addEventListener("beforeprint", () => this.draw(1040));
    addEventListener("afterprint", () => this.draw());
    this.draw();
  }

  width() {
    return Math.floor(this.nights.clientWidth);
  }

  scale() {}

  show(week) {
    this.week = Math.max(0, Math.min(this.data.weeks.length - 1, week));
    if (this.list) this.list.selectedIndex = this.week;
    this.draw();
  }

  /** Draws the week that is chosen at the width there is. */
  draw(width = this.width()) {
    if (width < 40 || this.data.weeks.length === 0) return;
    this.drawn = width;
    const sizes = sizesOf(width);
    const nights = this.data.weeks[this.week][1].map((night) => changeNight(this.data, night));
    const axis = changeAxis(nights, sizes);
    const drawings = changeDrawings(nights, axis, sizes);
    this.nights.replaceChildren(...nights.flatMap((night, index) => {
      const [heading, small] = [document.createElement(night.lanes.length > 0 ? "h2" : "p"), document.createElement("small")];
      if (night.lanes.length === 0) {
        const title = document.createElement("b");
        title.textContent = night.title;
        heading.className = "dry";
        heading.append(title, ` ${night.words}`);
        return [heading];
      }
      small.textContent = night.words;
      heading.append(night.title, small);
      const place = document.createElement("div");
      place.className = "night";
      place.innerHTML = drawings[index];
      return [heading, place];
    }));
    this.drawHours(nights.find((night) => night.lanes.length > 0), axis, sizes);
  }

  /** The hours stay at the top while the night that has them is out of sight. */
  drawHours(night, axis, sizes) {
    this.hours = document.createElement("div");
    this.hours.className = "hours";
    this.hours.setAttribute("aria-hidden", "true");
    if (night) {
      const drawing = new ChangeDrawing(night, axis, sizes, {});
      drawing.drawHours();
      const width = number(sizes.width);
      this.hours.innerHTML = `<svg class="sheet" width="${width}" height="18" viewBox="0 0 ${width} 18">${drawing.words}</svg>`;
    }
    this.nights.prepend(this.hours);
    this.stick();
  }

  stick() {
    const first = this.nights.querySelector(".night svg");
    this.hours.hidden = !first || first.getBoundingClientRect().top >= 0 || this.nights.getBoundingClientRect().bottom < 60;
  }

  /** Shows the week in which the chosen day changes. */
  open() {
    if (this.day < 0) return;
    const [week] = this.data.days[this.day][3];
    if (week === undefined) return;
    this.show(week);
    this.nights.previousElementSibling.scrollIntoView({ block: "start" });
  }
}

if (typeof document !== "undefined" && document.getElementById("change-data")) {
  new ChangeView(JSON.parse(document.getElementById("change-data").textContent), document.getElementById("difference"));
  document.documentElement.dataset.ready = "";
}
