namespace WaterScript.Documents.Charts;

/// <summary>
/// How charts look. Water is blue and what is wrong is orange, two colours that people of all common kinds of colour blindness distinguish (from memory of
/// Okabe and Ito, "Color Universal Design"); and each is known by its form as well.
/// </summary>
internal static class ChartStyle
{
    /// <summary>Of drawings, in documents and in pages.</summary>
    public const string Drawing = """

        .sheet text { font: 11px "Helvetica Neue", Arial, "Liberation Sans", "DejaVu Sans", sans-serif; fill: #1d2a33; font-variant-numeric: tabular-nums; }
        .sheet .paper { fill: #ffffff; }
        .sheet .title { font-size: 17px; }
        .sheet .day-title { font-weight: bold; }
        .sheet .hour, .sheet .note { fill: #52606a; }
        .sheet .date { fill: #1d2a33; font-weight: bold; }
        .sheet .time { paint-order: stroke; stroke: #ffffff; stroke-opacity: 0.8; stroke-width: 2.5px; stroke-linejoin: round; }
        .sheet .beyond-text, .sheet .mark-text { fill: #a03f00; }
        .sheet .night { fill: #e8eef6; }
        .sheet .hatch-line { stroke: #b4bec5; stroke-width: 1; }
        .sheet .row-line { stroke: #0a5a9c; stroke-width: 1.2; }
        .sheet .beyond-line { stroke: #a03f00; stroke-width: 1.4; }
        .sheet .grid { stroke: #d5dce1; stroke-width: 1; fill: none; }
        .sheet .midnight, .sheet .frame { stroke: #7d8a94; stroke-width: 1; fill: none; }
        .sheet .run rect { fill: #0a5a9c; stroke: none; }
        .sheet .rest rect { fill: #ffffff; stroke: #0a5a9c; stroke-width: 1; }
        .sheet .run:hover rect, .sheet .run:focus rect, .sheet .run.now rect { stroke: #1d2a33; stroke-width: 3; }
        .sheet .run:focus { outline: none; }
        .sheet .row { stroke: #0a5a9c; stroke-width: 1; }
        .sheet .cycles { stroke: #0a5a9c; stroke-width: 1.5; fill: none; }
        .sheet .curve { stroke: #0a5a9c; stroke-width: 1.5; fill: none; }
        .sheet .under { fill: #0a5a9c; fill-opacity: 0.14; stroke: none; }
        .sheet .limit { stroke: #1d2a33; stroke-width: 1; stroke-dasharray: 6 3; fill: none; }
        .sheet .mark-line { stroke: #a03f00; stroke-width: 1; stroke-dasharray: 2 3; fill: none; }
        .sheet .sign { fill: #ffffff; stroke: #a03f00; stroke-width: 1.5; }
        .sheet .sign-ink { fill: #a03f00; stroke: none; }
        .sheet .cursor { stroke: #1d2a33; stroke-width: 1; fill: none; }
        @media screen and (prefers-color-scheme: dark) {
          .sheet text, .sheet .date { fill: #dbe4ea; }
          .sheet .paper { fill: #11181d; }
          .sheet .time { stroke: #11181d; }
          .sheet .hour, .sheet .note { fill: #a3b3be; }
          .sheet .beyond-text, .sheet .mark-text { fill: #ffa15c; }
          .sheet .night { fill: #1c2936; }
          .sheet .hatch-line { stroke: #46545f; }
          .sheet .row-line { stroke: #63b3f0; }
          .sheet .beyond-line { stroke: #ffa15c; }
          .sheet .grid { stroke: #2b3943; }
          .sheet .midnight, .sheet .frame { stroke: #7d8a94; }
          .sheet .run rect { fill: #63b3f0; }
          .sheet .rest rect { fill: #11181d; stroke: #63b3f0; }
          .sheet .run:hover rect, .sheet .run:focus rect, .sheet .run.now rect { stroke: #ffffff; }
          .sheet .row { stroke: #63b3f0; }
          .sheet .cycles, .sheet .curve { stroke: #63b3f0; }
          .sheet .under { fill: #63b3f0; }
          .sheet .limit, .sheet .cursor { stroke: #dbe4ea; }
          .sheet .mark-line { stroke: #ffa15c; }
          .sheet .sign { fill: #11181d; stroke: #ffa15c; }
          .sheet .sign-ink { fill: #ffa15c; }
        }

        """;

    /// <summary>Of the page around the drawings.</summary>
    public const string Page = """

        :root { color-scheme: light dark; }
        * { box-sizing: border-box; }
        body { margin: 0; font: 15px/1.45 "Helvetica Neue", Arial, "Liberation Sans", "DejaVu Sans", sans-serif; color: #1d2a33; background: #ffffff; }
        main { max-width: 1340px; margin: 0 auto; padding: 16px 16px 88px; }
        h1 { font-size: 22px; font-weight: normal; margin: 0 0 2px; overflow-wrap: anywhere; }
        h2 { font-size: 15px; margin: 28px 0 6px; }
        p { margin: 0 0 8px; overflow-wrap: anywhere; }
        .quiet { color: #52606a; }
        .scroll { overflow-x: auto; border: 1px solid #7d8a94; }
        .scroll:focus-visible, button:focus-visible, summary:focus-visible { outline: 3px solid #0a5a9c; outline-offset: 2px; }
        .sheet { display: block; width: 100%; min-width: 1040px; height: auto; }
        .legend .sheet { min-width: 0; width: auto; max-width: 100%; }
        .legend { display: flex; flex-wrap: wrap; gap: 4px 22px; margin: 10px 0; padding: 0; list-style: none; font-size: 13px; }
        .legend li { display: flex; align-items: center; gap: 8px; }
        .patterns { position: absolute; width: 0; height: 0; }
        .findings { margin: 8px 0; padding: 0 0 0 8px; list-style: none; }
        .findings li { margin: 0 0 6px; overflow-wrap: anywhere; }
        .findings b { color: #a03f00; }
        details { margin: 8px 0; }
        summary { cursor: pointer; padding: 4px 0; }
        table { border-collapse: collapse; width: 100%; font-size: 13px; font-variant-numeric: tabular-nums; }
        caption { text-align: left; padding: 4px 0; color: #52606a; }
        th, td { text-align: left; vertical-align: top; padding: 3px 8px 3px 0;
          border-bottom: 1px solid #d5dce1; overflow-wrap: anywhere; font-weight: normal; }
        thead th { font-weight: bold; }
        tr.now { outline: 2px solid #0a5a9c; outline-offset: -1px; }
        .steps { position: fixed; left: 0; right: 0; bottom: 0; display: flex; flex-wrap: wrap; gap: 6px; align-items: center;
          padding: 8px 16px; background: #ffffff; border-top: 1px solid #7d8a94; }
        .steps output { flex: 1 1 16em; min-width: 0; overflow-wrap: anywhere; }
        button { font: inherit; color: inherit; background: none; border: 1px solid #52606a; padding: 6px 12px; min-height: 34px; }
        button:hover { background: #e8eef6; }
        @media (max-width: 1071px) {
          .sheet { min-width: 1200px; }
        }
        @media (max-width: 600px) {
          main { padding: 12px 10px 130px; }
          .steps { padding: 6px 10px; }
          .steps output { flex-basis: 100%; font-size: 13px; }
          button { padding: 6px 8px; font-size: 13px; }
          .wide { display: none; }
        }
        @media screen and (prefers-color-scheme: dark) {
          body, .steps { color: #dbe4ea; background: #11181d; }
          .quiet, caption { color: #a3b3be; }
          .findings b { color: #ffa15c; }
          th, td { border-color: #2b3943; }
          button { border-color: #a3b3be; }
          button:hover { background: #1c2936; }
          tr.now { outline-color: #63b3f0; }
          .scroll:focus-visible, button:focus-visible, summary:focus-visible { outline-color: #63b3f0; }
        }
        @media print {
          @page { size: A4 landscape; margin: 10mm; }
          :root { color-scheme: light; }
          body, .legend, table { font-size: 11px; }
          main { max-width: none; padding: 0; }
          h1 { font-size: 17px; }
          h2 { font-size: 13px; margin: 14px 0 2px; }
          h2, h2 + p { break-after: avoid; }
          .steps, details:not([open]) { display: none; }
          .scroll { overflow: visible; border: 0; }
          .sheet { min-width: 0; }
          .sheet, tr, li { break-inside: avoid; }
        }

        """;
}
