using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using Stockseat.Service.Texts;

namespace Stockseat.Service.Pages;

/// <summary>
/// Tokens of forms. A page of somebody else can make a browser send a form here, but can't read a token; so a form without a good one does nothing. A token
/// holds for one client and one page, for a few hours, until the service stops. It carries the form's id, which makes a form that is sent twice one entry.
/// </summary>
/// <param name="time">Its counter, which nobody can set, measures how old a form is.</param>
public sealed class FormTokens(TimeProvider time)
{
    /// <summary>How long a form may lie open before it is sent.</summary>
    public static readonly TimeSpan Life = TimeSpan.FromHours(4);

    /// <summary>The beginning of the ids of forms.</summary>
    private const string Prefix = "page-";

    private readonly byte[] _key = RandomNumberGenerator.GetBytes(32);

    /// <summary>A token.</summary>
    /// <param name="client">The client that the form is shown to.</param>
    /// <param name="page">The path of its page.</param>
    /// <param name="request">The id that it keeps; null: a new one.</param>
    public string Make(string client, string page, string? request = null)
    {
        var id = request is { Length: > 0 } ? request : Prefix + Guid.NewGuid().ToString("N");
        var at = time.GetTimestamp().ToString(CultureInfo.InvariantCulture);
        return $"{at}.{id}.{Sign(client, page, at, id)}";
    }

    /// <summary>The id that a token carries, whether the token is good or not; "" when there is none.</summary>
    public static string RequestOf(string token) =>
        token.Split('.') is [_, var id, _] && IsRequest(id) ? id : "";

    /// <summary>Whether a text can be the id of a form.</summary>
    public static bool IsRequest(string id) => NameText.IsName(id) && id.StartsWith(Prefix, StringComparison.Ordinal);

    /// <summary>Whether a token was made by this process for this client and this page, and is not too old.</summary>
    public bool IsGood(string token, string client, string page)
    {
        if (token.Split('.') is not [var at, var id, var mac] || RequestOf(token).Length == 0)
        {
            return false;
        }

        return CryptographicOperations.FixedTimeEquals(Encoding.UTF8.GetBytes(mac), Encoding.UTF8.GetBytes(Sign(client, page, at, id)))
            && long.TryParse(at, NumberStyles.None, CultureInfo.InvariantCulture, out var made) && time.GetElapsedTime(made) <= Life;
    }

    private string Sign(string client, string page, string at, string id) =>
        Convert.ToHexStringLower(HMACSHA256.HashData(_key, Encoding.UTF8.GetBytes($"{client}\n{page}\n{at}\n{id}")));
}
