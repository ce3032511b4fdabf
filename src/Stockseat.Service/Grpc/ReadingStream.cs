using Grpc.Core;
using Stockseat.Answers.Reasons;
using Stockseat.Service.Answering;
using Stockseat.V1;

namespace Stockseat.Service.Grpc;

/// <summary>The readings of a push.</summary>
/// <param name="Request">The readings, and what belongs to them.</param>
/// <param name="Since">The last entry of the ledger when the first reading came; null: they all came at once.</param>
/// <param name="First">When the first reading came, by the clock's counter; null: they all came at once.</param>
internal sealed record ReadReadings(RecordRequest Request, long? Since, long? First);

/// <summary>Joins a stream of readings into one push.</summary>
/// <param name="answerer">Knows the ledger's last entry.</param>
/// <param name="time">The clock.</param>
internal sealed class ReadingStream(IAnswerer answerer, TimeProvider time)
{
    /// <summary>The time limit for the whole stream, so that a silent gauge does not hold anything for ever.</summary>
    private static readonly TimeSpan Limit = TimeSpan.FromSeconds(60);

    private RecordRequest? _whole;
    private long _since;
    private long _first;

    /// <summary>The fixture that the first message names; empty before.</summary>
    public string Fixture => _whole?.Fixture ?? "";

    /// <summary>Reads it to its end.</summary>
    /// <param name="messages">The stream.</param>
    /// <param name="full">Why it is not accepted, whatever it says; null: it is.</param>
    /// <param name="ask">Counts one more request towards the client's rate; the first message counts as the call's own.</param>
    /// <param name="context">The call; its token is cancelled when the client has gone.</param>
    public async Task<ReadReadings> Read(IAsyncStreamReader<RecordReadingsRequest> messages, Refusal? full, Func<Refusal?> ask, ServerCallContext context)
    {
        var broken = context.CancellationToken;
        using var limit = new CancellationTokenSource(Limit, time);
        using var ends = CancellationTokenSource.CreateLinkedTokenSource(broken, limit.Token);
        try
        {
            while (await Next(messages, context, ends.Token))
            {
                if (_whole is not null && ask() is { } busy)
                {
                    throw busy.ToRpc();
                }

                Add(messages.Current);
                if (full is not null)
                {
                    throw full.ToRpc(); // The fixture is known now.
                }
            }
        }
        catch (OperationCanceledException) when (limit.IsCancellationRequested && !broken.IsCancellationRequested)
        {
            throw new Refusal(
                Reason.RequestMalformed,
                $"the stream of {_whole?.ReadingsMetres.Count ?? 0} readings was not completed within {Limit.TotalSeconds:0} s; "
                + "nothing was recorded: push the readings again, and complete the stream").ToRpc();
        }
        catch (IOException e)
        {
            throw new OperationCanceledException("the stream broke off", e, broken);
        }

        broken.ThrowIfCancellationRequested(); // A stream that broke off can look like one that ended.
        return new(_whole ?? throw Refusal.Of(Reason.DiameterMissing, "the stream has no message with readings_metres").ToRpc(), _since, _first);
    }

    /// <summary>Waits for a message; when the wait ends, no read is left behind that would take the bytes of the next call on the connection.</summary>
    private static async Task<bool> Next(IAsyncStreamReader<RecordReadingsRequest> messages, ServerCallContext context, CancellationToken ends)
    {
        var next = messages.MoveNext(CancellationToken.None); // A token given here would end the call without any reply.
        try
        {
            return await next.WaitAsync(ends);
        }
        catch (OperationCanceledException)
        {
            context.GetHttpContext().Request.BodyReader.CancelPendingRead();
            await ((Task)next).ConfigureAwait(ConfigureAwaitOptions.SuppressThrowing);
            throw;
        }
    }

    private void Add(RecordReadingsRequest message)
    {
        if (message.ReadingsMetres.Count == 0)
        {
            throw Refusal.Of(Reason.DiameterMissing, "a message of the stream has no readings_metres").ToRpc();
        }

        if (_whole is not { } whole)
        {
            (_since, _first) = (answerer.Serial, time.GetTimestamp());
            _whole = whole = new()
            {
                Fixture = message.Fixture, Gauge = message.Gauge, Lot = message.Lot, Tag = message.Tag, RequestId = message.RequestId, Unit = message.Unit,
            };
        }
        else
        {
            Same("fixture", whole.Fixture, message.Fixture);
            Same("gauge", whole.Gauge, message.Gauge);
            Same("lot", whole.Lot, message.Lot);
            Same("tag", whole.Tag, message.Tag);
            Same("request_id", whole.RequestId, message.RequestId);
            Same("unit", whole.Unit, message.Unit);
        }

        whole.ReadingsMetres.AddRange(message.ReadingsMetres);
        if (whole.ReadingsMetres.Count > GaugeGrpc.MostReadings)
        {
            throw Calls.Malformed($"the stream has {whole.ReadingsMetres.Count} readings so far; at most {GaugeGrpc.MostReadings} were expected");
        }
    }

    private static void Same(string field, string first, string later)
    {
        if (later.Length > 0 && later != first)
        {
            throw Calls.Malformed($"{field} of a later message differs from the first message's; empty, or the same again, was expected");
        }
    }
}
