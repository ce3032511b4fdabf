using Stockseat.Answers.Adopt;
using Stockseat.Answers.Asking;
using Stockseat.Answers.Done;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Loading;
using Stockseat.Answers.Locate;
using Stockseat.Answers.Measured;
using Stockseat.Ledger.Tests.Support;
using TestLedger = Stockseat.Ledger.Tests.Support.Ledger;

namespace Stockseat.Audit.Tests.Replaying;

/// <summary>Loads, nests and lengths, with every reason for which they are refused.</summary>
internal static class VariedLoads
{
    private const int Number = 40;

    private const string More = """
        , "layout": [ { "direction": "u", "count": 3, "pitch": "150 mm" } ], "limits": { "length": "1 mm" },
        "grip": { "along": "w", "share": 0.5, "taughtLength": "120 mm", "within": "0.2 mm" }
        """;

    private static readonly Caller Who = new("bench", "demo", "127.0.0.1:1", "7");

    public static async Task Play(TestLedger ledger)
    {
        ledger.Fixture = Varied.Folder([.. ledger.Fixture.Files, Varied.File(Number, More)]);
        await ledger.Do<RevisionAdoptedBody>(new AdoptAsk(Who, "bed", Number) { By = "setter", Why = "rack", Folder = ledger.Fixture });
        await ledger.Do<RefusalBody>(Next); // load-missing
        await ledger.Do<LoadedBody>(new LoadedAsk(Who, "bed"));
        await ledger.Do<MeasurementBody>(TestLedger.Measured(0.09));
        await ledger.Do<RefusalBody>(Next); // length-missing
        await ledger.Do<RefusalBody>(TestLedger.Measured(0.09) with { LengthMetres = 0.13 }); // length-above-limit
        var terms = new LotTerms { Length = 0.12, LengthPlus = 0.001, LengthMinus = 0.001 };
        await ledger.Do<RefusalBody>(TestLedger.Measured(0.09, lot: "A9") with { LotTerms = terms, LengthMetres = 0.1215 }); // length-outside-lot
        await ledger.Do<MeasurementBody>(TestLedger.Measured(0.09) with { LengthMetres = 0.121 });
        var dropped = await ledger.Do<AnswerBody>(Next);
        await ledger.Do<RefusalBody>(Next); // move-unfinished
        await ledger.Do<DroppedBody>(new DroppedAsk(Who, dropped.Serial));
        await ledger.Do<LoadedBody>(new LoadedAsk(Who, "bed") { Nests = [[1, 0]] });
        await ledger.Do<MeasurementBody>(TestLedger.Measured(0.091) with { LengthMetres = 0.1205, Nest = [1, 0] });
        var answer = await ledger.Do<AnswerBody>(Next);
        await ledger.Do(TestLedger.Received(answer));
        await ledger.Do<DoneBody>(TestLedger.Done(answer.Serial));
        await ledger.Do<RefusalBody>(Next); // load-empty
        await ledger.Do<TrialBody>(Next with { IsTrial = true, Purpose = Purpose.Place, DiameterMetres = 0.085, LengthMetres = 0.12, After = [0, 0] });
        await ledger.Do<GridBody>(new LocateAsk(Who, "bed") { IsGrid = true });
    }

    private static LocateAsk Next => new(Who, "bed") { IsNext = true };
}
