using Grpc.Core;
using Stockseat.Answers.Reasons;
using Stockseat.V1;

namespace Stockseat.Service.Grpc;

/// <summary>Takes a stream of readings together to one push.</summary>
internal static class ReadingStream
{
    /// <summary>For the whole stream: a gauge that fell silent holds nothing for ever.</summary>
    private static readonly TimeSpan Limit = TimeSpan.FromSeconds(60);

    /// <summary>Reads it to its end.</summary>
    /// <param name="messages">The stream.</param>
    /// <param name="ask">Asks for one more request of the client's rate; the first message is that of the call.</param>
    /// <param name="time">The clock.</param>
    /// <param name="context">The call; its token is cancelled when the client has gone.</param>
    public static async Task<RecordRequest> Read(
        IAsyncStreamReader<RecordReadingsRequest> messages, Func<Refusal?> ask, TimeProvider time, ServerCallContext context)
    {
        var broken = context.CancellationToken;
        using var limit = new CancellationTokenSource(Limit, time);
        using var ends = CancellationTokenSource.CreateLinkedTokenSource(broken, limit.Token);
        RecordRequest? whole = null;
        try
        {
            while (await Next(messages, context, ends.Token))
            {
                if (whole is not null && ask() is { } busy)
                {
                    throw busy.ToRpc();
                }

                whole = Add(whole, messages.Current);
            }
        }
        catch (OperationCanceledException) when (limit.IsCancellationRequested && !broken.IsCancellationRequested)
        {
            throw new Refusal(
                Reason.RequestMalformed,
                $"the stream of {whole?.ReadingsMetres.Count ?? 0} readings was not completed within {Limit.TotalSeconds:0} s; nothing was recorded: push the readings again, and complete the stream").ToRpc();
        }
        catch (IOException e)
        {
            throw new OperationCanceledException("the stream broke off", e, broken);
        }

        broken.ThrowIfCancellationRequested(); // One that broke off can look like one that ended.
        return whole ?? throw Refusal.Of(Reason.DiameterMissing, "the stream has no message with readings_metres").ToRpc();
    }

    /// <summary>Waits for a message; when that is given up no read is left behind, which would take the bytes of the next call on the connection.</summary>
    private static async Task<bool> Next(IAsyncStreamReader<RecordReadingsRequest> messages, ServerCallContext context, CancellationToken ends)
    {
        var next = messages.MoveNext(CancellationToken.None); // A token given here would cut the call off without a word.
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

    private static RecordRequest Add(RecordRequest? whole, RecordReadingsRequest message)
    {
        if (message.ReadingsMetres.Count == 0)
        {
            throw Refusal.Of(Reason.DiameterMissing, "a message of the stream has no readings_metres").ToRpc();
        }

        if (whole is null)
        {
            whole = new()
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
        return whole.ReadingsMetres.Count <= GaugeGrpc.MostReadings
            ? whole
            : throw Calls.Malformed($"the stream has {whole.ReadingsMetres.Count} readings so far; at most {GaugeGrpc.MostReadings} were expected");
    }

    private static void Same(string field, string first, string later)
    {
        if (later.Length > 0 && later != first)
        {
            throw Calls.Malformed($"{field} of a later message differs from the first message's; empty, or the same again, was expected");
        }
    }
}
