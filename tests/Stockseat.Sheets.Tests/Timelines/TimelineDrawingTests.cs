using System.Globalization;
using System.Xml.Linq;
using Stockseat.Sheets.Timelines;

namespace Stockseat.Sheets.Tests.Timelines;

public class TimelineDrawingTests
{
    private static readonly DateTimeOffset Instant = new(2026, 3, 12, 14, 0, 0, TimeSpan.FromHours(1));

    private static readonly TimelineRow[] Rows =
        [new(0, "measured", MarkShape.Disc), new(1, "answered", MarkShape.Triangle), new(2, "refused", MarkShape.Cross)];

    [Fact]
    public void CrowdedLabels_AreApart_AndNoLineCrossesOne()
    {
        var page = Draw([.. Enumerable.Range(0, 40).Select(i => Mark(i % 3, (i * 7) - 240, $"[1] answer {1000 + i}", 100 - i))]);

        var labels = Labels(page);
        Assert.InRange(labels.Count, 5, 39);
        foreach (var (a, i) in labels.Select((l, i) => (l, i)))
        {
            Assert.All(labels.Skip(i + 1), b => Assert.True(a.Y != b.Y || a.To < b.From || b.To < a.From, $"{a.Text} covers {b.Text}"));
            Assert.All(Lines(page), l => Assert.False(l.X > a.From && l.X < a.To && l.Top < a.Y && l.Bottom > a.Y, $"a line crosses {a.Text}"));
        }
    }

    [Fact]
    public void TheMostImportantLabel_IsThere()
    {
        var page = Draw([.. Enumerable.Range(0, 60).Select(i => Mark(1, i - 59, $"answer {1000 + i}", i == 30 ? 9 : 1))]);

        Assert.Contains(Labels(page), l => l.Text == "answer 1030");
    }

    [Fact]
    public void ALabelWithoutRoom_IsShortened()
    {
        var page = Draw([Mark(1, 60, "a label that is much too long for what is left after the instant") with { Short = "[1]" }]);

        Assert.Equal("[1]", Assert.Single(Labels(page)).Text);
    }

    [Fact]
    public void ThreeHundredMarks_AreCountedInGroupsThatDoNotOverlap()
    {
        var page = Draw([.. Enumerable.Range(0, 300).Select(i => Mark(1, (i * 2.4) - 600))]);

        var marks = Group(page, "marks").Elements("polygon").Select(p => p.Attribute("points")!.Value.Split(' ')[0].Split(',')[0]).Select(Number).Order()
            .ToList();
        Assert.Equal(300, Group(page, "marks").Elements("text").Sum(t => int.Parse(t.Value, CultureInfo.InvariantCulture)));
        Assert.All(marks.Zip(marks.Skip(1)), pair => Assert.True(pair.Second - pair.First >= 2.2, $"marks at {pair.First} and {pair.Second} mm"));
    }

    [Fact]
    public void AGroup_NeverCrossesTheInstant()
    {
        var page = Draw([Mark(1, -1), Mark(1, 1), Mark(1, 2)]);

        var instant = Number(Group(page, "instant").Element("line")!.Attribute("x1")!.Value);
        var marks = Group(page, "marks").Elements("polygon").Select(p => Number(p.Attribute("points")!.Value.Split(' ')[0].Split(',')[0])).Order().ToList();
        Assert.Equal(2, marks.Count);
        Assert.True(marks[0] < instant - 1 && marks[1] > instant + 1, $"{marks[0]}, {instant}, {marks[1]}");
        Assert.Equal("2", Assert.Single(Group(page, "marks").Elements("text")).Value);
    }

    [Fact]
    public void AClockSetBack_BreaksTheTimeline_AndATimeAppearsTwice()
    {
        var parts = new TimelinePart[]
        {
            new(Instant.AddMinutes(-10), Instant, true, ""), new(Instant.AddMinutes(-6), Instant.AddMinutes(2), true, "clock set back by 6 min"),
        };
        var page = Draw([Mark(0, -60), Mark(0, -60) with { Part = 1 }], parts);

        Assert.Equal(2, Group(page, "breaks").Elements("polyline").Count());
        Assert.Equal(2, Group(page, "instant").Elements("text").Count());
        Assert.Contains(Labels(page), l => l.Text == "clock set back by 6 min");
        Assert.Equal(2, Group(page, "times").Elements("text").Count(t => t.Value == "13:55"));
    }

    [Fact]
    public void EveryRow_ShowsItsOwnShapeAndWhatItMeans()
    {
        var shapes = Enum.GetValues<MarkShape>();
        var page = Draw([], null, [.. shapes.Select((s, i) => new TimelineRow(i, $"row {s}", s))]);

        var texts = Group(page, "lanes").Elements("text").Select(t => t.Value).ToList();
        Assert.All(shapes, s => Assert.Contains($"row {s}", texts));
    }

    [Fact]
    public void NoTwoShapes_LookTheSame()
    {
        // Each is drawn in the same place, without filling: what is left is the outline alone.
        var drawn = Enum.GetValues<MarkShape>().Select(s =>
        {
            var lanes = Group(Draw([], null, [new(0, "", s)]), "lanes");
            return string.Concat(
                lanes.Elements().SkipWhile(e => e.Name.LocalName == "line").TakeWhile(e => e.Name.LocalName != "text" || e.Value == "?")
                    .Select(e => e.ToString()));
        }).ToList();

        Assert.Equal(drawn.Count, drawn.Distinct().Count());
    }

    [Fact]
    public void WithoutMarks_TheLanesAndTheInstantAreThere()
    {
        var page = Draw([]);

        Assert.Empty(Group(page, "marks").Elements());
        Assert.Equal("the instant 14:00:00", Group(page, "instant").Element("text")!.Value);
    }

    [Fact]
    public void ADrawing_HasADescriptionForThoseWhoCannotSeeIt()
    {
        var page = Draw([]);

        Assert.Equal("img", page.Attribute("role")!.Value);
        Assert.Equal("t-title t-desc", page.Attribute("aria-labelledby")!.Value);
        Assert.Equal(("A <title>", "It shows & tells"), (page.Element("title")!.Value, page.Element("desc")!.Value));
    }

    private static TimelineMark Mark(int row, double seconds, string label = "", int weight = 0) =>
        new(row, 0, Instant.AddSeconds(seconds), label, Weight: weight, IsRinged: label.Length > 0);

    private static XElement Draw(TimelineMark[] marks, TimelinePart[]? parts = null, TimelineRow[]? rows = null) => XElement.Parse(TimelineDrawing.Draw(
        new() { Parts = parts ?? [new(Instant.AddMinutes(-10), Instant.AddMinutes(2), true, "")], Rows = rows ?? Rows, Marks = marks, Instant = Instant },
        new("t", "A <title>", "It shows & tells")));

    private static XElement Group(XElement page, string name) => page.Elements("g").Single(g => g.Attribute("class")!.Value == name);

    /// <summary>The labels with the room that they take in a wide font.</summary>
    private static List<(string Text, double From, double To, double Y)> Labels(XElement page) =>
        [
            .. Group(page, "labels").Elements("text").Select(
                t => (
                    t.Value, Number(t.Attribute("x")!.Value), Number(t.Attribute("x")!.Value) + (0.62 * 2.8 * t.Value.Length),
                    Number(t.Attribute("y")!.Value))),
        ];

    private static IEnumerable<(double X, double Top, double Bottom)> Lines(XElement page) =>
        Group(page, "labels").Elements("line").Concat(Group(page, "instant").Elements("line"))
        .Select(l => (Number(l.Attribute("x1")!.Value), Number(l.Attribute("y1")!.Value), Number(l.Attribute("y2")!.Value)));

    private static double Number(string text) => double.Parse(text, CultureInfo.InvariantCulture);
}
