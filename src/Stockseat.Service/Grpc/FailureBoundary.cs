using Grpc.Core;
using Grpc.Core.Interceptors;
using Microsoft.Extensions.Logging;
using Stockseat.Answers.Reasons;

namespace Stockseat.Service.Grpc;

/// <summary>Every call passes this: a failure becomes a status and is logged once.</summary>
internal sealed class FailureBoundary(ILogger<FailureBoundary> logger) : Interceptor
{
    public override async Task<TResponse> UnaryServerHandler<TRequest, TResponse>(
        TRequest request, ServerCallContext context, UnaryServerMethod<TRequest, TResponse> continuation)
    {
        try
        {
            return await continuation(request, context);
        }
        catch (Exception e) when (e is not RpcException)
        {
            throw StatusOf(e, context);
        }
    }

    public override async Task<TResponse> ClientStreamingServerHandler<TRequest, TResponse>(
        IAsyncStreamReader<TRequest> requestStream, ServerCallContext context, ClientStreamingServerMethod<TRequest, TResponse> continuation)
    {
        try
        {
            return await continuation(requestStream, context);
        }
        catch (Exception e) when (e is not RpcException)
        {
            throw StatusOf(e, context);
        }
    }

    public override Task ServerStreamingServerHandler<TRequest, TResponse>(
        TRequest request,
        IServerStreamWriter<TResponse> responseStream,
        ServerCallContext context,
        ServerStreamingServerMethod<TRequest, TResponse> continuation) =>
        Bound(() => continuation(request, responseStream, context), context);

    /// <summary>Reflection and health.</summary>
    public override Task DuplexStreamingServerHandler<TRequest, TResponse>(
        IAsyncStreamReader<TRequest> requestStream,
        IServerStreamWriter<TResponse> responseStream,
        ServerCallContext context,
        DuplexStreamingServerMethod<TRequest, TResponse> continuation) =>
        Bound(() => continuation(requestStream, responseStream, context), context);

    /// <summary>A reset stream may show before the call's token does; a missing file of the ledger is not meant here.</summary>
    private static bool IsGone(Exception e) => e is OperationCanceledException or (IOException and not (FileNotFoundException or DirectoryNotFoundException));

    private async Task Bound(Func<Task> call, ServerCallContext context)
    {
        try
        {
            await call();
        }
        catch (Exception e) when (e is not RpcException)
        {
            throw StatusOf(e, context);
        }
    }

    private RpcException StatusOf(Exception e, ServerCallContext context)
    {
        if (IsGone(e) || context.CancellationToken.IsCancellationRequested)
        {
            // The caller has gone: this is not a failure of the service, and nothing to log.
            return new RpcException(new Status(StatusCode.Cancelled, "the caller gave up"));
        }

        Log.CallFailed(logger, e, context.Method);
        return Refusal.Of(Reason.InternalFailure, "the call could not be handled").ToRpc();
    }
}

internal static partial class Log
{
    [LoggerMessage(301, LogLevel.Error, "The call {Method} failed")]
    public static partial void CallFailed(ILogger logger, Exception exception, string method);
}
