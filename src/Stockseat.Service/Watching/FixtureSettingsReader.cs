using Stockseat.Fixtures.Adoption;
using Stockseat.Fixtures.Reading;
using Stockseat.Service.Texts;

namespace Stockseat.Service.Watching;

/// <summary>Reads what the root of the file says about fixtures.</summary>
internal static class FixtureSettingsReader
{
    public static FixtureSettings Read(SettingValues values, Section? root, string folder)
    {
        var (first, _) = values.Text(root, "FirstAdoption", "FirstAdoption", "manual");
        if (first is not ("manual" or "automatic"))
        {
            values.Faults.Add("FirstAdoption", $"is \"{first}\"; \"manual\" or \"automatic\" was expected");
        }

        var (proving, _) = values.Text(root, "Proving", "Proving", "advised");
        if (proving is not ("advised" or "required"))
        {
            values.Faults.Add("Proving", $"is \"{proving}\"; \"advised\" or \"required\" was expected");
        }

        return new(
            folder, first == "automatic" ? FirstAdoption.Automatic : FirstAdoption.Manual, values.Flag(root, "RefuseAfterMiss", unstated: true),
            proving == "required");
    }
}
