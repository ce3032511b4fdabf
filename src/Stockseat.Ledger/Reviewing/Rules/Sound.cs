using Stockseat.Answers.Reasons;
using Stockseat.Answers.Records;

namespace Stockseat.Ledger.Reviewing.Rules;

/// <summary>
/// Whether a body holds what the service would have written: a rule may index its numbers. A forged one is left to the rules of the record, and must not keep the
/// others from telling what they find.
/// </summary>
internal static class Sound
{
    /// <summary>Far beyond any robot, in metres, and far below where a number can't be written with its decimals.</summary>
    private const double Farthest = 1000;

    /// <summary>The most decimals, with the power of ten of the unit, that a number read back can be compared at.</summary>
    private const int MostDigits = 15;

    /// <summary>The review with such bodies only.</summary>
    public static Review Only(Review review) => review with
    {
        Entries = [.. review.Entries.Select(e => e with { Body = Or(e.Body) })],
        Adoptions = [.. review.Adoptions.Where(Is)],
        Fixtures = [.. review.Fixtures.Select(f => f with { LastAnswer = Or(f.LastAnswer), Measurement = Or(f.Measurement), Missed = Or(f.Missed), Emptied = Or(f.Emptied) })],
        Answers =
        [
            .. review.Answers.Where(a => Is(a.Answer)).Select(a => a with
            {
                Measurement = Or(a.Measurement),
                Before = Or(a.Before),
                Between = a.Between is null ? null : [.. a.Between.Where(Is)],
                Misread = [.. a.Misread.Where(Is)],
            }),
        ],
    };

    public static bool Is(EntryBody body) => body.At is not null && EntryTime.TryParse(body.At, out _) && body switch
    {
        AnswerBody a => a is { Fixture: not null, Digest.Length: 64, Purpose: not null, Nest.Length: 2, Orientation.Length: 4, Decimals: >= 0 }
            && Are(a.Position, 3) && Are(a.ShiftBase, 3) && Are(a.ShiftOrigin, 3) && Math.Abs(a.Diameter) < Farthest
            && (a.Unit is null || ServedUnits.Find(a.Unit) is not null) && a.Decimals + (int)a.ServedIn <= MostDigits,
        RecheckBody r => r is { Nest.Length: 2, Miss: not null } && Are(r.MissBase, 3),
        RefusalBody r => r is { Asked: not null, Reason: not null, Text: not null } && (r.Number != (int)Reason.ReadingsDisagree || r.Readings is { Count: > 0 }),
        MeasurementBody m => Math.Abs(m.Diameter) < Farthest && m.Readings is not null,
        RevisionAdoptedBody r => r is { Fixture: not null, Digest.Length: 64 } && r.Content.ValueKind == System.Text.Json.JsonValueKind.Object,
        _ => true,
    };

    private static T? Or<T>(T? body)
        where T : EntryBody => body is not null && Is(body) ? body : null;

    private static bool Are(double[]? metres, int count) => metres?.Length == count && metres.All(m => Math.Abs(m) < Farthest);
}
