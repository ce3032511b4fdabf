using System.Reflection;
using Stockseat.Answers.Adopt;
using Stockseat.Answers.Locate;
using Stockseat.Answers.State;
using Stockseat.Answers.Verbs;
using Stockseat.Fixtures.Revisions;

namespace Stockseat.Benchmarks;

/// <summary>What the benchmarks work on: the demo's bed of pins, and an answer for it.</summary>
internal static class Bed
{
    private const string Name = "pinbed-1";
    private const int Number = 3;

    /// <summary>A revision of a bed of equal pins.</summary>
    public static Revision Revision { get; } = Read(Number);

    /// <summary>The fixture's folder with one revision.</summary>
    public static FixtureFolder Folder(int number) => new(Name, [new(number, "", "", new(Read(number), []))], []);

    /// <summary>An answer as it is served.</summary>
    public static AnswerBody Answer()
    {
        var situation = Situation.Empty.WithFolders([Folder(Number)]);
        foreach (var adopted in Adopting.OfFolders(situation, Fixtures.Adoption.FirstAdoption.Automatic))
        {
            adopted.Serial = 2;
            situation = situation.Apply(adopted);
        }

        var ask = new LocateAsk(new("cell-1", "demo", "127.0.0.1:41001", "job-17"), Name) { DiameterMetres = 0.0815, Column = 2, Row = 1 };
        var answer = (AnswerBody)Decision.Decide(ask, situation, new(2026, 5, 4, 8, 0, 0, TimeSpan.Zero), _ => null);
        (answer.Serial, answer.At) = (1_234_567, "2026-05-04T08:00:00.123456Z");
        return answer;
    }

    private static Revision Read(int number)
    {
        using var file = Assembly.GetExecutingAssembly().GetManifestResourceStream($"{Name}/r{number:0000}.json")!;
        using var bytes = new MemoryStream();
        file.CopyTo(bytes);
        return RevisionReader.Read(bytes.ToArray(), Name, Name, number).Revision!.Prepare();
    }
}
