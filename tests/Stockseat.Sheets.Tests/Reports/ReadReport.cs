using System.Xml;
using System.Xml.Linq;
using Stockseat.Audit.Reviewing.Facts;
using Stockseat.Audit.Reviewing.Results;
using Stockseat.Audit.Showing;
using Stockseat.Sheets.Reports;
using Stockseat.Sheets.Tests.Support;

namespace Stockseat.Sheets.Tests.Reports;

/// <summary>A report, read as strictly as XML requires.</summary>
internal sealed class ReadReport
{
    public static readonly TimeZoneInfo Zone = TimeZoneInfo.CreateCustomTimeZone("Works time", TimeSpan.FromHours(1), "Works time", "Works time");

    public ReadReport(Review review, Display? display = null, string? by = null)
    {
        Text = ReviewReport.Page(review, display ?? Display.Plain with { Zone = Zone }, ReviewMaker.At.AddHours(2), by);
        using var reader = XmlReader.Create(
            new StringReader(Text["<!DOCTYPE html>".Length..]), new() { DtdProcessing = DtdProcessing.Prohibit, CheckCharacters = true });
        Root = XDocument.Load(reader).Root!;
    }

    public string Text { get; }

    public XElement Root { get; }

    public XElement Body => Root.Element("body")!;

    /// <summary>A section by its heading's id.</summary>
    public XElement Section(string id) => Root.Descendants("section").Single(s => s.Attribute("aria-labelledby")!.Value == id);

    /// <summary>A section's text, with runs of spaces made single.</summary>
    public string Told(string id) => Words(Section(id));

    public static string Words(XElement element) => string.Join(' ', element.Value.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries));

    /// <summary>A table's rows, each cell's text with single spaces.</summary>
    public string[][] Rows(string id) => [.. Section(id).Descendants("tbody").Single().Elements("tr").Select(r => r.Elements().Select(Words).ToArray())];
}
