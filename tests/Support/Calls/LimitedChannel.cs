using System.Net;
using Grpc.Core;
using Grpc.Core.Interceptors;
using Grpc.Net.Client;

namespace Stockseat.Tests.Support.Calls;

/// <summary>
/// A channel whose calls fail, with what they waited for, when nothing comes back. No deadline is sent: the service sees a client that would wait
/// forever.
/// </summary>
internal sealed class LimitedChannel : ChannelBase, IDisposable
{
    private readonly GrpcChannel _channel;
    private readonly TimeSpan? _limit;

    private LimitedChannel(GrpcChannel channel, TimeSpan? limit)
        : base(channel.Target) => (_channel, _limit) = (channel, limit);

    public static LimitedChannel For(IPEndPoint endpoint, GrpcChannelOptions? options = null, TimeSpan? limit = null) =>
        new(GrpcChannel.ForAddress($"http://{endpoint}", options ?? new()), limit);

    /// <summary>A channel over TLS to a service that nobody vouches for.</summary>
    public static LimitedChannel Secured(IPEndPoint endpoint) => new(
        GrpcChannel.ForAddress($"https://{endpoint}", new()
        {
            HttpHandler = new SocketsHttpHandler { SslOptions = new() { RemoteCertificateValidationCallback = (_, _, _, _) => true } },
            DisposeHttpClient = true,
        }),
        null);

    public override CallInvoker CreateCallInvoker() => _channel.CreateCallInvoker().Intercept(new Limits(_limit));

    public void Dispose() => _channel.Dispose();

    protected override Task ShutdownAsyncCore() => _channel.ShutdownAsync();

    private sealed class Limits(TimeSpan? limit) : Interceptor
    {
        public override AsyncUnaryCall<TResponse> AsyncUnaryCall<TRequest, TResponse>(
            TRequest request, ClientInterceptorContext<TRequest, TResponse> context, AsyncUnaryCallContinuation<TRequest, TResponse> continuation)
        {
            var call = continuation(request, context);
            return new(
                call.ResponseAsync.Within($"the reply to {context.Method.Name}", limit),
                call.ResponseHeadersAsync, call.GetStatus, call.GetTrailers, call.Dispose);
        }

        public override AsyncClientStreamingCall<TRequest, TResponse> AsyncClientStreamingCall<TRequest, TResponse>(
            ClientInterceptorContext<TRequest, TResponse> context, AsyncClientStreamingCallContinuation<TRequest, TResponse> continuation)
        {
            var call = continuation(context);
            return new(
                new Writer<TRequest>(call.RequestStream, context.Method.Name, limit),
                call.ResponseAsync.Within($"the reply to {context.Method.Name}", limit),
                call.ResponseHeadersAsync, call.GetStatus, call.GetTrailers, call.Dispose);
        }

        public override AsyncServerStreamingCall<TResponse> AsyncServerStreamingCall<TRequest, TResponse>(
            TRequest request, ClientInterceptorContext<TRequest, TResponse> context, AsyncServerStreamingCallContinuation<TRequest, TResponse> continuation)
        {
            var call = continuation(request, context);
            return new(
                new Reader<TResponse>(call.ResponseStream, context.Method.Name, limit),
                call.ResponseHeadersAsync, call.GetStatus, call.GetTrailers, call.Dispose);
        }

        public override AsyncDuplexStreamingCall<TRequest, TResponse> AsyncDuplexStreamingCall<TRequest, TResponse>(
            ClientInterceptorContext<TRequest, TResponse> context, AsyncDuplexStreamingCallContinuation<TRequest, TResponse> continuation)
        {
            var call = continuation(context);
            return new(
                new Writer<TRequest>(call.RequestStream, context.Method.Name, limit),
                new Reader<TResponse>(call.ResponseStream, context.Method.Name, limit),
                call.ResponseHeadersAsync, call.GetStatus, call.GetTrailers, call.Dispose);
        }
    }

    private sealed class Reader<T>(IAsyncStreamReader<T> stream, string method, TimeSpan? limit) : IAsyncStreamReader<T>
    {
        public T Current => stream.Current;

        public Task<bool> MoveNext(CancellationToken cancellationToken) => stream.MoveNext(cancellationToken).Within($"the next message of {method}", limit);
    }

    private sealed class Writer<T>(IClientStreamWriter<T> stream, string method, TimeSpan? limit) : IClientStreamWriter<T>
    {
        public WriteOptions? WriteOptions
        {
            get => stream.WriteOptions;
            set => stream.WriteOptions = value;
        }

        public Task WriteAsync(T message) => stream.WriteAsync(message).Within($"the sending of a message of {method}", limit);

        public Task WriteAsync(T message, CancellationToken cancellationToken) =>
            stream.WriteAsync(message, cancellationToken).Within($"the sending of a message of {method}", limit);

        public Task CompleteAsync() => stream.CompleteAsync().Within($"the sending of the end of {method}", limit);
    }
}
