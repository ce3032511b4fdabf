using Grpc.Health.V1;
using Grpc.HealthCheck;
using Stockseat.Answers.State;
using Status = Grpc.Health.V1.HealthCheckResponse.Types.ServingStatus;

namespace Stockseat.Service.Health;

/// <summary>
/// The standard health service: serving means that an ask can be logged and so answered. Each fixture has a name of its own, <c>fixture/pinbed-1</c>: serving
/// means that asks for it are not all refused.
/// </summary>
internal sealed class ServiceHealth
{
    /// <summary>The beginning of each fixture's name.</summary>
    public const string OfFixture = "fixture/";

    /// <summary>The name of the service's certificate: serving means that it is valid, and that its files are the ones in use.</summary>
    public const string OfCertificate = "certificate";

    /// <summary>The name of the plant store: serving means that it is reached, has caught up, and that every ledger continues what it has.</summary>
    public const string OfPlant = "plant";

    private static readonly string[] Names =
        ["", "stockseat.v1.LookupService", "stockseat.v1.GaugeService", "stockseat.v1.FixtureService"];

    private readonly Lock _lock = new();
    private readonly Dictionary<string, Status> _said = new(StringComparer.Ordinal);
    private Dictionary<string, bool> _fixtures = [];
    private bool _writable;
    private bool _stopping;

    /// <summary>What gRPC serves.</summary>
    public HealthServiceImpl Implementation { get; } = new();

    /// <summary>Called when the ledger becomes writable or stops being so.</summary>
    /// <param name="newest">Gives the present state, so that after two calls the newer state is the one reported.</param>
    public void Writable(Func<bool> newest)
    {
        lock (_lock)
        {
            _writable = newest();
            Say();
        }
    }

    /// <summary>Called when a stop begins.</summary>
    public void Stopping()
    {
        lock (_lock)
        {
            _stopping = true;
            Say();
        }
    }

    /// <summary>Called when it may have changed whether a fixture answers.</summary>
    /// <param name="newest">Gives the present state, so that after two calls the newer state is the one reported.</param>
    public void Fixtures(Func<Situation> newest)
    {
        lock (_lock)
        {
            _fixtures = newest().Fixtures.ToDictionary(f => OfFixture + f.Fixture, f => f.Refused is null, StringComparer.Ordinal);
            foreach (var gone in _said.Keys.Where(n => n.StartsWith(OfFixture, StringComparison.Ordinal) && !_fixtures.ContainsKey(n)).ToList())
            {
                _said.Remove(gone);
                Implementation.ClearStatus(gone);
            }

            Say();
        }
    }

    /// <summary>Called when the service has a certificate, and when it is looked at again.</summary>
    public void Certificate(bool good)
    {
        lock (_lock)
        {
            Say(OfCertificate, good);
        }
    }

    /// <summary>Called when the plant store is reached, lost or has caught up, and when a ledger is not sent any more. No answer depends on it.</summary>
    public void Plant(bool good)
    {
        lock (_lock)
        {
            Say(OfPlant, good);
        }
    }

    private void Say()
    {
        var serving = _writable && !_stopping;
        foreach (var name in Names)
        {
            Say(name, serving);
        }

        foreach (var (name, answers) in _fixtures)
        {
            Say(name, serving && answers);
        }

        Say("stockseat.v1.LedgerService", true);
    }

    private void Say(string name, bool serving)
    {
        var status = serving ? Status.Serving : Status.NotServing;
        if (!_said.TryGetValue(name, out var said) || said != status)
        {
            _said[name] = status;
            Implementation.SetStatus(name, status);
        }
    }
}
