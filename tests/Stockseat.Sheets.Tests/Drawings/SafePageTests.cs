using System.Xml.Linq;
using Stockseat.Audit.Showing;
using Stockseat.Fixtures.Revisions;
using Stockseat.Sheets.Drawings;

namespace Stockseat.Sheets.Tests.Drawings;

/// <summary>A page contains nothing but lines and words, and all of it is on the paper.</summary>
public sealed class SafePageTests
{
    private static readonly string[] Elements = ["svg", "title", "rect", "g", "line", "circle", "polygon", "polyline", "text"];

    private static readonly string[] Attributes =
    [
        "xmlns", "width", "height", "viewBox", "font-family", "x", "y", "fill", "stroke", "stroke-width", "stroke-dasharray", "stroke-linejoin", "paint-order",
        "class",
        "x1", "y1", "x2", "y2", "cx", "cy", "r", "points", "font-size", "text-anchor", "font-weight",
    ];

    public static TheoryData<string> Demo => Repository.DemoRows;

    public static TheoryData<string> Odd => Plans.Odd;

    [Theory]
    [MemberData(nameof(Demo))]
    public void A_page_of_the_demo_is_plain_and_on_the_paper(string file)
    {
        var revision = Plans.Demo(file);
        var page = new Page(FixtureSheet.Draw(revision, "pick", Plans.Drawn(revision), PaperSize.A4));

        Assert.Equal((210, 297), (page.Width, page.Height));
        IsPlain(page);
        IsOnThePaper(page);
        Assert.Contains(
            page.Texts, t => t.Contains(revision.Digest[..12], StringComparison.Ordinal) && t.Contains(revision.Calibrated.At, StringComparison.Ordinal));
        Assert.Contains(page.Texts, t => t.StartsWith("VOID AFTER ANY ADOPTION", StringComparison.Ordinal));
        Assert.Contains("not a safety function", string.Join(' ', page.Texts), StringComparison.Ordinal);
        Assert.Contains("never to an origin that was already shifted", string.Join(' ', page.Texts), StringComparison.Ordinal);
        Assert.EndsWith("Local codes and licensed practice come first.", string.Join(' ', page.Texts), StringComparison.Ordinal);
        Assert.Contains($"{revision.Fixture}, revision {revision.Number}", page.Texts);
    }

    [Theory]
    [MemberData(nameof(Odd))]
    public void Odd_plans_are_plain_and_on_the_paper(string odd)
    {
        var (drawn, revision) = (Plans.Drawn(odd), Plans.Demo("pinbed-1/r0003.json"));
        foreach (var text in new[]
        {
            FixtureSheet.Draw(revision, "place", drawn, PaperSize.A4), PlanDrawing.Draw(drawn), PlanDrawing.Draw(drawn, 100, 100), GapDiagram.Draw(drawn),
            GapDiagram.Draw(drawn, 100, 60),
        })
        {
            var page = new Page(text);
            IsPlain(page);
            IsOnThePaper(page);
            Assert.True(page.Root.Descendants().Count() < 6000, "a page that a printer takes");
        }

        if (Environment.GetEnvironmentVariable("STOCKSEAT_DRAWINGS") is { Length: > 0 } folder)
        {
            File.WriteAllText(Path.Combine(folder, $"{odd.Replace(' ', '-')}.svg"), FixtureSheet.Draw(revision, "place", drawn, PaperSize.A4));
        }
    }

    [Fact]
    public void Foreign_text_stays_text()
    {
        const string Nasty = "<script>alert(1)</script> & \"quoted\" 'so' ]]> &amp; \u0001 \u007f \u202e \u2028 \ud800 \uffff";
        var good = Plans.Demo("pinbed-1/r0003.json");
        var revision = With(good, good.Calibrated with { By = "<b>", Note = Nasty, Method = "" });

        var page = new Page(FixtureSheet.Draw(revision, "pick", Plans.Drawn(good), PaperSize.A4));

        IsPlain(page);
        IsOnThePaper(page);
        Assert.Contains(page.Texts, t => t.Contains("<script>alert(1)</script> & \"quoted\" 'so' ]]> &amp; ? ? ? ? \ufffd ?", StringComparison.Ordinal));
        Assert.Contains(page.Texts, t => t.EndsWith("by <b>", StringComparison.Ordinal));
    }

    [Fact]
    public void Long_words_are_cut_off_at_the_margin()
    {
        var good = Plans.Demo("pinbed-1/r0003.json");
        var revision = With(good, good.Calibrated with { By = new('W', 400), Note = new('m', 400) }, new('w', 63));

        var page = new Page(FixtureSheet.Draw(revision, "pick", Plans.Drawn(good), PaperSize.A4));

        IsOnThePaper(page);
        Assert.Equal(2, page.Texts.Count(t => t.EndsWith('…')));
    }

    internal static void IsPlain(Page page)
    {
        foreach (var element in page.Root.DescendantsAndSelf())
        {
            Assert.Contains(element.Name.LocalName, Elements);
            Assert.Equal("http://www.w3.org/2000/svg", element.Name.NamespaceName);
            foreach (var attribute in element.Attributes())
            {
                Assert.Contains(attribute.Name.ToString(), Attributes);
                Assert.DoesNotContain("url", attribute.Value, StringComparison.Ordinal);
                Assert.True(
                    attribute.Name.LocalName is not ("fill" or "stroke") || attribute.Value is "none" or "#000" or "#fff" or "#ddd",
                    $"unexpected colour: {attribute}");
            }
        }
    }

    internal static void IsOnThePaper(Page page)
    {
        foreach (var element in page.Root.Descendants())
        {
            foreach (var (x, y) in Ends(element, page))
            {
                Assert.True(x >= -1e-3 && x <= page.Width + 1e-3 && y >= -1e-3 && y <= page.Height + 1e-3, $"({x}, {y}) is outside the paper: {element}");
            }
        }
    }

    /// <summary>
    /// The part of an element that has to be on the paper: all of it, except for circles and boxes in a window, which cuts them off.
    /// </summary>
    private static IEnumerable<(double X, double Y)> Ends(XElement e, Page page)
    {
        var cut = e.Ancestors().Any(a => a.Name.LocalName == "svg" && a != page.Root);
        double Of(string name) => Page.Of(e, name);
        return e.Name.LocalName switch
        {
            "line" => [(Of("x1"), Of("y1")), (Of("x2"), Of("y2"))],
            "rect" or "svg" => [(Of("x"), Of("y")), (Of("x") + Of("width"), Of("y") + Of("height"))],
            "circle" when !cut => [(Of("cx") - Of("r"), Of("cy") - Of("r")), (Of("cx") + Of("r"), Of("cy") + Of("r"))],
            "polygon" or "polyline" when !cut => Page.Points(e),
            "text" => Text(e),
            _ => [],
        };
    }

    /// <summary>An element's extent, estimated low: the letters of a narrow font are half as wide as they are high.</summary>
    private static (double X, double Y)[] Text(XElement e)
    {
        var (x, y, size) = (Page.Of(e, "x"), Page.Of(e, "y"), Page.Of(e, "font-size"));
        var width = 0.5 * size * e.Value.Length;
        var from = e.Attribute("text-anchor")?.Value switch { "middle" => x - (width / 2), "end" => x - width, _ => x };
        return [(from, y - (0.8 * size)), (from + width, y)];
    }

    private static Revision With(Revision r, CalibrationNote calibrated, string? fixture = null) => new()
    {
        Fixture = fixture ?? r.Fixture, Number = r.Number, Digest = r.Digest, Content = r.Content, Calibrated = calibrated, Nest = r.Nest, Layout = r.Layout,
        TaughtDiameterMetres = r.TaughtDiameterMetres, TaughtOrigin = r.TaughtOrigin, Frame = r.Frame, Limits = r.Limits, TaughtSeat = r.TaughtSeat,
        Around = r.Around,
    };
}
