using WaterScript.Documents.Charts.Pages;

namespace WaterScript.Cli.Viewing;

/// <summary>The page around a picture that is looked at while its file is written: beside the picture stands what is found in the file.</summary>
internal static class LivePage
{
    private const string Style = """

        html, body { margin: 0; height: 100%; background: #fbfbf8; color: #1d2529; font: 14px/1.45 Arial, "Liberation Sans", Helvetica, sans-serif; }
        body { display: flex; flex-direction: column; }
        iframe { flex: 1; border: 0; width: 100%; min-height: 0; }
        pre { margin: 0; padding: 8px 28px; max-height: 40vh; overflow: auto; font: 12px/17px "Liberation Mono", Consolas, Menlo, monospace;
          border-bottom: 1px solid #7d8990; white-space: pre-wrap; }
        pre:empty { display: none; }
        .gone { padding: 8px 28px; border-bottom: 1px solid #7d8990; }
        .gone[hidden] { display: none; }
        @media (prefers-color-scheme: dark) { html, body { background: #14181b; color: #e3e8ea; } }

        """;

    private const string Script = """

        "use strict";
        const frame = document.querySelector("iframe");
        const words = document.querySelector("pre");
        const gone = document.querySelector(".gone");
        let shown = "";
        let view = null;
        const show = async (state) => {
          const { picture, findings } = JSON.parse(state);
          words.textContent = findings;
          if (picture === shown) return;
          const [x, y] = [frame.contentWindow?.scrollX ?? 0, frame.contentWindow?.scrollY ?? 0];
          view = frame.contentWindow?.pictureView?.take() ?? view;
          shown = picture;
          frame.onload = () => {
            if (view) frame.contentWindow.pictureView?.give(view);
            frame.contentWindow.scrollTo(x, y);
          };
          frame.src = "/picture?" + picture;
        };
        const events = new EventSource("/events");
        events.onmessage = (event) => { gone.hidden = true; show(event.data); };
        events.onerror = () => { gone.hidden = false; };

        """;

    /// <summary>The page.</summary>
    /// <param name="title">What is looked at.</param>
    public static byte[] Of(string title)
    {
        var markup = new MarkupWriter();
        markup.Raw("<!DOCTYPE html>\n").Open("html", ("lang", "en")).Open("head");
        markup.Empty("meta", ("charset", "utf-8"));
        markup.Empty("meta", ("name", "viewport"), ("content", "width=device-width, initial-scale=1"));
        markup.Empty("link", ("rel", "icon"), ("href", "data:,"));
        markup.Element("title", title).Open("style").Raw(Style).Close().Close();
        markup.Open("body").Open("pre", ("role", "status"), ("tabindex", "0"), ("aria-label", "What is found in the file")).Close();
        markup.Open("div", ("class", "gone"), ("hidden", "hidden")).Text("waterscript view has ended; the picture stays as it was.").Close();
        markup.Open("iframe", ("title", "The picture")).Close();
        markup.Open("script").Raw(Script).Close().Close().Close();
        using var stream = new MemoryStream();
        markup.WriteTo(stream);
        return stream.ToArray();
    }

    /// <summary>What the page may do: ask this program, and nothing else.</summary>
    public static string Policy =>
        $"default-src 'none'; img-src data:; style-src {PageParts.HashOf(Style)}; script-src {PageParts.HashOf(Script)}; connect-src 'self'; " +
        "frame-src 'self'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'";
}
