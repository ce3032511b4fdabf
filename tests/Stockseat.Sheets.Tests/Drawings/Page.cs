using System.Globalization;
using System.Text.RegularExpressions;
using System.Xml;
using System.Xml.Linq;

namespace Stockseat.Sheets.Tests.Drawings;

/// <summary>A drawing, read as strictly as XML requires.</summary>
internal sealed partial class Page
{
    private static readonly XNamespace Svg = "http://www.w3.org/2000/svg";

    public Page(string text)
    {
        // No DTD, no entities of its own, no character that XML 1.0 does not allow.
        using var reader = XmlReader.Create(new StringReader(text), new() { DtdProcessing = DtdProcessing.Prohibit, CheckCharacters = true });
        Root = XDocument.Load(reader).Root!;
    }

    public XElement Root { get; }

    public double Width => Number(Root.Attribute("width")!.Value.Replace("mm", "", StringComparison.Ordinal));

    public double Height => Number(Root.Attribute("height")!.Value.Replace("mm", "", StringComparison.Ordinal));

    public IEnumerable<XElement> All(string name) => Root.Descendants(Svg + name);

    public string[] Texts => [.. All("text").Select(t => t.Value)];

    public XElement Group(string name) => All("g").First(g => g.Attribute("class")!.Value == name);

    public static IEnumerable<XElement> In(XElement group, string name) => group.Descendants(Svg + name);

    public static double Of(XElement element, string name) => Number(element.Attribute(name)!.Value);

    public static double Length(XElement line) => Math.Sqrt(Math.Pow(Of(line, "x2") - Of(line, "x1"), 2) + Math.Pow(Of(line, "y2") - Of(line, "y1"), 2));

    public static (double X, double Y)[] Points(XElement element) =>
        [.. element.Attribute("points")!.Value.Split(' ').Select(p => p.Split(',')).Select(p => (Number(p[0]), Number(p[1])))];

    /// <summary>The scale that the page states.</summary>
    public double Scale
    {
        get
        {
            var said = Stated().Match(Texts.First(t => t.StartsWith("Scale ", StringComparison.Ordinal)));
            return Number(said.Groups[1].Value) / Number(said.Groups[2].Value);
        }
    }

    public static double Number(string text) =>
        double.Parse(text, NumberStyles.AllowLeadingSign | NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture);

    [GeneratedRegex(@"^Scale (\d+):(\d+) if")]
    private static partial Regex Stated();
}
