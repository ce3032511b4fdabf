using Stockseat.Answers.Asking;
using Stockseat.Answers.Confirm;
using Stockseat.Answers.Done;
using Stockseat.Answers.Emptied;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Locate;
using Stockseat.Answers.Measured;
using Stockseat.Answers.Reasons;
using Stockseat.Answers.State;
using Stockseat.Answers.Still;
using Stockseat.Service.Answering;
using Stockseat.Service.Clients;
using Stockseat.Service.Gauges;
using Stockseat.Service.Lines.Forms;
using Stockseat.Service.Texts;

namespace Stockseat.Service.Lines;

/// <summary>Turns a line into a reply: always exactly one.</summary>
public sealed class LineConversation(IAnswerer answerer, Client client, Caller caller, TimeProvider time, ReadingPorts? ports = null)
{
    private static readonly string[] Verbs = [
        "hello", "measured", "locate", "confirm", "done", "still", "emptied", "loaded", "next", "dropped", "status", "help", "bye",
    ];

    private static readonly string[] LoadVerbs = ["loaded", "next", "dropped"];

    private static readonly string[] Help =
    [
        // Two lists, so that a reply that may only be short has the first one whole.
        $"verbs={string.Join(',', Verbs.Except(LoadVerbs))}",
        $"loads={string.Join(',', LoadVerbs)}",
        "measured=fixture,diameter,diameters,length,gauge,lot,nest",
        "locate=fixture,diameter,length,lot,nominal,within,purpose,nest,trial",
        $"confirm=serial,{string.Join(',', AnswerBody.Numbers)}",
        "done=serial",
        "still=serial",
        "emptied=fixture",
        "loaded=fixture,lot,nests,first",
        "next=fixture,diameter,length,lot,nominal,within,purpose,trial,after",
        "dropped=serial",
        "status=fixture",
        "all=tag",
    ];

    private readonly LineAsks _asks = new(answerer, client, caller);

    /// <summary>Whether the client said goodbye.</summary>
    public bool Ended { get; private set; }

    /// <summary>Ends when every line so far has its reply; a line that is refused at once overtakes those that wait for the disk.</summary>
    private Task _before = Task.CompletedTask;

    /// <summary>Called for a line that is not a request: it gets a refusal and no entry.</summary>
    public event Action<Refusal>? Malformed;

    /// <summary>Refuses what is not a line.</summary>
    public LineReply Refused(Refusal refusal) => LineReply.Refused(client.Form, null, refusal);

    /// <summary>Answers one line. Lines may be sent before the reply to the line before has come: they are started in their order.</summary>
    public Task<LineReply> Reply(string line)
    {
        var reply = Answer(line, _before);
        _before = _before.IsCompleted ? reply : Task.WhenAll(_before, reply);
        return reply;
    }

    private async Task<LineReply> Answer(string line, Task before)
    {
        var request = LineRequest.Parse(line);
        var values = new LineValues(request, client.Form);
        switch (request.Verb)
        {
            case "hello":
                return Plain(request, values, "stockseat line 2");
            case "help":
                return Plain(request, values, Help);
            case "bye":
                var goodbye = Plain(request, values, "bye");
                Ended = values.Fault is null;
                return goodbye;
            case "status":
                await before.ConfigureAwait(ConfigureAwaitOptions.SuppressThrowing); // It shows the state after the lines before it, or a later one.
                return Status(request, values);
            default:
                var ask = _asks.Read(request, values);
                return ask is not null && values.Fault is null
                    ? Answered(request, await answerer.Ask(client.Permit(ask)))
                    : NoRequest(request, values.Fault is { } fault ? Doubtful(ask, fault)
                        : Refusal.Of(Reason.VerbUnknown, $"'{Refusal.Shown(request.Verb)}' is not a verb{Meant(request.Verb)}"));
        }
    }

    /// <summary>Refuses a line that may not be asked now, such as one too many. Such a push leaves the measurement doubtful.</summary>
    public LineReply Refused(string line, Refusal refusal)
    {
        var request = LineRequest.Parse(line);
        return LineReply.Refused(client.Form, request.Tag, Doubtful(_asks.Read(request, new(request, client.Form)), refusal));
    }

    /// <summary>A push that can't be read, or asked, still shows that the stock was measured again.</summary>
    private Refusal Doubtful(Ask? ask, Refusal refusal) =>
        ask is MeasureAsk or EmptiedAsk && NameText.MayBeFixture(ask.Fixture)
            ? answerer.Doubt(client.Permit(ask is MeasureAsk push ? push with { ReadingsMetres = [] } : ask), refusal)
            : refusal;

    private static string Meant(string verb) => NearestWord.Of(verb, Verbs) is [var meant] ? $", perhaps '{meant}' was meant" : "";

    private LineReply NoRequest(LineRequest request, Refusal refusal)
    {
        Malformed?.Invoke(refusal);
        return LineReply.Refused(client.Form, request.Tag, refusal);
    }

    private LineReply Answered(LineRequest request, AskOutcome outcome) => outcome.Refusal is { } refusal
        ? LineReply.Refused(client.Form, request.Tag, refusal)
        : request.Verb == StillAsk.VerbName ? LineReply.Still(client.Form, request.Tag, outcome.Entry)
        : LineReply.Ok(client.Form, request.Tag, outcome.Entry);

    private LineReply Plain(LineRequest request, LineValues values, params ReadOnlySpan<string> words)
    {
        values.Known();
        if (values.Fault is { } fault)
        {
            return NoRequest(request, fault);
        }

        var reply = NamedReply.Ok(client.Form, request.Tag);
        foreach (var word in words)
        {
            reply.Word(word);
        }

        return reply.End();
    }

    private LineReply Status(LineRequest request, LineValues values)
    {
        values.Known("fixture");
        var fixture = request["fixture"] is null ? null : values.Fixture();
        if (fixture is not null && values.Fault is null && !client.MaySee(fixture))
        {
            values.Refuse(client.Foreign(fixture));
        }

        var state = fixture is null ? null : answerer.Situation.Find(fixture);
        if (values.Fault is not null || (fixture is not null && state is null))
        {
            return NoRequest(request, values.Fault ?? answerer.Unknown(fixture!));
        }

        return state is null ? StatusOfAll(request) : StatusOf(request, state);
    }

    private LineReply StatusOfAll(LineRequest request)
    {
        var fixtures = answerer.Situation.Fixtures.Where(f => client.MaySee(f.Fixture)).ToList();
        var reply = NamedReply.Ok(client.Form, request.Tag)
            .Pair("ledger", answerer.Writable ? "writable" : "unavailable")
            .Pair("serial", answerer.Serial)
            .Pair("fixtures", fixtures.Count)
            .Pair("answering", fixtures.Count(f => f.Refused is null))
            .Pair("waiting", fixtures.Sum(f => f.Waiting.Count()))
            .Pair("turnedaway", answerer.TurnedAway);
        if (answerer.LogDropped is > 0 and var dropped)
        {
            reply.Pair("logdropped", dropped);
        }

        reply.Pair("names", string.Join(',', fixtures.Select(f => f.Fixture)));
        return Ports(reply, "ports", client.MaySee).End();
    }

    private NamedReply Ports(NamedReply reply, string key, Func<string, bool> of)
    {
        var words = string.Join(',', ports?.Statuses.Where(p => of(p.Fixture)).Select(p => p.Short) ?? []);
        return words.Length == 0 ? reply : reply.Pair(key, words);
    }

    /// <summary>One fixture's state. The important fields come first, since replies may be cut to a length.</summary>
    private LineReply StatusOf(LineRequest request, FixtureState state)
    {
        var reply = NamedReply.Ok(client.Form, request.Tag);
        if (client.Form.Longest is not null)
        {
            Answers(reply, state);
            State(reply, state);
        }
        else
        {
            State(reply, state);
            Answers(reply, state);
        }

        return (state.Refused is { } refusal ? reply.Text(refusal.In(answerer.Shown)) : reply).End();
    }

    private static void Answers(NamedReply reply, FixtureState state)
    {
        reply.Pair("answers", state.Refused is null ? "yes" : "no");
        if (state.Refused is { } refusal)
        {
            reply.Pair("reason", refusal.Info.Name);
        }
    }

    private void State(NamedReply reply, FixtureState state)
    {
        reply.Pair("fixture", state.Fixture);
        if (state.InForce is { } revision)
        {
            reply.Pair("revision", revision.Number);
        }

        if (state.Waiting.Any())
        {
            reply.Pair("waiting", string.Join(',', state.Waiting));
        }

        if (state.Missed is { } miss)
        {
            reply.Pair("missed", miss.Serial);
        }

        if (state.Measurement is { } m)
        {
            reply.Pair("measurement", m.Serial).Length("diameter", m.DiameterMetres).Pair("unit", client.Form.Unit.Name());
            if (!answerer.Situation.Doubts(m))
            {
                reply.Pair("age", (long)Math.Max(0, (time.GetUtcNow() - m.At).TotalSeconds));
            }
        }

        if (state.Load is { } load)
        {
            reply.Pair("load", load.Serial).Pair("left", load.Raw.Count);
            if (load.Raw.Count > 0)
            {
                reply.Pair("next", FormattableString.Invariant($"{load.Raw.Min.Column},{load.Raw.Min.Row}"));
            }

            if (load.Open is { } open)
            {
                reply.Pair("unfinished", open.Answer);
            }
        }

        Ports(reply, "port", f => f == state.Fixture);
        if (state.InForce is not null)
        {
            reply.Pair("proven", state.Unproven.Count == 0 ? "yes" : "no");
        }
    }
}
