using System.Text;
using Grpc.Core;
using Stockseat.Answers.Deciding;
using Stockseat.Answers.Reasons;
using Stockseat.Answers.Records;
using Stockseat.Service.Answering;
using Stockseat.Service.Clients;
using Stockseat.V1;

namespace Stockseat.Service.Grpc;

internal sealed class FixtureGrpc(IAnswerer answerer, ClientTable clients, TimeProvider time) : FixtureService.FixtureServiceBase
{
    private const int LongestText = 400;

    public override async Task<AdoptResponse> Adopt(AdoptRequest request, ServerCallContext context)
    {
        var (client, caller) = clients.From(context, request: request.RequestId);
        var fixture = Calls.Fixture(request.Fixture);
        foreach (var (name, value) in new[] { ("by", request.By), ("why", request.Why) })
        {
            if (string.IsNullOrWhiteSpace(value) || value.Length > LongestText)
            {
                throw Calls.Malformed($"{name} has {value.Trim().Length} characters; who adopts it and why, 1 to {LongestText}, were expected");
            }
        }

        var ask = new AdoptAsk(caller, fixture, request.Revision) { By = request.By, Why = request.Why, Folder = answerer.ReadFolder(fixture) };
        var body = await answerer.Ask(client.Permit(ask)).Get<RevisionAdoptedBody>();
        return new() { Serial = body.Serial, Fixture = body.Fixture, Revision = body.Revision!.Value, Digest = body.Digest };
    }

    public override Task<ListFixturesResponse> ListFixtures(ListFixturesRequest request, ServerCallContext context)
    {
        var (client, _) = clients.From(context);
        var response = new ListFixturesResponse { Serial = answerer.Serial, LedgerWritable = answerer.Writable };
        response.Fixtures.AddRange(answerer.Situation.Fixtures.Where(f => client.MaySee(f.Fixture)).Select(Of));
        return Task.FromResult(response);
    }

    public override Task<GetRevisionResponse> GetRevision(GetRevisionRequest request, ServerCallContext context)
    {
        var (client, _) = clients.From(context);
        var fixture = client.Seen(request.Fixture);
        var state = answerer.Situation.Find(fixture) ?? throw Refusal.Of(Reason.FixtureUnknown, $"there is no fixture {fixture}").ToRpc();
        var revision = !request.HasRevision || request.Revision == state.InForce?.Number
            ? state.InForce
            : state.Folder?.Find(request.Revision)?.Reading.Revision;
        if (revision is null && state.Folder?.Find(request.Revision)?.Reading.Faults is { Count: > 0 } faults)
        {
            throw new Refusal(Reason.CalibrationUnusable, $"revision {request.Revision} of {fixture} has faults: {string.Join("; ", faults)}").ToRpc();
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

    private Fixture Of(FixtureState state)
    {
        var fixture = new Fixture { Fixture_ = state.Fixture, Digest = state.InForce?.Digest ?? "" };
        if (state.InForce is { } revision)
        {
            fixture.Revision = revision.Number;
        }

        if (state.Refused is { } refusal)
        {
            (fixture.Refused, fixture.RefusedText) = (refusal.Info.Name, refusal.Text);
        }

        fixture.Waiting.AddRange(state.Waiting);
        if (state.Folder is { } folder)
        {
            fixture.Faults.AddRange(folder.Faults.Concat(folder.Files.SelectMany(f => f.Reading.Faults)));
        }

        if (state.Measurement is { } m)
        {
            (fixture.Measurement, fixture.MeasuredMetres, fixture.Lot) = (m.Serial, m.DiameterMetres, m.Lot ?? "");
            fixture.MeasuredAgeSeconds = Math.Max(0, (time.GetUtcNow() - m.At).TotalSeconds);
        }

        return fixture;
    }
}
