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
}

internal static partial class Log
{
    [LoggerMessage(301, LogLevel.Error, "The call {Method} failed")]
    public static partial void CallFailed(ILogger logger, Exception exception, string method);
}
