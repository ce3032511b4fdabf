using System.Security.Authentication;
using Google.Rpc;
using Grpc.Core;
using Grpc.Net.Client;
using Polly;
using Polly.Retry;
using Polly.Timeout;
using Stockseat.Answers.Reasons;
using Stockseat.Cli.Output;
using Stockseat.V1;

namespace Stockseat.Cli.Client;

/// <summary>Talks to a running service. A call that got no reply is tried again with the same request id, so that nothing is written twice.</summary>
internal sealed class ServiceClient : IDisposable
{
    private static readonly TimeSpan Attempt = TimeSpan.FromSeconds(5);
    private static readonly TimeSpan Longest = TimeSpan.FromSeconds(15);

    private readonly GrpcChannel _channel;
    private readonly ResiliencePipeline _pipeline;

    private readonly ServiceTrust _trust;

    /// <exception cref="InvalidDataException">The certificate, its key or the authority can't be used.</exception>
    public ServiceClient(ServiceAccess access)
    {
        _trust = new(access);
        _channel = GrpcChannel.ForAddress(
            access.Server, new GrpcChannelOptions { HttpHandler = _trust.Handler(), DisposeHttpClient = true, MaxReceiveMessageSize = 64 * 1024 * 1024 });
        _pipeline = new ResiliencePipelineBuilder()
            .AddTimeout(Longest)
            .AddRetry(new RetryStrategyOptions
            {
                MaxRetryAttempts = 2,
                BackoffType = DelayBackoffType.Exponential,
                UseJitter = true,
                Delay = TimeSpan.FromMilliseconds(200),
                MaxDelay = TimeSpan.FromSeconds(2),
                ShouldHandle = new PredicateBuilder()
                    .Handle<RpcException>(e => _trust.Fault is null && e.StatusCode is StatusCode.Unavailable or StatusCode.DeadlineExceeded)
                    .Handle<TimeoutRejectedException>(),
            })
            .AddTimeout(Attempt)
            .Build();
        Lookup = new(_channel);
        Loads = new(_channel);
        Gauge = new(_channel);
        Fixtures = new(_channel);
        Ledger = new(_channel);
    }

    public LookupService.LookupServiceClient Lookup { get; }

    public LoadService.LoadServiceClient Loads { get; }

    public GaugeService.GaugeServiceClient Gauge { get; }

    public FixtureService.FixtureServiceClient Fixtures { get; }

    public LedgerService.LedgerServiceClient Ledger { get; }

    /// <summary>A new request id.</summary>
    public static string NewRequest() => Guid.NewGuid().ToString("N");

    /// <summary>Runs what talks to the service, and turns refusals and failures into messages and exit codes.</summary>
    public static async Task<int> Run(ServiceAccess access, Func<ServiceClient, Task<int>> body)
    {
        using var client = Open(access, out var fault);
        if (client is null)
        {
            Console.Error.WriteLine(Plain.Text(fault));
            return ExitCodes.Usage;
        }

        try
        {
            return await body(client);
        }
        catch (RpcException e) when (e.GetRpcStatus()?.GetDetail<ErrorInfo>() is { } info)
        {
            var reason = ReasonInfo.Find(info.Reason.ToLowerInvariant().Replace('_', '-'));
            Console.Error.WriteLine(Plain.Text($"refused: {info.Reason.ToLowerInvariant().Replace('_', '-')}: {e.Status.Detail}"));
            if (reason == Reason.FixtureUnknown && await KnownFixtures.Said(client, e.Status.Detail) is { } known)
            {
                Console.Error.WriteLine(Plain.Text(known));
            }

            return reason == Reason.None ? ExitCodes.Refused : ReasonInfo.Of(reason).ExitCode;
        }
        catch (Exception e) when (e is RpcException or TimeoutRejectedException or HttpRequestException)
        {
            Console.Error.WriteLine(Plain.Text(client._trust.Fault is { } untrusted ? $"this side does not trust {access.Server}: {untrusted}"
                : $"no answer from {access.Server}: {Why(e)}; start the service with stockseat serve, or give its address with --server; a ledger command "
                    + "reads a stopped ledger with --data DIR"));
            return ExitCodes.Failed;
        }
    }

    /// <summary>Asks for something that the command can do without: what came back, or why nothing did.</summary>
    public static async Task<(T? Value, string Why)> Try<T>(ServiceAccess access, Func<ServiceClient, Task<T>> body)
        where T : class
    {
        using var client = Open(access, out var fault);
        if (client is null)
        {
            return (null, fault);
        }

        try
        {
            return (await body(client), "");
        }
        catch (Exception e) when (e is RpcException or TimeoutRejectedException or HttpRequestException)
        {
            return (null, client._trust.Fault is { } untrusted
                ? $"this side does not trust {access.Server}: {untrusted}" : $"no answer from {access.Server}: {Why(e)}");
        }
    }

    /// <summary>One call, tried again when no reply came.</summary>
    public async Task<T> Call<T>(Func<CancellationToken, AsyncUnaryCall<T>> call) =>
        await _pipeline.ExecuteAsync(async token => await call(token), CancellationToken.None);

    /// <summary>One call without a time limit, for work that takes longer the longer the ledger is.</summary>
    public static async Task<T> CallLong<T>(Func<CancellationToken, AsyncUnaryCall<T>> call) => await call(CancellationToken.None);

    public void Dispose() => _channel.Dispose();

    private static ServiceClient? Open(ServiceAccess access, out string fault)
    {
        fault = access.Fault ?? "";
        if (fault.Length > 0)
        {
            return null;
        }

        try
        {
            return new(access);
        }
        catch (InvalidDataException e)
        {
            fault = e.Message;
            return null;
        }
    }

    private static string Why(Exception e) => e switch
    {
        RpcException { Status.DebugException: { } cause } when Inner<AuthenticationException>(cause) is { } tls =>
            $"TLS was not agreed on ({tls.Message.TrimEnd('.')}); a service without a certificate is called with http://",
        RpcException { Status.DebugException: { } cause } when Inner<HttpIOException>(cause) is not null =>
            "the connection was closed at once; a service with a certificate is called with https://",
        RpcException { StatusCode: StatusCode.Unavailable } => "nothing answers there",
        RpcException { StatusCode: StatusCode.Internal } => "something other than gRPC answers there (is it the line port, or does it want https://?)",
        RpcException rpc => rpc.Status.Detail.TrimEnd('.'),
        _ => e.Message.TrimEnd('.'),
    };

    private static T? Inner<T>(Exception? e)
        where T : Exception
    {
        while (e is not (null or T))
        {
            e = e.InnerException;
        }

        return (T?)e;
    }
}
