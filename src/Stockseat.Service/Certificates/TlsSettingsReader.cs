using Stockseat.Fixtures.Reading;
using Stockseat.Service.Texts;

namespace Stockseat.Service.Certificates;

/// <summary>Reads where the certificates are.</summary>
internal static class TlsSettingsReader
{
    public const string Name = "Tls";

    public static TlsSettings? Read(SettingValues values, Section? section)
    {
        var certificate = values.Path(section, "Certificate", $"{Name}:Certificate", "file");
        var key = values.Path(section, "Key", $"{Name}:Key", "file");
        var authorities = values.Path(section, "Authorities", $"{Name}:Authorities", "file");
        section?.Finish();
        if (certificate is not null && key is not null)
        {
            return new(certificate, key, authorities);
        }

        if (section is not null || certificate is not null || key is not null || authorities is not null)
        {
            values.Faults.Add(
                certificate is null ? $"{Name}:Certificate" : $"{Name}:Key",
                "is missing: Tls needs the service's Certificate and its Key, both in PEM; stockseat certificate issue makes them");
        }

        return null;
    }
}
