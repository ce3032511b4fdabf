using System.Globalization;
using Stockseat.Answers.Asking;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Reasons;
using Stockseat.Answers.Recheck;
using Stockseat.Answers.State;
using Stockseat.Ledger.Reading;
using Stockseat.Seating.Frames;
using Stockseat.V1;
using PlanMiss = Stockseat.V1.PlanMiss;
using Range = Stockseat.Fixtures.Reading.Range;

namespace Stockseat.Service.Grpc;

/// <summary>Rechecks in calls and in replies.</summary>
internal static class RecheckCalls
{
    /// <summary>The ask of a call.</summary>
    public static RecheckAsk Read(RecheckRequest request, Caller caller) => new(caller, Calls.Fixture(request.Fixture))
    {
        By = Calls.Said("by", request.By),
        Note = Calls.Note("note", request.Note),
        MasterMetres = Calls.Diameter("master_metres", request.MasterMetres),
        WithinMetres = request.HasMasterWithinMetres ? Calls.Diameter("master_within_metres", request.MasterWithinMetres) : null,
        Column = request.Column,
        Row = request.Row,
        FoundMetres = request.FoundMetres is { } found
            ? new Vector3(Place("x", found.X), Place("y", found.Y), Place("z", found.Z))
            : throw Refusal.Of(Reason.KeyMissing, "found_metres is missing").ToRpc(),
    };

    /// <summary>A recheck that is lacking.</summary>
    public static LackingRecheck Of(Proof.Lack lack)
    {
        var message = new LackingRecheck { Column = lack.Column, Row = lack.Row };
        if (lack.AtMostMetres is { } atMost)
        {
            message.AtMostMetres = atMost;
        }

        if (lack.AtLeastMetres is { } atLeast)
        {
            message.AtLeastMetres = atLeast;
        }

        return message;
    }

    /// <summary>A page of a fixture's rechecks.</summary>
    /// <param name="request">Which page.</param>
    /// <param name="fixture">The fixture.</param>
    /// <param name="data">The folder of the ledger.</param>
    public static ListRechecksResponse List(ListRechecksRequest request, string fixture, string data)
    {
        var size = Paging.Size(request.PageSize);
        var below = Paging.Start(request.PageToken, long.MaxValue);
        using var reader = LedgerReader.Open(data);
        var rows = reader.Rechecks(fixture, below, size + 1);
        var response = new ListRechecksResponse { NextPageToken = rows.Count > size ? Paging.Token(rows[1].Serial) : "" };
        response.Rechecks.AddRange(rows.TakeLast(size).Select(r => r.TryReadBody()).OfType<RecheckBody>().Select(Of));
        return response;
    }

    /// <summary>A recheck for a reply.</summary>
    public static Recheck Of(RecheckBody body)
    {
        var recheck = new Recheck
        {
            Serial = body.Serial,
            At = body.At,
            Fixture = body.Fixture,
            Revision = body.Revision!.Value,
            Digest = body.Digest,
            By = body.By,
            Note = body.Note ?? "",
            MasterMetres = body.Master,
            Column = body.Nest[0],
            Row = body.Nest[1],
            PredictedMetres = LookupGrpc.Vector(body.Predicted),
            FoundMetres = LookupGrpc.Vector(body.Found),
            MissBaseMetres = LookupGrpc.Vector(body.MissBase),
            Miss = new PlanMiss { AlongMetres = body.Miss.Along, AcrossMetres = body.Miss.Across, OutOfPlanMetres = body.Miss.OutOfPlan },
            Expected = body.Expected is { } u ? new() { AlongMetres = u.Along, AcrossMetres = u.Across } : null,
            Verdict = body.Passed switch { true => RecheckVerdict.Passed, false => RecheckVerdict.Missed, null => RecheckVerdict.NotJudged },
            RefusesAsks = body.Refuses,
        };
        if (body.MasterWithin is { } within)
        {
            recheck.MasterWithinMetres = within;
        }

        if (body.Limit is { } limit)
        {
            recheck.LimitMetres = limit;
        }

        return recheck;
    }

    private static double Place(string axis, double metres) => Range.Place.Holds(metres)
        ? metres
        : throw Calls.Malformed(string.Create(CultureInfo.InvariantCulture, $"found_metres.{axis} is {metres:R}; {Range.Place.Text("m")} was expected"));
}
