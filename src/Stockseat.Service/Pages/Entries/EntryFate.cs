using Stockseat.Answers.Adopt;
using Stockseat.Answers.Confirm;
using Stockseat.Answers.Done;
using Stockseat.Answers.Emptied;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Hold;
using Stockseat.Answers.Locate;
using Stockseat.Answers.Measured;
using Stockseat.Answers.Notes;
using Stockseat.Answers.Recheck;

namespace Stockseat.Service.Pages.Entries;

/// <summary>What came of an entry, by the entries after it. Pure.</summary>
public static class EntryFate
{
    /// <summary>The entries that belong to it, each with what it did: all that name it, and the first that replaced it.</summary>
    /// <param name="body">The entry.</param>
    /// <param name="later">Entries after it, in order: those of its fixture, and notes.</param>
    public static IReadOnlyList<(string What, EntryBody Entry)> Of(EntryBody body, IEnumerable<EntryBody> later)
    {
        var found = new List<(string What, EntryBody Entry)>();
        var isReplaced = false;
        foreach (var entry in later)
        {
            if (Names(entry, body) is { } what)
            {
                if (what != Used || found.TrueForAll(f => f.What != Used)) // Hundreds of answers may use one measurement: the first is enough.
                {
                    found.Add((what, entry));
                }
            }
            else if (!isReplaced && Replaces(entry, body) is { } how)
            {
                isReplaced = true;
                found.Add((how, entry));
            }
        }

        return found;
    }

    /// <summary>Whether it is an entry of which a controller or a person should say what came of it.</summary>
    public static bool IsAnswer(EntryBody body) => body is AnswerBody;

    /// <summary>What an entry of an answer is called that said it was received.</summary>
    public const string Received = "Received";

    /// <summary>The same for carried out.</summary>
    public const string CarriedOut = "Carried out";

    private const string Used = "First used by";
    private const string Superseded = "Superseded by";

    private static string? Names(EntryBody entry, EntryBody body) => entry switch
    {
        ConfirmationBody c when c.Confirms == body.Serial => c.Numbers == ConfirmationBody.None ? "Confirmed without numbers" : Received,
        DoneBody d when d.Answer == body.Serial => CarriedOut,
        RefusalBody r when r.Confirms == body.Serial || r.Answer == body.Serial => "Refused",
        ServedBody s when s.Measurement == body.Serial => Used,
        NoteBody n when n.Entry == body.Serial => "Note",
        _ => null,
    };

    private static string? Replaces(EntryBody entry, EntryBody body) => entry.Fixture != body.Fixture ? null : body switch
    {
        AnswerBody answer => entry is RevisionAdoptedBody or HeldBody or EmptiedBody or MeasurementBody or RecheckBody { Passed: false }
            || VoidingPush.Is(entry) || (entry is AnswerBody other && other.Purpose == answer.Purpose) ? Superseded : null,
        MeasurementBody => entry is RevisionAdoptedBody or EmptiedBody or MeasurementBody || VoidingPush.Is(entry) ? Superseded : null,
        RevisionAdoptedBody => entry is RevisionAdoptedBody ? Superseded : null,
        HeldBody held => entry is ReleasedBody released && released.Of == held.By ? "Released by" : null,
        _ => null,
    };
}
