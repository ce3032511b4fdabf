using Stockseat.Answers.Advising;
using Stockseat.Fixtures.Revisions;
using Stockseat.Seating.Quantities;
using Stockseat.Sheets.Html;
using Stockseat.Sheets.Numbers;

namespace Stockseat.Sheets.Cards;

/// <summary>What the revision means in base, on a card: sentences, and where the nests are.</summary>
internal static class CardStatement
{
    public static void Write(HtmlWriter html, Revision revision, LengthUnit unit)
    {
        var statement = BaseStatement.Of(revision);
        html.Text("h2", "What the revision means in the robot's base");
        foreach (var sentence in StatementText.Sentences(statement, unit))
        {
            html.Text("p", PrintedNumbers.Printed($"{char.ToUpperInvariant(sentence[0])}{sentence[1..]}."));
        }

        html.Text("p", "With stock of the taught diameter the centres are here; jog to the far nests and compare:");
        html.In("table", "nests", () =>
        {
            html.In("thead", "", () =>
            {
                html.In("tr", "", () =>
                {
                    html.Wide("nest", 1);
                    html.Wide("centre in base, mm", 3, "group first");
                    html.Wide("centre in base, inches", 3, "group first");
                });
                Row(html, "th", "", "x", "y", "z", "x", "y", "z");
            });
            html.In("tbody", "", () =>
            {
                foreach (var n in statement.Nests)
                {
                    var (x, y, z) = n.PositionMetres;
                    string[] Of(LengthUnit u) => [PrintedNumbers.Fixed(x, u), PrintedNumbers.Fixed(y, u), PrintedNumbers.Fixed(z, u)];
                    Row(
                        html, "td",
                        [$"{PrintedNumbers.Whole(n.Column)},{PrintedNumbers.Whole(n.Row)}", .. Of(LengthUnit.Millimetre), .. Of(LengthUnit.Inch)]);
                }
            });
        });
    }

    private static void Row(HtmlWriter html, string element, params string[] cells) => html.In("tr", "", () =>
    {
        for (var i = 0; i < cells.Length; i++)
        {
            html.Text(element, cells[i], i is 1 or 4 ? "first" : "");
        }
    });
}
