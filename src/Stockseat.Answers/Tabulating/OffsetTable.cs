using Stockseat.Answers.Entries;
using Stockseat.Answers.Positions;
using Stockseat.Answers.Reasons;
using Stockseat.Fixtures.Revisions;
using Stockseat.Seating.Envelopes;

namespace Stockseat.Answers.Tabulating;

/// <summary>
/// The answers of a revision over a range of diameters, made by the code that serves them, so a row can't differ from the answer. A diameter that would be
/// refused has no row.
/// </summary>
public sealed record OffsetTable
{
    private OffsetTable()
    {
    }

    public required Revision Revision { get; init; }

    public required Purpose Purpose { get; init; }

    /// <summary>The nest's column.</summary>
    public required int Column { get; init; }

    /// <summary>The nest's row.</summary>
    public required int Row { get; init; }

    /// <summary>How the diameters are assumed to be measured; null: they are stated.</summary>
    public DiameterFrom? From { get; init; }

    /// <summary>The diameters that the revision holds for the purpose.</summary>
    public required Envelope Envelope { get; init; }

    /// <summary>The rows in the order of their diameters; one or more.</summary>
    public required IReadOnlyList<OffsetRow> Rows { get; init; }

    /// <summary>How many diameters within the range would be refused because their uncertainty is above the limit.</summary>
    public int LeftOut { get; init; }

    /// <summary>Why the first of these would be refused; null when there are none.</summary>
    public Refusal? WhyLeftOut { get; init; }

    /// <summary>Whether U is known: for all rows or for none.</summary>
    public bool IsSure => Rows[0].Sure is not null;

    /// <summary>Whether the table is of the origin, from which all nests of the grid are taken: then it also has U for the worst nest.</summary>
    public bool IsOrigin => (Column, Row) == (0, 0);

    /// <summary>The stand-off of every row, in metres.</summary>
    public double StandOffMetres => Fit.StandOff(Revision, Purpose);

    /// <summary>
    /// How far off one is between two rows, at most, in metres: when the shift of the nearer row is used, and when it is interpolated linearly. Both are
    /// evaluated midway between two rows, where the error is largest.
    /// </summary>
    public (double Nearest, double Line) Between()
    {
        var (nearest, line) = (0.0, 0.0);
        foreach (var (a, b) in Rows.Zip(Rows.Skip(1)))
        {
            if (Positioning.Judge(Revision, (a.DiameterMetres + b.DiameterMetres) / 2, Purpose, From, Column, Row, out var midway) is not null)
            {
                continue; // Such a diameter would be refused, so there is no answer to compare with.
            }

            var shift = midway.Correction.ShiftBase;
            nearest = Math.Max(nearest, Math.Max((shift - a.ShiftBase).Length, (shift - b.ShiftBase).Length));
            line = Math.Max(line, (shift - (0.5 * (a.ShiftBase + b.ShiftBase))).Length);
        }

        return (nearest, line);
    }

    /// <summary>Makes a table.</summary>
    /// <param name="revision">The revision.</param>
    /// <param name="purpose">The purpose for which the stock is asked for.</param>
    /// <param name="nest">The nest: column, row.</param>
    /// <param name="from">How diameters are measured; null: they are stated.</param>
    /// <param name="steps">The diameters of the rows.</param>
    /// <param name="refusal">Why no diameter would be answered; null when the fault is in the steps.</param>
    /// <param name="fault">What is wrong with the steps.</param>
    /// <returns>The table; null when there is none.</returns>
    public static OffsetTable? Of(
        Revision revision, Purpose purpose, (int Column, int Row) nest, DiameterFrom? from, TableSteps steps, out Refusal? refusal, out string fault)
    {
        fault = "";
        refusal = Positioning.NoNest(revision, nest.Column, nest.Row);
        var envelopes = revision.Envelopes();
        if (refusal is not null || (purpose == Purpose.Pick ? envelopes.Pick : envelopes.Place) is not { } envelope)
        {
            refusal ??= Fit.Judge(revision, revision.TaughtDiameterMetres, purpose, out _);
            return null;
        }

        if (steps.Diameters(envelope, revision.TaughtDiameterMetres, out fault) is not { } diameters)
        {
            return null;
        }

        if (diameters.Count == 0)
        {
            // The whole range is beyond one end of the envelope: the end of the range that is nearer to it says which one.
            refusal = Fit.Judge(revision, steps.FromMetres > envelope.Greatest.DiameterMetres ? steps.FromMetres.Value : steps.ToMetres ?? 0, purpose, out _);
            fault = refusal is null ? "the range is shorter than 1 um; state a longer one" : "";
            return null;
        }

        var table = new OffsetTable
        {
            Revision = revision,
            Purpose = purpose,
            Column = nest.Column,
            Row = nest.Row,
            From = from,
            Envelope = envelope,
            Rows = [],
        }.With(diameters);
        refusal = table.Rows.Count == 0 ? table.WhyLeftOut : null;
        return refusal is null ? table : null;
    }

    /// <summary>What an ask for a stated diameter at nest 0,0 would get; null when it would be refused.</summary>
    /// <param name="revision">The revision.</param>
    /// <param name="purpose">The purpose.</param>
    /// <param name="diameterMetres">The diameter, in metres, above 0.</param>
    /// <param name="refusal">Why it would be refused.</param>
    public static OffsetRow? One(Revision revision, Purpose purpose, double diameterMetres, out Refusal? refusal)
    {
        refusal = Positioning.Judge(revision, diameterMetres, purpose, null, 0, 0, out var found);
        return refusal is null ? new(diameterMetres, 0, found.Correction.ShiftBase, found.Correction.Pose.PositionMetres, found.Sure) : null;
    }

    private OffsetTable With(IReadOnlyList<double> diameters)
    {
        var (rows, leftOut) = (new List<OffsetRow>(), new List<Refusal>());
        var (least, greatest) = new TableSteps().Ends(Envelope);
        foreach (var diameter in diameters)
        {
            if (Positioning.Judge(Revision, diameter, Purpose, From, Column, Row, out var found) is { } refused)
            {
                leftOut.Add(refused);
                continue;
            }

            var marks = (diameter == Revision.TaughtDiameterMetres ? RowMarks.Taught : 0)
                | (diameter == least ? RowMarks.Least : 0) | (diameter == greatest ? RowMarks.Greatest : 0);
            rows.Add(new(diameter, marks, found.Correction.ShiftBase, found.Correction.Pose.PositionMetres, found.Sure));
        }

        return this with { Rows = rows, LeftOut = leftOut.Count, WhyLeftOut = leftOut.FirstOrDefault() };
    }
}
