using Stockseat.Answers.Advising;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Recheck;
using Stockseat.Answers.Tests.Advising;
using Stockseat.Answers.Tests.Support;
using Stockseat.Fixtures.Revisions;
using Stockseat.Seating.Frames;
using Stockseat.Seating.Quantities;

namespace Stockseat.Answers.Tests.Mistakes;

/// <summary>A file that is right, the same file with a mistake, and what whoever adopts it is shown.</summary>
internal sealed class Mistake(RevisionFile right, RevisionFile wrong)
{
    private static readonly (string, string) Judged = ("\"gap\": \"0.5 mm\"", "\"gap\": \"0.5 mm\", \"recheck\": \"0.2 mm\"");

    private readonly BaseStatement _right = BaseStatement.Of(right.Reading.Revision!);

    /// <summary>What the wrong file means in base.</summary>
    public BaseStatement Statement { get; } = BaseStatement.Of(wrong.Reading.Revision!);

    /// <summary>The sentences that the mistake changes.</summary>
    public string[] Sentences => [.. Said(Statement).Except(Said(_right))];

    /// <summary>A mistake in the bed of <see cref="Racks"/>.</summary>
    public static Mistake Of(params (string Old, string New)[] edits) => Between([], edits);

    /// <summary>The same in a bed that differs from it.</summary>
    public static Mistake Between((string Old, string New)[] right, (string Old, string New)[] wrong) =>
        new(Racks.With([Judged, .. right]), Racks.With([Judged, .. wrong]));

    /// <summary>Advice that the right file does not get.</summary>
    public void IsAdvised(string where, string said) => Assert.Contains(
        Findings(wrong).Except(Findings(right)), f => f.Severity == Severity.Advice && f.Where == where && f.Text.Contains(said, StringComparison.Ordinal));

    /// <summary>The figures do not show it, and the statement in words does.</summary>
    public void IsStated(string said) => Assert.Contains(Sentences, s => s.Contains(said, StringComparison.Ordinal));

    /// <summary>The right file is proven by the recipe, and the wrong one is not.</summary>
    public void IsFoundByProving()
    {
        Assert.Null(Proven(right));
        Assert.NotNull(Proven(wrong));
    }

    /// <summary>What ends the recipe; null when the file is proven. The masters are where the right file says.</summary>
    private string? Proven(RevisionFile file)
    {
        var (truth, bench) = (Bench.Serving(right), Bench.Serving(file));
        var layout = file.Reading.Revision!.Layout;
        foreach (var (column, row, master) in new[] { (0, 0, 0.056), (0, 0, 0.069), (layout.Columns - 1, 0, 0.069), (0, layout.Rows - 1, 0.056) })
        {
            RecheckAsk At(double x, double y, double z) => new(Bench.Controller, "pinbed-1")
            {
                By = "day setter", MasterMetres = master, Column = column, Row = row, FoundMetres = new Vector3(x, y, z),
            };
            if (truth.Do(At(0, 0, 0)) is not RecheckBody { Predicted: [var x, var y, var z] })
            {
                return "no such nest";
            }

            if (bench.Do(At(x, y, z)) is not RecheckBody { Passed: true })
            {
                return "missed";
            }
        }

        Assert.Empty(bench.Situation.Find("pinbed-1")!.Unproven);
        return null;
    }

    private static IEnumerable<Finding> Findings(RevisionFile file) =>
        RevisionFindings.Of(file.Reading, null, null, null, LengthUnit.Millimetre, new(new(2026, 11, 30, 8, 0, 0, TimeSpan.Zero), []));

    private static IEnumerable<string> Said(BaseStatement statement) => StatementText.Sentences(statement, LengthUnit.Millimetre);
}
