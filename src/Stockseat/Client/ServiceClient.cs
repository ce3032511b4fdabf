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

    public ServiceClient(string server)
    {
        _channel = GrpcChannel.ForAddress(server, new GrpcChannelOptions { MaxReceiveMessageSize = 64 * 1024 * 1024 });
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
                    .Handle<RpcException>(e => e.StatusCode is StatusCode.Unavailable or StatusCode.DeadlineExceeded)
                    .Handle<TimeoutRejectedException>(),
            })
            .AddTimeout(Attempt)
            .Build();
        Lookup = new(_channel);
        Gauge = new(_channel);
        Fixtures = new(_channel);
        Ledger = new(_channel);
    }

    public LookupService.LookupServiceClient Lookup { get; }

    public GaugeService.GaugeServiceClient Gauge { get; }

    public FixtureService.FixtureServiceClient Fixtures { get; }

    public LedgerService.LedgerServiceClient Ledger { get; }

    /// <summary>A new request id.</summary>
    public static string NewRequest() => Guid.NewGuid().ToString("N");

    /// <summary>Runs what talks to the service, and turns refusals and failures into messages and exit codes.</summary>
    public static async Task<int> Run(string server, Func<ServiceClient, Task<int>> body)
    {
        if (!IsAddress(server))
        {
            Console.Error.WriteLine($"--server is '{Plain.Text(server)}'; an address was expected, such as http://127.0.0.1:28610");
            return ExitCodes.Usage;
        }

        using var client = new ServiceClient(server);
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
            Console.Error.WriteLine(Plain.Text($"no answer from {server}: {Why(e)}; start the service with stockseat serve, or give its address with "
                + "--server; a ledger command reads a stopped ledger with --data DIR"));
            return ExitCodes.Failed;
        }
    }

    /// <summary>Asks for something that the command can do without: what came back, or why nothing did.</summary>
    public static async Task<(T? Value, string Why)> Try<T>(string server, Func<ServiceClient, Task<T>> body)
        where T : class
    {
        if (!IsAddress(server))
        {
            return (null, $"--server is '{server}', which is not an address such as http://127.0.0.1:28610");
        }

        using var client = new ServiceClient(server);
        try
        {
            return (await body(client), "");
        }
        catch (Exception e) when (e is RpcException or TimeoutRejectedException or HttpRequestException)
        {
            return (null, $"no answer from {server}: {Why(e)}");
        }
    }

    /// <summary>One call, tried again when no reply came.</summary>
    public async Task<T> Call<T>(Func<CancellationToken, AsyncUnaryCall<T>> call) =>
        await _pipeline.ExecuteAsync(async token => await call(token), CancellationToken.None);

    /// <summary>One call without a time limit, for work that takes longer the longer the ledger is.</summary>
    public static async Task<T> CallLong<T>(Func<CancellationToken, AsyncUnaryCall<T>> call) => await call(CancellationToken.None);

    public void Dispose() => _channel.Dispose();

    private static bool IsAddress(string server) => Uri.TryCreate(server, UriKind.Absolute, out var uri) && uri.Scheme is ("http" or "https");

    private static string Why(Exception e) => e switch
    {
        RpcException { StatusCode: StatusCode.Unavailable } => "nothing answers there",
        RpcException { StatusCode: StatusCode.Internal } => "something other than gRPC answers there (is it the line port?)",
        RpcException rpc => rpc.Status.Detail.TrimEnd('.'),
        _ => e.Message.TrimEnd('.'),
    };
}
