namespace WaterScript.Documents.Charts;

/// <summary>What a page does beside being read: stepping from run to run and from night to night, and names that stay in sight.</summary>
internal static class ChartScript
{
    /// <summary>The script of a page. It only reads what the page holds.</summary>
    public const string Text = """

        "use strict";
        (() => {
          const runs = [...document.querySelectorAll(".run[data-run]")].sort((a, b) => a.dataset.run - b.dataset.run);
          const days = [...document.querySelectorAll("section.day")];
          const words = document.querySelector("output");
          let at = -1;

          const show = (index) => {
            if (runs.length === 0) return;
            document.querySelectorAll(".now").forEach((element) => element.classList.remove("now"));
            at = Math.max(0, Math.min(runs.length - 1, index));
            const run = runs[at];
            run.classList.add("now");
            document.getElementById("row-" + run.dataset.run)?.classList.add("now");
            const scroll = run.closest(".scroll");
            const box = run.getBoundingClientRect();
            const view = scroll.getBoundingClientRect();
            scroll.scrollLeft += box.left - view.left - view.width * 0.6;
            run.focus({ preventScroll: true });
            if (box.top < 0 || box.bottom > innerHeight - 100) run.scrollIntoView({ block: "center", inline: "nearest" });
            words.textContent = (at + 1) + " of " + runs.length + ". " + run.querySelector("title").textContent;
          };

          const showDay = (step) => {
            const own = at < 0 ? (step > 0 ? -1 : 0) : days.indexOf(runs[at].closest("section.day"));
            for (let day = own + step; day >= 0 && day < days.length; day += step) {
              const first = runs.findIndex((run) => days[day].contains(run));
              if (first >= 0) return show(first);
            }
            if (at < 0) show(0);
          };

          const steps = {
            "earlier-run": () => show(at - 1),
            "later-run": () => show(at + 1),
            "earlier-day": () => showDay(-1),
            "later-day": () => showDay(1),
          };
          const keys = {
            ArrowLeft: steps["earlier-run"],
            ArrowRight: steps["later-run"],
            "[": steps["earlier-day"],
            "]": steps["later-day"],
            Home: () => show(0),
            End: () => show(runs.length - 1),
          };

          for (const [id, step] of Object.entries(steps)) document.getElementById(id).addEventListener("click", step);
          document.addEventListener("keydown", (event) => {
            const step = keys[event.key];
            if (!step || event.ctrlKey || event.metaKey || event.altKey || event.target.closest(".scroll") === event.target) return;
            event.preventDefault();
            step();
          });
          document.addEventListener("click", (event) => {
            const run = event.target.closest(".run[data-run]");
            if (run) show(runs.indexOf(run));
          });

          for (const scroll of document.querySelectorAll(".scroll")) {
            const follow = () => {
              for (const svg of scroll.querySelectorAll("svg")) {
                const left = scroll.scrollLeft * svg.viewBox.baseVal.width / svg.getBoundingClientRect().width;
                const names = svg.querySelector(".names");
                names.setAttribute("transform", "translate(" + left + " 0)");
                const edge = left + names.querySelector("rect").width.baseVal.value;
                // An hour that the names cover in part would read as another one.
                for (const text of svg.querySelectorAll(".hour, .date")) text.setAttribute("visibility", text.getAttribute("x") < edge ? "hidden" : "visible");
              }
            };
            scroll.addEventListener("scroll", follow, { passive: true });
            const first = scroll.querySelector(".run");
            if (first && scroll.scrollWidth > scroll.clientWidth) {
              scroll.scrollLeft = first.getBoundingClientRect().left - scroll.getBoundingClientRect().left - scroll.clientWidth * 0.6;
            }
          }
          document.documentElement.dataset.ready = "";
        })();

        """;
}
