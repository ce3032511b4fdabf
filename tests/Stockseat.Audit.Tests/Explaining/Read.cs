using Stockseat.Answers.Confirm;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Locate;
using Stockseat.Answers.Measured;
using Stockseat.Answers.Tests.Support;
using Stockseat.Answers.Verbs;
using Stockseat.Audit.Explaining;

namespace Stockseat.Audit.Tests.Explaining;

/// <summary>Reads a working.</summary>
internal static class Read
{
    /// <summary>Works out the last entry of a bench, from the situation right before it.</summary>
    public static Working Last(Bench bench) => Of(bench, bench.Entries[^1]);

    /// <summary>Works out an entry of a bench from its bytes, and checks that the working is sound.</summary>
    public static Working Of(Bench bench, EntryBody entry)
    {
        var recorded = BodyJson.Read(entry.Kind, Bench.Bytes(entry))!;
        var measured = recorded switch { AnswerBody a => a.Measurement, RefusalBody r => r.Measurement, _ => null };
        var confirmed = recorded switch { ConfirmationBody c => c.Confirms, RefusalBody r => r.Confirms, _ => null };
        var working = Working.Of(
            recorded, bench.Before(entry.Serial), bench.Entries.Find(e => e.Serial == measured) as MeasurementBody,
            bench.Entries.Find(e => e.Serial == confirmed) as AnswerBody);
        Assert.Equal(entry.Serial, working.Serial);
        Sound.Check(working);
        return working;
    }

    public static WorkingSection Section(this Working working, string title) => Assert.Single(working.Sections, s => s.Title == title);

    public static WorkingLine Line(this WorkingSection section, string symbol) => Assert.Single(section.Lines, l => l.Symbol == symbol);

    public static IReadOnlyList<double> Values(this Working working, string title, string symbol) => working.Section(title).Line(symbol).Values;

    public static double Value(this Working working, string title, string symbol) => Assert.Single(working.Values(title, symbol));

    /// <summary>All sentences and texts, to look for words that have to be in them.</summary>
    public static string Words(this Working working) => string.Join('\n', working.Sections.SelectMany(s => s.Lines).Select(l => l.Text));

    /// <summary>The last line with a value of the last section.</summary>
    public static WorkingLine Verdict(this Working working) => working.Sections[^1].Lines[^1];
}
