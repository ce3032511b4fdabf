using System.Net;
using Stockseat.Answers.Adopt;
using Stockseat.Answers.Asking;
using Stockseat.Answers.Confirm;
using Stockseat.Answers.Done;
using Stockseat.Answers.Emptied;
using Stockseat.Answers.Hold;
using Stockseat.Answers.Loading;
using Stockseat.Answers.Locate;
using Stockseat.Answers.Measured;
using Stockseat.Answers.Notes;
using Stockseat.Answers.Reasons;
using Stockseat.Answers.Roll;
using Stockseat.Answers.Still;
using Stockseat.Service.Certificates;
using Stockseat.Service.Lines.Forms;

namespace Stockseat.Service.Clients;

/// <summary>
/// A client of the configuration: the first entry whose addresses include the caller's, and whose certificate the caller shows where it states one.
/// </summary>
public sealed record Client
{
    /// <summary>How many connections a client may have when its entry states no number.</summary>
    public const int UsualConnections = 1100;

    /// <summary>How many requests a second a client may send when its entry states no number: as many as several hundred busy robots.</summary>
    public const int UsualRate = 2000;

    /// <summary>How many watches of the ledger a client may have when its entry states no number.</summary>
    public const int UsualWatches = 8;

    /// <summary>Its name in the ledger.</summary>
    public required string Name { get; init; }

    /// <summary>Its cell.</summary>
    public string? Cell { get; init; }

    /// <summary>The addresses that it comes from.</summary>
    public required IReadOnlyList<IPNetwork> From { get; init; }

    /// <summary>What its certificate has to prove, a pin or a name (<see cref="ProofText"/>); null: its address is enough.</summary>
    public string? Certificate { get; init; }

    /// <summary>Whether it may open pages from another machine by its address alone, without a certificate.</summary>
    public bool PagesByAddress { get; init; }

    /// <summary>What it may do.</summary>
    public required Roles Roles { get; init; }

    /// <summary>The fixtures that it may use; null: all.</summary>
    public IReadOnlySet<string>? Fixtures { get; init; }

    /// <summary>What its asks have to say: names of <see cref="Requirements.Names"/>.</summary>
    public IReadOnlyList<string> Require { get; init; } = [];

    /// <summary>How its replies in lines look.</summary>
    public required Form Form { get; init; }

    /// <summary>How many connections it may have.</summary>
    public int Connections { get; init; } = UsualConnections;

    /// <summary>How many requests a second it may send.</summary>
    public int Rate { get; init; } = UsualRate;

    /// <summary>How many watches of the ledger it may have at once.</summary>
    public int Watches { get; init; } = UsualWatches;

    /// <summary>Whether it may see a fixture.</summary>
    public bool MaySee(string fixture) => Fixtures is null || Fixtures.Contains(fixture);

    /// <summary>Whether a caller is this client.</summary>
    public bool Is(IPAddress address, CallerProof? proof) =>
        (Certificate is null || proof?.Is(Certificate) == true) && From.Any(network => network.Contains(address));

    /// <summary>The caller that a connection from this client is.</summary>
    public Caller At(IPEndPoint address, CallerProof? proof = null) => new(Name, Cell, address.ToString()) { Certificate = proof?.Pin };

    /// <summary>Why it may not do the work of one of these roles; null when it may.</summary>
    public Refusal? Lacks(Roles any, string what) => (Roles & any) != 0
        ? null
        : Refusal.Of(Reason.NotPermitted, $"{what} needs the role {string.Join(" or ", Names(any))}, which client {Name} does not have", ("client", Name));

    /// <summary>The ask; when this client may not ask it, or leaves out what it has to say, it is marked as denied, and still gets its entry.</summary>
    public Ask Permit(Ask ask)
    {
        var denied = Lacks(Needs(ask), ask.Verb) ?? Unproven(ask)
            ?? (ask.Fixture.Length == 0 || MaySee(ask.Fixture) ? null : Foreign(ask.Fixture))
            ?? (Require.Count == 0 ? null : Requirements.Lacking(Require, ask));
        return denied is null ? ask : ask with { Denied = denied };
    }

    /// <summary>The refusal of a fixture that is not this client's.</summary>
    public Refusal Foreign(string fixture) =>
        Refusal.Of(Reason.NotPermitted, $"client {Name} may not use fixture {fixture}", ("client", Name));

    /// <summary>
    /// What changes what is served to everybody needs more than an address from elsewhere: anybody in the same network, or behind the same translation of
    /// addresses, may come from it.
    /// </summary>
    private Refusal? Unproven(Ask ask) => ask is AdoptAsk or ReleaseAsk or RollAsk && ask.Caller is { Certificate: null, Address: { } address }
        && IPEndPoint.TryParse(address, out var from) && !IPAddress.IsLoopback(from.Address)
            ? Refusal.Of(
                Reason.NotPermitted,
                $"{ask.Verb} from {from.Address} needs a certificate: client {Name} came by its address alone; run it on the service's own "
                    + "machine, or show a certificate", ("client", Name))
            : null;

    private static Roles Needs(Ask ask) => ask switch
    {
        LocateAsk or ConfirmAsk or DoneAsk or DroppedAsk or StillAsk => Roles.Locate,
        NoteAsk => Roles.Review,
        MeasureAsk => Roles.Measure,
        EmptiedAsk or LoadedAsk => Roles.Locate | Roles.Measure,
        _ => Roles.Calibrate,
    };

    private static IEnumerable<string> Names(Roles roles) =>
        new[] { Roles.Locate, Roles.Measure, Roles.Review, Roles.Calibrate }.Where(r => roles.HasFlag(r)).Select(r => r.ToString().ToLowerInvariant());
}
