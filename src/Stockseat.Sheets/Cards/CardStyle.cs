using Stockseat.Audit.Showing;
using Stockseat.Fixtures.Revisions;
using Stockseat.Seating.Quantities;

namespace Stockseat.Sheets.Cards;

/// <summary>How a card looks: upright, black on white, without colour and without backgrounds, which browsers leave out when they print.</summary>
internal static class CardStyle
{
    private const double SideMargin = 12;

    /// <summary>How wide the printed part may be, in millimetres.</summary>
    public static double WidthOf(PaperSize paper) => paper.Width - (2 * SideMargin);

    /// <summary>The style sheet. The foot of each page names fixture and digest, which need no escapes.</summary>
    public static string Of(Revision revision, PaperSize paper) => $$"""
        @page {
          size: {{paper.Name}} portrait; margin: 12mm 12mm 16mm 12mm;
          @bottom-left { content: "{{revision.Fixture}} revision {{revision.Number}}, digest {{revision.Digest[..12]}}. VOID AFTER ANY ADOPTION.";
            font: bold 9pt sans-serif; }
          @bottom-right { content: "page " counter(page) " of " counter(pages); font: 9pt sans-serif; }
        }
        * { box-sizing: border-box; }
        body { font: 10pt/1.3 sans-serif; color: #000; background: #fff; max-width: {{Rounded.Short(WidthOf(paper), 1)}}mm;
          margin: 0 auto; font-variant-numeric: tabular-nums; }
        h1 { font-size: 21pt; line-height: 1.1; margin: 0; overflow-wrap: anywhere; }
        h2 { font-size: 11pt; margin: 3mm 0 0.5mm 0; }
        p { margin: 0.5mm 0; }
        .what { font-size: 11.5pt; font-weight: bold; margin: 1mm 0 2mm 0; }
        .void { border: 1mm solid #000; padding: 1.5mm 3mm; margin: 2mm 0; }
        .void strong { font-size: 15pt; }
        .standing { font-size: 12pt; font-weight: bold; margin: 1.5mm 0; overflow-wrap: anywhere; }
        .alarm { border: 1mm dashed #000; padding: 1mm 3mm; }
        dl { display: grid; grid-template-columns: 31mm 1fr; margin: 2mm 0; }
        dt { font-weight: bold; }
        dd { margin: 0; overflow-wrap: anywhere; }
        .cautions { border: 0.5mm solid #000; padding: 1mm 3mm 1.5mm 3mm; margin: 3mm 0; break-inside: avoid; }
        .cautions h2 { margin-top: 0; }
        table { border-collapse: collapse; width: 100%; margin: 3mm 0; }
        thead { display: table-header-group; }
        tr { break-inside: avoid; }
        th, td { padding: 0.6mm 0.9mm; text-align: right; white-space: nowrap; }
        th { font-size: 9pt; vertical-align: bottom; }
        td { font-size: 10pt; border-bottom: 0.2mm solid #000; }
        .every td { border-bottom-width: 0.7mm; }
        thead tr:last-child th { border-bottom: 0.7mm solid #000; }
        th.left { text-align: left; font-size: 10pt; white-space: normal; }
        .group { text-align: center; border-bottom: 0.3mm solid #000; }
        .first, .next { border-left: 0.5mm solid #000; }
        .diameter { font-weight: bold; font-size: 11pt; }
        .mark { font-size: 8pt; text-align: left; }
        .taught td { font-weight: bold; }
        .nests { width: auto; margin: 1.5mm 0; }
        .nests th, .nests td { padding: 0.4mm 3mm; }
        .end { break-inside: avoid; margin-top: 4mm; }
        .signs { display: grid; grid-template-columns: 2fr 1.5fr 1fr 1.5fr; gap: 4mm; }
        .sign { margin-top: 8mm; border-top: 0.3mm solid #000; font-size: 9pt; }
        """;
}
