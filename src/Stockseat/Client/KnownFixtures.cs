using System.Text.RegularExpressions;
using Grpc.Core;
using Polly.Timeout;
using Stockseat.Service.Texts;

namespace Stockseat.Cli.Client;

/// <summary>Names the fixtures of a service to somebody who asked for one that it does not have.</summary>
internal static partial class KnownFixtures
{
    private const int MostNamed = 20;

    /// <summary>What to say after a refusal; null when the service does not list its fixtures to this client.</summary>
    /// <param name="client">Who asks.</param>
    /// <param name="refusal">The refusal's text, which names the fixture that was asked for.</param>
    public static async Task<string?> Said(ServiceClient client, string refusal)
    {
        try
        {
            var list = await client.Call(token => client.Fixtures.ListFixturesAsync(new(), cancellationToken: token));
            var names = list.Fixtures.Select(f => f.Fixture_).ToList();
            return names.Count is 0 or > MostNamed ? null
                : $"this service has {string.Join(", ", names)}{NearestWord.Hint(Asked().Match(refusal).Groups["name"].Value, names)}";
        }
        catch (Exception e) when (e is RpcException or TimeoutRejectedException or HttpRequestException)
        {
            return null;
        }
    }

    [GeneratedRegex("fixture '?(?<name>[A-Za-z0-9._-]+)")]
    private static partial Regex Asked();
}
