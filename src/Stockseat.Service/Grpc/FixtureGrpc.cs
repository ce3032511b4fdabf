using System.Text;
using Grpc.Core;
using Stockseat.Answers.Adopt;
using Stockseat.Answers.Asking;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Hold;
using Stockseat.Answers.Reasons;
using Stockseat.Answers.Recheck;
using Stockseat.Answers.State;
using Stockseat.Service.Answering;
using Stockseat.Service.Certificates;
using Stockseat.Service.Clients;
using Stockseat.Service.Forwarding;
using Stockseat.Service.Gauges;
using Stockseat.Service.Ledgers;
using Stockseat.Service.Watching;
using Stockseat.V1;
using ReadingPort = Stockseat.V1.ReadingPort;

namespace Stockseat.Service.Grpc;

internal sealed class FixtureGrpc(
    IAnswerer answerer, FixtureSettings fixtures, LedgerSettings ledger, Door door, ReadingPorts ports, HeavyCalls heavy, TimeProvider time,
    ServiceTls? tls = null, PlantForwarding? plant = null)
    : FixtureService.FixtureServiceBase
{
    public override async Task<AdoptResponse> Adopt(AdoptRequest request, ServerCallContext context)
    {
        var (client, caller) = context.From(request: request.RequestId);
        var fixture = Calls.Fixture(request.Fixture);
        var (by, why) = (Calls.Said("by", request.By), Calls.Said("why", request.Why));
        var digest = request.HasDigest ? Calls.Digest("digest", request.Digest) : null;
        var ask = client.Permit(new AdoptAsk(caller, fixture, request.Revision) {
            By = by, Why = why, Digest = digest, Expects = request.HasExpect ? request.Expect : null, Folder = null,
        });
        if (ask is AdoptAsk { Denied: null } permitted)
        {
            var folder = await answerer.ReadFolder(fixture, context.CancellationToken); // for who may, and for nobody else
            folder?.Find(request.Revision)?.Reading.Revision?.Prepare();
            ask = permitted with { Folder = folder };
        }

        var body = (await answerer.Ask(ask)).Entry<RevisionAdoptedBody>();
        return new() { Serial = body.Serial, Fixture = body.Fixture, Revision = body.Revision!.Value, Digest = body.Digest };
    }

    public override async Task<HoldResponse> Hold(HoldRequest request, ServerCallContext context)
    {
        var (client, caller) = context.From(request: request.RequestId);
        var ask = new HoldAsk(caller, Calls.Fixture(request.Fixture)) { By = Calls.Said("by", request.By), Why = Calls.Said("why", request.Why) };
        var body = (await answerer.Ask(client.Permit(ask))).Entry<HeldBody>();
        return new() { Serial = body.Serial, Fixture = body.Fixture };
    }

    public override async Task<ReleaseResponse> Release(ReleaseRequest request, ServerCallContext context)
    {
        var (client, caller) = context.From(request: request.RequestId);
        var by = Calls.Said("by", request.By);
        var ask = new ReleaseAsk(caller, Calls.Fixture(request.Fixture))
        {
            By = by,
            Why = Calls.Said("why", request.Why),
            Of = request.Of.Length == 0 ? by : Calls.Said("of", request.Of),
        };
        var body = (await answerer.Ask(client.Permit(ask))).Entry<ReleasedBody>();
        return new() { Serial = body.Serial, Fixture = body.Fixture, Left = body.Left };
    }

    public override async Task<RecheckResponse> Recheck(RecheckRequest request, ServerCallContext context)
    {
        var (client, caller) = context.From(request: request.RequestId);
        var ask = RecheckCalls.Read(request, caller) with { RefuseAfterMiss = fixtures.RefuseAfterMiss };
        return new() { Recheck = RecheckCalls.Of((await answerer.Ask(client.Permit(ask))).Entry<RecheckBody>()) };
    }

    public override Task<ListRechecksResponse> ListRechecks(ListRechecksRequest request, ServerCallContext context)
    {
        var client = context.With(Roles.Review | Roles.Calibrate, "reading rechecks");
        var fixture = client.Seen(request.Fixture);
        return heavy.Page(client, context, () => RecheckCalls.List(request, fixture, ledger.Data));
    }

    public override Task<ListFixturesResponse> ListFixtures(ListFixturesRequest request, ServerCallContext context)
    {
        var (client, _) = context.From();
        var seals = answerer.Seals;
        var response = new ListFixturesResponse
        {
            Serial = answerer.Serial,
            LedgerWritable = answerer.Writable,
            SealKey = seals.Key ?? "",
            Unsealed = seals.Unsealed,
            LogDropped = answerer.LogDropped,
        };
        foreach (var (why, count) in door.Counts)
        {
            response.TurnedAway.Add(why.Name(), count);
        }

        response.Certificate = tls is null ? null : CertificateMessage.Of(tls);
        response.Plant = plant is null ? null : PlantMessage.Of(plant);
        response.Fixtures.AddRange(answerer.Situation.Fixtures.Where(f => client.MaySee(f.Fixture)).Select(Of));
        response.Ports.AddRange(ports.Statuses.Where(p => client.MaySee(p.Fixture)).Select(Of));
        return Task.FromResult(response);
    }

    public override Task<ListRevisionsResponse> ListRevisions(ListRevisionsRequest request, ServerCallContext context)
    {
        var state = State(request.Fixture, context);
        var response = new ListRevisionsResponse();
        response.Revisions.AddRange(state.Numbers.Select(number => Summary(state, number)));
        return Task.FromResult(response);
    }

    public override Task<GetRevisionResponse> GetRevision(GetRevisionRequest request, ServerCallContext context)
    {
        var state = State(request.Fixture, context);
        var fixture = state.Fixture;
        var revision = !request.HasRevision || request.Revision == state.InForce?.Number
            ? state.InForce
            : state.Folder?.Find(request.Revision)?.Reading.Revision;
        if (revision is null && state.Folder?.Find(request.Revision)?.Reading is { Faults.Count: > 0 } reading)
        {
            throw new Refusal(
                Reason.CalibrationUnusable, $"revision {request.Revision} of {fixture} has faults: {reading.FaultsInLine(fixture, request.Revision)}").ToRpc();
        }

        if (revision is null)
        {
            throw Refusal.Of(
                Reason.RevisionUnknown,
                request.HasRevision ? $"{fixture} has no valid revision {request.Revision}" : $"{fixture} has no revision in force").ToRpc();
        }

        return Task.FromResult(new GetRevisionResponse
        {
            Fixture = fixture,
            Revision = revision.Number,
            Digest = revision.Digest,
            InForce = ReferenceEquals(revision, state.InForce),
            ContentJson = Encoding.UTF8.GetString(revision.Content.Span),
        });
    }

    private FixtureState State(string name, ServerCallContext context)
    {
        var (client, _) = context.From();
        var fixture = client.Seen(name);
        return answerer.Situation.Find(fixture) ?? throw answerer.Unknown(fixture).ToRpc();
    }

    private static RevisionSummary Summary(FixtureState state, int number)
    {
        var reading = state.Folder?.Find(number)?.Reading;
        var adopted = state.Adopted.GetValueOrDefault(number);
        var summary = new RevisionSummary
        {
            Revision = number,
            State = (RevisionState)state.Standing(number),
            Digest = reading?.Revision?.Digest ?? adopted ?? "",
            Adopted = adopted is not null,
            AdoptedDigest = adopted ?? "",
        };
        summary.Faults.AddRange(reading?.Faults ?? []);
        if (state.Adoptions.TryGetValue(number, out var serial))
        {
            summary.AdoptedBy = serial;
        }

        return summary;
    }

    private static ReadingPort Of(PortStatus port)
    {
        var message = new ReadingPort
        {
            Name = port.Name,
            Gauge = port.Gauge,
            Fixture = port.Fixture,
            Endpoint = port.Endpoint,
            State = (ReadingPortState)port.State,
            Since = EntryTime.Text(port.Since),
            LastCause = port.LastCause ?? "",
        };
        foreach (var (what, count) in port.Counts)
        {
            message.Counts.Add(what, count);
        }

        return message;
    }

    private static V1.Load Of(Answers.State.Load load)
    {
        var message = new V1.Load { Serial = load.Serial, Lot = load.Lot ?? "", Count = load.Count, Left = load.Raw.Count };
        if (load.Raw.Count > 0)
        {
            message.Next = new() { Column = load.Raw.Min.Column, Row = load.Raw.Min.Row };
        }

        if (load.Open is { } open)
        {
            (message.Unfinished, message.UnfinishedNest) = (open.Answer, new() { Column = open.Column, Row = open.Row });
        }

        return message;
    }

    private Fixture Of(FixtureState state)
    {
        var fixture = new Fixture { Fixture_ = state.Fixture, Digest = state.InForce?.Digest ?? "" };
        if (state.InForce is { } revision)
        {
            fixture.Revision = revision.Number;
        }

        if (state.Refused is { } refusal)
        {
            (fixture.Refused, fixture.RefusedText) = (refusal.Info.Name, refusal.In(answerer.Shown));
        }

        fixture.Waiting.AddRange(state.Waiting);
        fixture.Holds.AddRange(state.Holds.Values.OrderBy(h => h.Serial).Select(EntryMessages.Of));
        fixture.Missed = state.Missed is { } missed ? RecheckCalls.Of((RecheckBody)missed.Entry) : null;
        fixture.Unproven.AddRange(state.Unproven.Select(l => Proof.Said(l, answerer.Shown)));
        fixture.Lacking.AddRange(state.Unproven.Select(RecheckCalls.Of));
        fixture.ProvingRequired = fixtures.ProvingRequired;
        if (state.Folder is { } folder)
        {
            fixture.Faults.AddRange(folder.AllFaults);
        }

        if (state.Load is { } load)
        {
            fixture.Load = Of(load);
        }

        if (state.Measurement is { } m)
        {
            (fixture.Measurement, fixture.MeasuredMetres, fixture.Lot) = (m.Serial, m.DiameterMetres, m.Lot ?? "");
            if (!answerer.Situation.Doubts(m))
            {
                fixture.MeasuredAgeSeconds = Math.Max(0, (time.GetUtcNow() - m.At).TotalSeconds);
            }
        }

        return fixture;
    }
}
