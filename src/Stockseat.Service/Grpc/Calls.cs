using Grpc.Core;
using Microsoft.Extensions.DependencyInjection;
using Stockseat.Answers.Asking;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Reasons;
using Stockseat.Fixtures.Revisions;
using Stockseat.Service.Answering;
using Stockseat.Service.Clients;
using Stockseat.Service.Texts;

namespace Stockseat.Service.Grpc;

/// <summary>What every call needs: who asks, and fields that are checked before anything is decided.</summary>
internal static class Calls
{
    /// <summary>The connection of a call: its client was found when the connection was made.</summary>
    public static Visit Visit(this ServerCallContext context) =>
        context.GetHttpContext().Features.Get<Visit>() ?? throw ClientTable.Stranger.ToRpc(); // The door has checked it before.

    /// <summary>Who calls. Nothing in a call can claim a name: only the address counts.</summary>
    /// <param name="context">The call.</param>
    /// <param name="tag">The tag that it sent.</param>
    /// <param name="request">The request id that it sent.</param>
    public static (Client Client, Caller Caller) From(this ServerCallContext context, string tag = "", string request = "")
    {
        var visit = context.Visit();
        return (visit.Client, visit.Caller.Saying(tag, request));
    }

    /// <summary>Refuses a push that comes too fast, before more of it is read: it leaves the measurement doubtful.</summary>
    /// <param name="context">The call.</param>
    /// <param name="answerer">What the push is reported to.</param>
    /// <param name="push">The push that this is, as far as it is known.</param>
    public static void RefuseBusy(this ServerCallContext context, IAnswerer answerer, Func<Caller, Ask> push)
    {
        if (context.Busy() is { } busy)
        {
            var visit = context.Visit();
            throw answerer.Doubt(visit.Client.Permit(push(visit.Caller)), busy).ToRpc();
        }
    }

    /// <summary>Why a push is not accepted, which the door let through because its fixture has to be known. Null: it is accepted.</summary>
    public static Refusal? Busy(this ServerCallContext context) =>
        context.GetHttpContext().Items.TryGetValue(CallDoor.Busy, out var busy) ? busy as Refusal : null;

    /// <summary>The caller with the tag and the request id that it sent.</summary>
    public static Caller Saying(this Caller caller, string tag, string request) =>
        tag.Length == 0 && request.Length == 0 ? caller : caller with { Tag = Name("tag", tag), Request = Name("request_id", request) };

    /// <summary>A client that has one of these roles.</summary>
    public static Client With(this ServerCallContext context, Roles any, string what)
    {
        var client = context.Visit().Client;
        return client.Lacks(any, what) is { } refusal ? throw refusal.ToRpc() : client;
    }

    /// <summary>A fixture that the client may see.</summary>
    public static string Seen(this Client client, string value)
    {
        var fixture = Fixture(value);
        return client.MaySee(fixture) ? fixture : throw client.Foreign(fixture).ToRpc();
    }

    /// <summary>A name, or null when it is empty.</summary>
    public static string? Name(string field, string value) =>
        value.Length == 0 ? null
        : NameText.IsName(value) ? value
        : throw Malformed($"{field} is not {NameText.Expected}");

    public static string Fixture(string value) =>
        value.Length == 0 ? throw Refusal.Of(Reason.KeyMissing, "fixture is empty").ToRpc()
        : NameText.MayBeFixture(value) ? value
        : throw Malformed("fixture is not a fixture's name");

    /// <summary>Who or why, as a person states it, without white space around it.</summary>
    public static string Said(string field, string value, string expected = "who does it, and why, were expected, each") => SaidText.Read(value)
        ?? throw Malformed($"{field} has {value.Trim().Length} characters; {expected} with 1 to {SaidText.Longest} characters");

    /// <summary>A note, which a person may add; null when there is none.</summary>
    public static string? Note(string field, string value) => value.Trim().Length == 0 ? null : Said(field, value);

    /// <summary>The first digits of a digest. An empty one is refused: a script that lost it must not adopt by name alone.</summary>
    public static string Digest(string field, string value) => DigestPrefix.TryRead(value, out var prefix)
        ? prefix
        : throw Malformed($"{field} is '{Refusal.Shown(value)}'; {DigestPrefix.Expected}, were expected");

    public static double Diameter(string field, double metres) =>
        metres / 2 > 0 && metres <= Answerer.LongestMetres // half of the smallest number, as a radius, is 0
            ? metres
            : throw Refusal.Of(Reason.DiameterMalformed, string.Create(System.Globalization.CultureInfo.InvariantCulture,
                $"{field} is {metres:R}; above 0 and up to {Answerer.LongestMetres} m was expected")).ToRpc();

    public static RefusedCall Malformed(string what) => Refusal.Of(Reason.ValueMalformed, what).ToRpc();

    /// <summary>The entry asked for, or the refusal as a status.</summary>
    public static T Entry<T>(this AskOutcome outcome)
        where T : EntryBody => outcome.Refusal is { } refusal ? throw refusal.ToRpc() : (T)outcome.Entry;
}
