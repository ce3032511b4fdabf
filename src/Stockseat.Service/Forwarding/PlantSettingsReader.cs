using Stockseat.Fixtures.Reading;
using Stockseat.Plant.Connecting;
using Stockseat.Service.Texts;

namespace Stockseat.Service.Forwarding;

/// <summary>Reads where the plant store is.</summary>
internal static class PlantSettingsReader
{
    public const string Name = "Plant";

    private const string Connection = $"{Name}:Connection";

    public static PlantAddress? Read(SettingValues values, Section? section)
    {
        var connection = values.TextOrNull(section, "Connection", Connection);
        var password = values.Path(section, "PasswordFile", $"{Name}:PasswordFile", "file");
        section?.Finish();
        if (connection is null)
        {
            if (section is not null || password is not null)
            {
                values.Faults.Add(Connection, "is missing: Plant needs a connection, such as \"Host=plant-db;Database=plant;Username=cell_4\"");
            }

            return null;
        }

        var address = PlantAddress.Read(connection, password, out var fault);
        if (fault is not null)
        {
            values.Conceal(Connection); // It may hold a password.
            values.Faults.Add(Connection, fault);
        }

        return address;
    }
}
