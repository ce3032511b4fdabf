using System.Text.Json.Serialization;
using System.Text.Json.Serialization.Metadata;
using Stockseat.Answers.Asking;
using Stockseat.Answers.Entries;
using Stockseat.Answers.State;
using Stockseat.Fixtures.Revisions;

namespace Stockseat.Answers.Measured;

/// <summary>Measurements: the newest one of a fixture counts until something voids it.</summary>
internal sealed class MeasurementKind : EntryKind<MeasurementBody>
{
    public override string Name => Kinds.Measurement;

    protected override JsonTypeInfo<MeasurementBody> Json => MeasurementContext.Default.MeasurementBody;

    protected override string? Fault(MeasurementBody b, VerbTable table) =>
        BodyChecks.Size("diameter", b.Diameter) ?? BodyChecks.Metre("length", b.Length) ?? BodyChecks.Readings(b.Readings)
            ?? BodyChecks.Metre("spread", b.Spread)
        ?? BodyChecks.Metre("agreement", b.Agreement) ?? BodyChecks.Gauge(b.Limits) ?? BodyChecks.Terms(b.LotTerms)
        ?? BodyChecks.Seconds("freshFor", b.FreshFor) ?? BodyChecks.Waited(b.Waited) ?? (b.Nest is { } nest ? BodyChecks.Nest(nest) : null);

    /// <summary>A measurement may come before the first adoption.</summary>
    protected override Situation Apply(Situation situation, MeasurementBody body, VerbTable table, Func<IAdoption, Revision?> read) =>
        body.Fixture is not { } fixture ? situation
        : body.Nest is { } nest ? situation.WithMeasured(fixture, nest, new(body.Serial, Standing(body), null))
        : situation.With(situation.FindOrNew(fixture) with { Measurement = Standing(body) });

    protected override IReadOnlyList<string> NewestOf(MeasurementBody body, VerbTable table) => [NewestEntries.MeasuredAt(body.Nest)];

    private static StandingMeasurement Standing(MeasurementBody body) =>
        new(body.Serial, EntryTime.Parse(body.At).AddSeconds(-(body.Waited ?? 0)), body.Diameter, body.Lot, TimeSpan.FromSeconds(body.FreshFor))
        {
            LengthMetres = body.Length,
            From = new()
            {
                Gauge = body.Gauge,
                Limits = body.Limits,
                Agreement = body.Agreement,
                Readings = body.Readings.Count,
                Deviation = Deviate(body.Readings),
            },
        };

    private static double? Deviate(IReadOnlyList<double> readings)
    {
        if (readings.Count < 2)
        {
            return null;
        }

        var mean = readings.Sum() / readings.Count;
        return Math.Round(Math.Sqrt(readings.Sum(r => (r - mean) * (r - mean)) / (readings.Count - 1)), 15);
    }
}

[JsonSourceGenerationOptions(
    PropertyNamingPolicy = JsonKnownNamingPolicy.CamelCase, DefaultIgnoreCondition = JsonIgnoreCondition.WhenWritingNull, RespectNullableAnnotations = true)]
[JsonSerializable(typeof(MeasurementBody))]
internal sealed partial class MeasurementContext : JsonSerializerContext;
