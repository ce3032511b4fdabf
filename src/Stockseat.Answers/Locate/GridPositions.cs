using System.Security.Cryptography;
using System.Text;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Positions;
using Stockseat.Fixtures.Revisions;
using Stockseat.Seating.Frames;

namespace Stockseat.Answers.Locate;

/// <summary>The positions of all nests, each by the code that answers for one nest.</summary>
public static class GridPositions
{
    /// <summary>The decimals, in metres, that the digest covers.</summary>
    private const int Decimals = 9;

    /// <summary>The positions in base, in metres, row by row.</summary>
    /// <param name="revision">The revision of the answer.</param>
    /// <param name="grid">The answer.</param>
    public static IEnumerable<(int Column, int Row, double[] Position)> Of(Revision revision, ServedBody grid)
    {
        if (Fit.Place(revision, grid.Diameter, grid.StandOff) is not { } placed)
        {
            yield break;
        }

        var alongNormal = grid.Length is { } length ? revision.Grip?.Shift(length) : null;
        for (var row = 0; row < revision.Layout.Rows; row++)
        {
            for (var column = 0; column < revision.Layout.Columns; column++)
            {
                var offset = revision.Layout.OffsetBase(revision.Frame, column, row);
                var correction = Correction.Of(revision.TaughtOrigin, revision.Frame, offset, placed.ShiftPlan, alongNormal);
                yield return (column, row, Vectors.Three(correction.Pose.PositionMetres));
            }
        }
    }

    /// <summary>The positions as a digest covers them: a line "column,row x y z" of each nest, to a nanometre, ended by LF.</summary>
    internal static string DigestOf(Revision revision, ServedBody grid)
    {
        using var hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
        foreach (var (column, row, p) in Of(revision, grid))
        {
            hash.AppendData(Encoding.ASCII.GetBytes(FormattableString.Invariant(
                $"{column},{row} {FixedPoint.Text(p[0], Decimals)} {FixedPoint.Text(p[1], Decimals)} {FixedPoint.Text(p[2], Decimals)}\n")));
        }

        return Convert.ToHexStringLower(hash.GetHashAndReset());
    }
}
