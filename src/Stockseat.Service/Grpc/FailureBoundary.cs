using Grpc.Core;
using Grpc.Core.Interceptors;
using Microsoft.Extensions.Logging;
using Stockseat.Answers.Reasons;

namespace Stockseat.Service.Grpc;

/// <summary>What every call passes: a failure becomes a status and is logged once.</summary>
internal sealed class FailureBoundary(ILogger<FailureBoundary> logger) : Interceptor
{
    public override Task<TResponse> UnaryServerHandler<TRequest, TResponse>(
        TRequest request, ServerCallContext context, UnaryServerMethod<TRequest, TResponse> continuation) =>
        Bound(() => continuation(request, context), context);

    public override Task<TResponse> ClientStreamingServerHandler<TRequest, TResponse>(
        IAsyncStreamReader<TRequest> requestStream, ServerCallContext context, ClientStreamingServerMethod<TRequest, TResponse> continuation) =>
        Bound(() => continuation(requestStream, context), context);

    public override Task ServerStreamingServerHandler<TRequest, TResponse>(
        TRequest request, IServerStreamWriter<TResponse> responseStream, ServerCallContext context, ServerStreamingServerMethod<TRequest, TResponse> continuation) =>
        Bound(() => Ended(continuation(request, responseStream, context)), context);

    /// <summary>Reflection and health.</summary>
    public override Task DuplexStreamingServerHandler<TRequest, TResponse>(
        IAsyncStreamReader<TRequest> requestStream, IServerStreamWriter<TResponse> responseStream, ServerCallContext context, DuplexStreamingServerMethod<TRequest, TResponse> continuation) =>
        Bound(() => Ended(continuation(requestStream, responseStream, context)), context);

    private static async Task<bool> Ended(Task call)
    {
        await call;
        return true;
    }

    /// <summary>A stream that was reset may say so before the call's token does; a file of the ledger that is not there is another matter.</summary>
    private static bool IsGone(Exception e) => e is OperationCanceledException or (IOException and not (FileNotFoundException or DirectoryNotFoundException));

    private async Task<T> Bound<T>(Func<Task<T>> call, ServerCallContext context)
    {
        try
        {
            return await call();
        }
        catch (Exception e) when (IsGone(e) || (e is not RpcException && context.CancellationToken.IsCancellationRequested))
        {
            // The caller has gone: no failure of the service, and nothing for the log.
            throw new RpcException(new Status(StatusCode.Cancelled, "the caller gave up"));
        }
        catch (Exception e) when (e is not RpcException)
        {
            Log.CallFailed(logger, e, context.Method);
            throw Refusal.Of(Reason.InternalFailure, "the call could not be handled").ToRpc();
        }
    }
}

internal static partial class Log
{
    [LoggerMessage(301, LogLevel.Error, "The call {Method} failed")]
    public static partial void CallFailed(ILogger logger, Exception exception, string method);
}
