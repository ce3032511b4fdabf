using Grpc.Core;
using Grpc.Core.Interceptors;
using Microsoft.Extensions.Logging;
using Stockseat.Answers.Reasons;

namespace Stockseat.Service.Grpc;

/// <summary>The one place where a failure of a call becomes a status; it is logged once, here.</summary>
internal sealed class FailureBoundary(ILogger<FailureBoundary> logger) : Interceptor
{
    public override async Task<TResponse> UnaryServerHandler<TRequest, TResponse>(
        TRequest request, ServerCallContext context, UnaryServerMethod<TRequest, TResponse> continuation)
    {
        try
        {
            return await continuation(request, context);
        }
        catch (Exception e) when (e is not (RpcException or OperationCanceledException))
        {
            Log.CallFailed(logger, e, context.Method);
            throw Refusal.Of(Reason.InternalFailure, "the call could not be handled").ToRpc();
        }
    }

    /// <summary>Reflection and health stream. A client that goes away within a call is no failure, and must not fill the log.</summary>
    public override async Task DuplexStreamingServerHandler<TRequest, TResponse>(
        IAsyncStreamReader<TRequest> requestStream, IServerStreamWriter<TResponse> responseStream, ServerCallContext context, DuplexStreamingServerMethod<TRequest, TResponse> continuation)
    {
        try
        {
            await continuation(requestStream, responseStream, context);
        }
        catch (Exception) when (context.CancellationToken.IsCancellationRequested)
        {
            throw Gone();
        }
    }

    /// <inheritdoc/>
    public override async Task ServerStreamingServerHandler<TRequest, TResponse>(
        TRequest request, IServerStreamWriter<TResponse> responseStream, ServerCallContext context, ServerStreamingServerMethod<TRequest, TResponse> continuation)
    {
        try
        {
            await continuation(request, responseStream, context);
        }
        catch (Exception) when (context.CancellationToken.IsCancellationRequested)
        {
            throw Gone();
        }
    }

    private static RpcException Gone() => new(new(StatusCode.Cancelled, "the client went away"));
}

internal static partial class Log
{
    [LoggerMessage(301, LogLevel.Error, "The call {Method} failed")]
    public static partial void CallFailed(ILogger logger, Exception exception, string method);
}
