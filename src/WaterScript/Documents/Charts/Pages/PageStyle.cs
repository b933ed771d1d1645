namespace WaterScript.Documents.Charts.Pages;

/// <summary>The style of pages: what stands around the drawings, and the drawings.</summary>
internal static class PageStyle
{
    private const string Form = """

        @page { size: A4 landscape; margin: 11mm 12mm; }
        * { box-sizing: border-box; }
        html { background: var(--paper); }
        body { margin: 0; background: var(--paper); color: var(--ink); font: 14px/1.45 Arial, "Liberation Sans", Helvetica, sans-serif;
          font-variant-numeric: tabular-nums; }
        main { max-width: 1560px; margin: 0 auto; padding: 24px 28px 132px; overflow-wrap: anywhere; }
        h1 { font-size: 22px; line-height: 1.2; font-weight: 400; margin: 0; }
        h2 { font-size: 14px; line-height: 1.3; font-weight: 700; margin: 26px 0 4px; }
        h3 { font-size: 14px; line-height: 1.3; font-weight: 700; margin: 18px 0 4px; }
        #opened.empty > :not(h2) { display: none; }
        h2 small, h3 small { font-weight: 400; font-size: 13px; color: var(--soft); margin-left: 8px; }
        a { color: var(--water); }
        .lead { margin: 4px 0 14px; color: var(--soft); max-width: 120ch; }
        .lead b { color: var(--ink); font-weight: 400; }
        .dry { font-size: 13px; color: var(--soft); margin: 0; padding: 8px 0 0; }
        .dry b { font-size: 14px; color: var(--ink); }
        .patterns { position: absolute; width: 0; height: 0; }
        .sheet { display: block; overflow: visible; }
        .night .sheet, .drawing .sheet { max-width: 100%; height: auto; }
        .picture { position: relative; touch-action: pan-y; border-radius: 2px; min-width: 0; }
        :focus-visible { outline: 2px solid var(--water); outline-offset: 2px; }
        .picture:focus-visible { outline-offset: 6px; }
        .hours { position: sticky; top: 0; z-index: 3; height: 0; }
        .hours .sheet { background: var(--paper); box-shadow: 0 1px 0 var(--hair); }
        .tools { display: flex; flex-wrap: wrap; gap: 6px; margin: 0 0 10px; }
        button { font: 13px Arial, "Liberation Sans", Helvetica, sans-serif; color: var(--ink); background: none; border: 1px solid var(--rule);
          border-radius: 2px; padding: 3px 9px; min-height: 26px; min-width: 26px; cursor: pointer; }
        select { font: 13px Arial, "Liberation Sans", Helvetica, sans-serif; color: var(--ink); background: var(--paper); border: 1px solid var(--rule);
          border-radius: 2px; padding: 3px 6px; min-height: 26px; max-width: 100%; }
        .legend { display: flex; flex-wrap: wrap; gap: 6px 22px; margin: 12px 0 0; padding: 0; list-style: none; font-size: 13px; color: var(--soft); }
        .legend li { display: flex; align-items: center; gap: 8px; }
        .legend li[hidden] { display: none; }
        .legend .sheet, .findings .sheet { flex: none; }
        .findings { list-style: none; margin: 4px 0 0; padding: 0; font-size: 13px; }
        .findings li { display: flex; gap: 8px; align-items: center; min-height: 26px; }
        .line { display: inline-block; min-height: 24px; min-width: 24px; line-height: 24px; }
        details { margin-top: 12px; }
        summary { cursor: pointer; color: var(--soft); font-size: 13px; min-height: 26px; }
        .wide { overflow-x: auto; }
        table { border-collapse: collapse; font-size: 13px; margin-top: 6px; }
        td, th { padding: 2px 14px 2px 0; text-align: left; font-weight: 400; border-bottom: 1px solid var(--hair); overflow-wrap: normal; }
        th { color: var(--soft); }
        .number { text-align: right; }
        caption { text-align: left; color: var(--soft); }
        .source { overflow: auto; border-top: 1px solid var(--hair); margin-top: 8px; padding-top: 6px; }
        .source div { display: grid; grid-template-columns: 44px 74px 1fr; width: max-content; min-width: 100%; white-space: pre;
          font: 12px/19px "Liberation Mono", Consolas, Menlo, monospace; scroll-margin: 40vh; }
        .source b { font-weight: 400; color: var(--soft); text-align: right; padding-right: 10px; grid-column: 1; }
        .source svg { grid-column: 2; grid-row: 1; margin-top: 3px; }
        .source span { grid-column: 3; grid-row: 1; }
        .source .hit { background: var(--pick); }
        .source .gone { color: var(--less); text-decoration: line-through; }
        .source .come { color: var(--water); }
        .struck { text-decoration: line-through; }
        .still { padding-bottom: 28px; }
        .foot { position: fixed; left: 0; right: 0; bottom: 0; z-index: 5; background: var(--paper); border-top: 1px solid var(--rule);
          padding: 8px max(28px, calc(50% - 752px)) 10px;
          display: grid; grid-template-columns: minmax(0, 1fr) minmax(0, 1fr); gap: 2px 28px; min-height: 74px; }
        .say b { font-weight: 700; }
        .say span { color: var(--soft); display: block; font-size: 13px; }
        .foot pre { margin: 0; overflow: hidden; color: var(--soft); font: 12px/17px "Liberation Mono", Consolas, Menlo, monospace; }
        .foot i { font-style: normal; display: block; overflow: hidden; text-overflow: ellipsis; white-space: pre; }
        .foot i.hit { color: var(--ink); background: var(--pick); }
        .beside { display: grid; grid-template-columns: minmax(0, 1fr) minmax(0, 0.8fr); gap: 0 28px; }
        .beside .right { position: sticky; top: 12px; align-self: start; max-height: calc(100vh - 110px); overflow: auto; }
        @media (max-width: 700px) {
          main { padding: 16px 12px 150px; }
          h1 { font-size: 19px; }
          .foot { grid-template-columns: minmax(0, 1fr); padding: 8px 12px; }
          .foot pre { display: none; }
          .legend { gap: 4px 16px; }
        }
        @media (min-width: 776px) {
          .narrow { display: none; }
        }
        @media (max-width: 999px) {
          [data-do="beside"] { display: none; }
        }
        @media print {
          * { -webkit-print-color-adjust: exact; print-color-adjust: exact; }
          .foot, .tools, .hours, details:not([open]) { display: none; }
          main { padding: 0; max-width: none; }
          .beside { display: block; }
          .night .sheet, .drawing .sheet { width: 100%; }
          h2 { break-after: avoid; }
          .night, .drawing, .legend, tr, li { break-inside: avoid; }
          .sheet .run.chosen .w, .sheet .run.chosen .pick { stroke: none; }
        }

        """;

    /// <summary>All of it.</summary>
    public static string Text { get; } = Palette.Variables() + Form + Variants.Style + PictureStyle.Text;
}
