using Stockseat.Audit.Showing;
using Stockseat.Seating.Quantities;

namespace Stockseat.Sheets.Reports;

/// <summary>How a report looks: portrait, black on white; nothing depends on a colour or a background, which browsers leave out in print.</summary>
internal static class ReportStyle
{
    private const string Screen = """
        @media screen {
          body { font-size: 16px; padding: 16px; }
          table { font-size: 12.5px; }
          p a { display: inline-block; min-width: 24px; min-height: 24px; text-align: center; }
        }
        @media print {
          body { max-width: none; padding: 0; }
          h2, h3, caption { break-after: avoid; }
          a { color: #000; }
        }
        """;

    /// <summary>What a page keeps for its margins and for the words around a drawing, in millimetres.</summary>
    private const double NotDrawn = 82;

    /// <summary>How wide what is printed may be, in millimetres: the paper without its margins.</summary>
    public static double WidthOf(PaperSize paper) => paper.Width - 24;

    /// <summary>What stands at each page's foot.</summary>
    /// <param name="ledger">The ledger's id; others may have written it.</param>
    /// <param name="instant">Which instant.</param>
    public static string Foot(string? ledger, string instant) => $"ledger {Tame(ledger ?? "without an id")}, {Tame(instant)}";

    /// <summary>The style sheet.</summary>
    /// <param name="foot">What stands at each page's foot.</param>
    /// <param name="paper">What it is printed on.</param>
    public static string Of(string foot, PaperSize paper) => $$"""
        @page {
          size: {{paper.Name}} portrait; margin: 12mm 12mm 16mm 12mm;
          @bottom-left { content: "{{foot}}"; font: 8pt sans-serif; }
          @bottom-right { content: "page " counter(page) " of " counter(pages); font: 8pt sans-serif; }
        }
        * { box-sizing: border-box; }
        body { font: 10pt/1.35 sans-serif; color: #000; background: #fff;
          max-width: 60rem; margin: 0 auto; font-variant-numeric: tabular-nums; overflow-wrap: anywhere; }
        h1 { font-size: 1.9em; line-height: 1.15; margin: 0 0 0.3em 0; }
        h2 { font-size: 1.35em; line-height: 1.2; margin: 1.3em 0 0.3em 0; border-bottom: 0.5mm solid #000; }
        h3 { font-size: 1.1em; margin: 1em 0 0.2em 0; }
        p { margin: 0.3em 0; orphans: 3; widows: 3; }
        a { color: #000; }
        .summary { border: 0.8mm solid #000; padding: 2.5mm 4mm; margin: 3mm 0; break-inside: avoid; }
        .summary h2 { margin: 0; border: 0; font-size: 1.6em; line-height: 1.25; }
        .summary .short { display: block; font-size: 0.6em; font-weight: normal; }
        .summary p { font-size: 1.2em; }
        .loud { border: 1mm dashed #000; padding: 1.5mm 3mm; margin: 3mm 0; font-weight: bold; font-size: 1.15em; break-inside: avoid; }
        dl { display: grid; grid-template-columns: 9.5em 1fr; margin: 0.4em 0; break-inside: avoid; }
        dt { font-weight: bold; padding-right: 2mm; }
        dd { margin: 0; }
        ol.findings { padding-left: 0; list-style: none; margin: 0.4em 0; }
        ol.findings li { break-inside: avoid; margin: 0 0 0.8em 0; padding-left: 2.6em; position: relative; }
        .number { position: absolute; left: 0; top: 0; min-width: 1.7em; text-align: center; border: 0.4mm solid #000; font-weight: bold; }
        .findings p { margin: 0.1em 0; }
        .findings .rule { font-weight: bold; font-size: 1.1em; }
        figure { margin: 0.5em 0; break-inside: avoid; }
        figure > svg { display: block; width: 100%; height: auto; max-height: {{Rounded.Short(paper.Height - NotDrawn, 1)}}mm; }
        figcaption { font-size: 0.95em; }
        table { border-collapse: collapse; width: 100%; table-layout: fixed; font-size: 8pt; line-height: 1.25; margin: 0.4em 0; }
        caption { text-align: left; font-size: 1.1em; padding: 0 0 1mm 0; }
        thead { display: table-header-group; break-after: avoid; }
        tr { break-inside: avoid; }
        th { text-align: left; vertical-align: bottom; border-bottom: 0.5mm solid #000; padding: 0.5mm 0.8mm; }
        td, tbody th { vertical-align: top; border-bottom: 0.2mm solid #000; padding: 0.5mm 0.8mm; font-weight: normal; }
        td p, tbody th p { margin: 0; }
        .n { text-align: right; }
        .c { text-align: center; }
        .flagged th { border-left: 1.2mm solid #000; }
        .flagged th p:first-child { font-weight: bold; }
        .strong { font-weight: bold; }
        tr.here { break-after: avoid; break-before: avoid; }
        .here td { border: 0; border-bottom: 0.8mm solid #000; font-weight: bold; }
        .hash { font-family: monospace; }
        .signs { display: grid; grid-template-columns: 2fr 2fr 1fr; gap: 4mm; break-inside: avoid; }
        .sign { margin-top: 10mm; border-top: 0.3mm solid #000; font-size: 0.9em; }
        .cautions { border: 0.5mm solid #000; padding: 1mm 4mm; margin: 4mm 0; break-inside: avoid; }
        .cautions h2 { border: 0; margin: 0.2em 0; }
        .a-serial { width: 7.6em; } .a-diameter { width: 8.8em; } .a-revision { width: 3em; } .a-shift { width: 5.2em; }
        .a-change { width: 5.2em; } .a-sure { width: 4.8em; } .a-first { width: 3.3em; } .a-confirmed { width: 7.2em; }
        .c-key { width: 40%; } .c-value { width: 30%; }
        .noted td { border-left: 1.2mm double #000; padding-left: 3mm; font-style: italic; }
        .e-serial { width: 4.8em; } .e-time { width: 7.8em; } .e-kind { width: 7.8em; }
        .e-fixture { width: 6.6em; } .e-client { width: 6.4em; } .e-hash { width: 8.4em; }
        {{Screen}}
        """;

    /// <summary>Keeps only characters that can't end a text in a style sheet.</summary>
    private static string Tame(string text) =>
        new([.. text.Take(60).Select(c => char.IsAsciiLetterOrDigit(c) || c is '-' or ' ' or ':' or '+' or '\u2212' or '.' ? c : '?')]);
}
