using Stockseat.Fixtures.Reading;
using Stockseat.Service.Texts;

namespace Stockseat.Service.Metrics;

/// <summary>Reads where metrics are pushed.</summary>
internal static class MetricsSettingsReader
{
    public const string Section = "Metrics";

    private const string Push = $"{Section}:Push";
    private const string Every = $"{Section}:Every";

    public static MetricsSettings Read(SettingValues values, Section? section)
    {
        var (text, source) = values.Text(section, "Push", Push, "none: metrics are not pushed");
        var every = values.Span(section, "Every", Every, MetricsSettings.UsualEvery);
        section?.Finish();
        if (every > MetricsSettings.LongestEvery)
        {
            values.Faults.Add(Every, $"is \"{every:c}\"; an hour (\"01:00:00\") at most was expected");
        }

        if (source == "default")
        {
            return new(null, every);
        }

        if (!Uri.TryCreate(text, UriKind.Absolute, out var push) || (push.Scheme != Uri.UriSchemeHttp && push.Scheme != Uri.UriSchemeHttps))
        {
            values.Faults.Add(Push, $"is \"{text}\"; the address of a collector was expected, such as http://127.0.0.1:4318/v1/metrics");
            return new(null, every);
        }

        if (push.UserInfo.Length > 0)
        {
            values.Faults.Add(Push, "names a user, whose password everybody who sees the settings could read; let a collector on this machine add it");
            return new(null, every);
        }

        return new(push, every);
    }
}
