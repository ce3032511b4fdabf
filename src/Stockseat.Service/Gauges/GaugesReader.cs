using System.Globalization;
using Stockseat.Answers.Entries;
using Stockseat.Fixtures.Reading;
using Stockseat.Service.Texts;

namespace Stockseat.Service.Gauges;

/// <summary>Reads the gauges.</summary>
/// <param name="values">Reads times, and collects the settings.</param>
/// <param name="freshness">How long a measurement may be used when its gauge does not say.</param>
internal sealed class GaugesReader(SettingValues values, TimeSpan freshness)
{
    private static readonly Fixtures.Reading.Range Size = Fixtures.Reading.Range.Size;

    public Dictionary<string, GaugeSettings> Read(Section? section)
    {
        var gauges = new Dictionary<string, GaugeSettings>(StringComparer.Ordinal);
        foreach (var name in section?.Keys.ToArray() ?? [])
        {
            if (!NameText.IsName(name))
            {
                section!.Faults.Add(section.At(name), $"is not a gauge's name; {NameText.Expected} was expected");
            }

            if (section!.Object(name) is { } gauge)
            {
                gauges[name] = ReadOne(name, gauge);
                values.Sources.Add(new($"Gauges:{name}", Said(gauges[name]), "file"));
            }
        }

        return gauges;
    }

    private GaugeSettings ReadOne(string name, Section gauge)
    {
        var unit = UnitText.Read(gauge);
        var limits = new GaugeLimits
        {
            Resolution = gauge.Length("Resolution", Size, required: false),
            LimitsOfError = gauge.Length("LimitsOfError", Size, required: false),
            Repeatability = gauge.Length("Repeatability", Size, required: false),
        };
        var agreement = gauge.Length("Agreement", Size, required: false);
        var fresh = gauge.Text("Freshness", required: false) is { } text ? values.Span(gauge.At("Freshness"), text) : freshness;
        var master = gauge.Length("Master", Size, required: false);
        gauge.Finish();
        return new(new(name, agreement, fresh) { Limits = limits == new GaugeLimits() ? null : limits }, unit, master);
    }

    private static string Said(GaugeSettings g)
    {
        var (terms, limits) = (g.Terms, g.Terms.Limits);
        return string.Create(
            CultureInfo.InvariantCulture,
            $"unit {g.Unit ?? "not stated"}, resolution {Metres(limits?.Resolution)}, limits of error {Metres(limits?.LimitsOfError)}, repeatability "
                + $"{Metres(limits?.Repeatability)}, agreement {Metres(terms.AgreementMetres)}, master {Metres(g.MasterMetres)}, fresh for {terms.FreshFor:c}");
    }

    private static string Metres(double? metres) => metres is { } m ? $"{FixedPoint.Text(m)} m" : "not stated";
}
