using System.CommandLine;
using System.Globalization;
using Stockseat.Cli.Output;
using Stockseat.Fixtures.Revisions;
using Stockseat.Service.Configuration;
using Stockseat.Service.Texts;

namespace Stockseat.Cli.Commands;

/// <summary>Finds a revision file by its fixture in the folder that the configuration names, or by its path.</summary>
internal static class RevisionFiles
{
    public static Argument<string> Fixture() => new("FIXTURE") { Description = "the fixture, or the path of a revision file" };

    public static Argument<int?> Number() =>
        new("REVISION")
        {
            Description = "the revision; without it the highest one", Arity = ArgumentArity.ZeroOrOne, CustomParser = r => FixtureCommands.Number(r),
        };

    /// <summary>The file; null, with a message on stderr, when there is none.</summary>
    public static RevisionFile? Find(Settings settings, string fixture, int? number) => Find(settings, fixture, number, out _);

    /// <summary>Whether a fixture is named by the path of a revision's file.</summary>
    public static bool IsPath(string fixture) => fixture.EndsWith(".json", StringComparison.Ordinal);

    /// <summary>The same, with the valid revision before it in its folder; null when there is none.</summary>
    public static RevisionFile? Find(Settings settings, string fixture, int? number, out RevisionReading? previous)
    {
        var isPath = IsPath(fixture);
        var path = isPath ? Path.GetFullPath(fixture) : "";
        var folder = isPath
            ? FixtureFolder.Read(Path.GetDirectoryName(Path.GetDirectoryName(path)!) ?? "/", Path.GetFileName(Path.GetDirectoryName(path)!))
            : FixtureFolder.Read(settings.Fixtures.Folder, fixture);
        var file = folder?.Files.LastOrDefault(f => isPath ? f.Path == path : number is null || f.Number == number);
        previous = folder?.Files.LastOrDefault(f => f.Number < file?.Number && f.Reading.Revision is not null)?.Reading;
        if (file is null)
        {
            var known = folder is { Files.Count: > 0 } ? $"its folder has {string.Join(", ", folder.Files.Select(f => RevisionFile.NameOf(f.Number)))}"
                : "there is no folder of that name with revision files";
            Console.Error.WriteLine(Plain.Text(isPath
                ? $"{fixture} is not a revision file: these are called r0001.json, r0002.json and so on, in a folder with the fixture's name; {known}"
                : $"there is no revision {number?.ToString(CultureInfo.InvariantCulture) ?? "file"} of '{fixture}' in {settings.Fixtures.Folder}: {known}; "
                    + $"name another, or the path of its file, or the configuration with --config{Hint(settings, folder, fixture)}"));
        }

        return file;
    }

    /// <summary>The newest valid revision of each other fixture in the folder that the configuration names.</summary>
    public static IReadOnlyList<Revision> Others(Settings settings, string? fixture) => !Directory.Exists(settings.Fixtures.Folder) ? []
        :
        [
            .. FixtureFolder.ReadAll(settings.Fixtures.Folder).Where(f => f.Fixture != fixture)
                .Select(f => f.Files.LastOrDefault(r => r.Reading.Revision is not null)?.Reading.Revision).OfType<Revision>(),
        ];

    private static string Hint(Settings settings, FixtureFolder? found, string fixture) =>
        found is null && Directory.Exists(settings.Fixtures.Folder)
            ? NearestWord.Hint(fixture, Directory.EnumerateDirectories(settings.Fixtures.Folder).Select(d => Path.GetFileName(d)))
            : "";
}
