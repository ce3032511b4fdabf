using Stockseat.Answers.Advising;
using Stockseat.Fixtures.Revisions;
using Stockseat.Seating.Quantities;

namespace Stockseat.Cli.Output;

/// <summary>What a revision means in base, for whoever stands beside the robot.</summary>
internal static class StatementView
{
    public static void Print(Revision revision, LengthUnit unit)
    {
        var statement = BaseStatement.Of(revision);
        Plain.Line("");
        Plain.Line("In the robot's base this means:");
        foreach (var sentence in StatementText.Sentences(statement, unit))
        {
            Plain.Line($"  {char.ToUpperInvariant(sentence[0])}{sentence[1..]}.");
        }

        Plain.Line("  With stock of the taught diameter the centres are here; jog to the far nests and compare:");
        Plain.Table(["nest", "x  y  z in base [mm]", "x  y  z in base [in]"], StatementText.Nests(statement));
    }
}
