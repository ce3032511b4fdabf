using System.Globalization;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Reasons;
using Stockseat.Answers.State;
using Stockseat.Audit.Reviewing;
using Stockseat.Audit.Reviewing.Results;
using Stockseat.Audit.Showing;
using Stockseat.Fixtures.Revisions;
using Stockseat.Ledger.Reading;
using Stockseat.Ledger.Verifying;
using Stockseat.V1;

namespace Stockseat.Service.Grpc;

/// <summary>The request and the result of a review, on the wire.</summary>
internal static class ReviewMessages
{
    /// <summary>No window is longer, in seconds: more than eleven days.</summary>
    private const double Longest = 1_000_000;

    /// <summary>Makes the review that was asked for.</summary>
    /// <param name="request">Which minutes.</param>
    /// <param name="data">The folder of the ledger.</param>
    /// <param name="display">The unit and the zone of its words.</param>
    /// <param name="plant">Why the plant store has something else than the ledger; null: it does not.</param>
    /// <param name="token">Stops it soon.</param>
    public static ReviewResponse Run(ReviewRequest request, string data, Display display, string? plant, CancellationToken token)
    {
        var (question, options) = (Question(request), request.Verify is { } verify ? VerifyMessages.Options(verify) : null);
        if (LedgerReview.Of(data, question, options is null ? null : () => LedgerVerifier.Verify(data, options, token), display, token, plant) is { } review)
        {
            return Response(review);
        }

        using var reader = LedgerReader.Open(data);
        throw ReplayMessages.Unknown(request.Serial, reader);
    }

    private static ReviewQuestion Question(ReviewRequest request)
    {
        if (request.HasSerial == (request.At.Length > 0))
        {
            throw Calls.Malformed("either at or serial was expected");
        }

        var at = default(DateTimeOffset);
        if (!request.HasSerial && InstantText.Read(request.At, zone: null, out at) is { } fault)
        {
            throw Calls.Malformed($"at is '{Refusal.Shown(request.At)}', which {fault}");
        }

        return new()
        {
            At = request.HasSerial ? null : at,
            Serial = request.HasSerial ? request.Serial : null,
            Before = request.HasBeforeSeconds ? Seconds("before_seconds", request.BeforeSeconds) : ReviewQuestion.UsualBefore,
            After = request.HasAfterSeconds ? Seconds("after_seconds", request.AfterSeconds) : ReviewQuestion.UsualAfter,
            Fixture = request.Fixture.Length == 0 ? null : Calls.Fixture(request.Fixture),
            Cell = request.Cell.Length == 0 ? null : request.Cell,
            JumpMetres = request.HasJumpMetres ? Jump(request.JumpMetres) : ReviewQuestion.UsualJumpMetres,
        };
    }

    private static TimeSpan Seconds(string field, double seconds) => seconds is >= 0 and <= Longest
        ? TimeSpan.FromSeconds(seconds)
        : throw Calls.Malformed(string.Create(CultureInfo.InvariantCulture, $"{field} is {seconds}; 0 to {Longest} was expected"));

    private static double Jump(double metres) => metres is > 0 and <= 1
        ? metres
        : throw Calls.Malformed(string.Create(CultureInfo.InvariantCulture, $"jump_metres is {metres}; above 0 and up to 1 was expected"));

    private static ReviewResponse Response(Review review)
    {
        var response = new ReviewResponse
        {
            Ledger = review.Ledger ?? "", HeadSerial = review.HeadSerial, HeadHash = review.HeadHash,
            At = EntryTime.Text(review.At), From = EntryTime.Text(review.From), To = EntryTime.Text(review.To), Then = review.Then, LeftOut = review.LeftOut,
            ChainFault = review.Evidence.ChainFault ?? "", PlantFault = review.Evidence.Plant ?? "", Replay = ReplayMessages.Response(review.Evidence.Replay),
            Whole = review.Evidence.Whole is { } whole ? VerifyMessages.Response(whole) : null,
        };
        response.Entries.AddRange(review.Entries.Select(e => EntryMessages.Of(e.Row)));
        response.Older.AddRange(review.Older.Select(e => EntryMessages.Of(e.Row)));
        response.Adoptions.AddRange(review.Adoptions.Select(a => a.Serial));
        response.Fixtures.AddRange(review.Fixtures.Select(Of));
        response.Answers.AddRange(review.Answers.Select(Of));
        response.Findings.AddRange(review.Findings.Select(Of));
        response.Summary.AddRange(review.Summary);
        response.Headlines.AddRange(review.Headlines.Select(Of));
        response.Changes.AddRange(review.Changes.Select(Of));
        return response;
    }

    private static V1.FixtureThen Of(Audit.Reviewing.Results.FixtureThen f)
    {
        var message = new V1.FixtureThen
        {
            Fixture = f.Fixture, Adopted = f.Adopted?.Serial ?? 0, Measurement = f.Measurement?.Serial ?? 0, NoMeasurement = f.NoMeasurement ?? "",
            Missed = f.Missed?.Serial ?? 0, LastAnswer = f.LastAnswer?.Serial ?? 0, Emptied = f.Emptied?.Serial ?? 0, LastConfirmedBy = f.LastConfirmedBy ?? 0,
            Load = f.Load ?? "",
        };
        message.Holds.AddRange(f.Holds.Select(EntryMessages.Of));
        message.Unproven.AddRange(f.Unproven.Select(RecheckCalls.Of));
        return message;
    }

    private static V1.ServedAnswer Of(Audit.Reviewing.Results.ServedAnswer a)
    {
        var message = new V1.ServedAnswer
        {
            Serial = a.Answer.Serial, Measurement = a.Answer.Measurement ?? 0, Before = a.Before?.Serial ?? 0, ConfirmedBy = a.ConfirmedBy ?? 0,
        };
        message.ChangeMetres.AddRange(a.Change ?? []);
        message.Between.AddRange((a.Between ?? []).Select(b => b.Serial));
        message.Misread.AddRange(a.Misread.Select(m => m.Serial));
        if (a.Follows is { } follows)
        {
            message.Follows = follows;
        }

        return message;
    }

    private static V1.ReviewFinding Of(Audit.Reviewing.Results.ReviewFinding f)
    {
        var message = new V1.ReviewFinding
        {
            Rule = f.Rule.Name(), Fixture = f.Fixture ?? "", What = f.What, Why = f.Why, Next = f.Next, BelowResolution = f.BelowResolution,
            OnLastAnswer = f.OnLastAnswer,
        };
        message.Serials.AddRange(f.Serials);
        if (f.MovedMetres is { } moved)
        {
            message.MovedMetres = moved;
        }

        return message;
    }

    private static V1.ReviewHeadline Of(Audit.Reviewing.Results.ReviewHeadline h) =>
        new() { Fixture = h.Fixture, Text = h.Text, Before = Of(h.Before), After = Of(h.After) };

    private static V1.StockAnswered? Of(Audit.Reviewing.Results.StockAnswered? s) =>
        s is null ? null : new() { Answer = s.Serial, Lot = s.Lot ?? "", DiameterMetres = s.DiameterMetres, Revision = s.Revision ?? 0 };

    private static V1.AdoptionChanges Of(Audit.Reviewing.Results.AdoptionChanges a)
    {
        var message = new V1.AdoptionChanges { Serial = a.Serial, Fixture = a.Fixture, RevisionBefore = a.Before, RevisionAfter = a.After };
        message.Values.AddRange(a.Changes.Select(Of));
        return message;
    }

    private static ChangedValue Of(RevisionChange c)
    {
        var value = new ChangedValue { Key = c.Key, Unit = c.Unit ?? "" };
        if (c.Before is { } before)
        {
            value.Before = before;
        }

        if (c.After is { } after)
        {
            value.After = after;
        }

        return value;
    }
}
