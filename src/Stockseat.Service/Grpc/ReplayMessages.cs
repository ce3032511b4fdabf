using System.Globalization;
using Grpc.Core;
using Stockseat.Answers.Reasons;
using Stockseat.Audit.Explaining;
using Stockseat.Audit.Replaying;
using Stockseat.Ledger.Reading;
using Stockseat.Seating.Quantities;
using Stockseat.V1;

namespace Stockseat.Service.Grpc;

/// <summary>The request and the result of a replay, on the wire.</summary>
internal static class ReplayMessages
{
    /// <summary>Replays what was asked for, one range at a time: the other cores are for answers.</summary>
    /// <param name="request">What.</param>
    /// <param name="data">The folder of the ledger.</param>
    /// <param name="unit">The unit of the lengths that the words contain.</param>
    /// <param name="token">Stops it soon.</param>
    public static ReplayResponse Run(ReplayRequest request, string data, LengthUnit unit, CancellationToken token)
    {
        if (request.From < 0 || request.Until < 0 || (request.Until > 0 && request.Until < request.From))
        {
            throw Calls.Malformed(string.Create(CultureInfo.InvariantCulture,
                $"from is {request.From} and until is {request.Until}; two serials, the second not below the first, or 0 were expected"));
        }

        if (!request.HasSerial)
        {
            long? until = request.Until == 0 ? null : request.Until;
            return Response(LedgerReplay.Run(data, new() { From = Math.Max(1, request.From), Until = until, Ranges = 1 }, token));
        }

        if (request.From != 0 || request.Until != 0)
        {
            throw Calls.Malformed("both serial and from or until are stated; one entry or a range was expected");
        }

        if (LedgerReplay.One(data, request.Serial, unit) is not var (result, working))
        {
            using var reader = LedgerReader.Open(data);
            throw Unknown(request.Serial, reader);
        }

        var response = Response(result);
        response.Working.AddRange(working.Sections.Select(Of));
        return response;
    }

    /// <summary>The refusal of a serial that does not exist, with those that do.</summary>
    public static RpcException Unknown(long serial, LedgerReader reader) => new Refusal(
        Reason.SerialUnknown,
        string.Create(CultureInfo.InvariantCulture,
            $"there is no entry {serial}; ask for one from "
            + $"{(serial > 0 && serial < reader.First ? $"{reader.First}, where this ledger begins since it rolled over," : "1")} to {reader.Last}")).ToRpc();

    /// <summary>A result as it is message.</summary>
    public static ReplayResponse Response(ReplayResult r)
    {
        var response = new ReplayResponse
        {
            Agrees = r.Agrees,
            First = r.First,
            Last = r.Last,
            Answers = r.Answers,
            Refusals = r.Refusals,
            Others = r.Others,
            Same = r.Same,
            Within = r.Within,
            Given = r.Given,
            MoreDifferences = r.MoreDifferences,
            Unreadable = r.Unreadable ?? "",
        };
        response.Differences.AddRange(r.Differences.Select(Of));
        return response;
    }

    private static V1.ReplayDifference Of(Audit.Replaying.ReplayDifference d)
    {
        var message = new V1.ReplayDifference { Serial = d.Serial, Kind = d.Kind, Text = d.Text };
        message.Fields.AddRange(d.Fields.Select(f => new V1.FieldDifference { Path = f.Path, Recorded = f.Recorded, Recomputed = f.Recomputed }));
        return message;
    }

    private static V1.WorkingSection Of(Audit.Explaining.WorkingSection section)
    {
        var message = new V1.WorkingSection { Title = section.Title };
        message.Lines.AddRange(section.Lines.Select(Of));
        return message;
    }

    private static V1.WorkingLine Of(Audit.Explaining.WorkingLine line)
    {
        var message = new V1.WorkingLine { Symbol = line.Symbol, Text = line.Text, Formula = line.Formula, Unit = line.Unit };
        message.Values.AddRange(line.Values);
        return message;
    }
}
