using System.Net;
using System.Net.Sockets;
using System.Text.RegularExpressions;

namespace Stockseat.Service.Tests.Support;

/// <summary>A browser without scripts: it opens pages and sends their forms.</summary>
internal sealed partial class PageClient : IDisposable
{
    private readonly HttpClient _http;
    private readonly IPEndPoint _page;

    public PageClient(IPEndPoint page, string from = "127.0.0.1")
    {
        _page = page;
        _http = new(new SocketsHttpHandler
        {
            AllowAutoRedirect = false, UseProxy = false, ConnectCallback = async (_, token) =>
            {
                var socket = new Socket(SocketType.Stream, ProtocolType.Tcp);
                socket.Bind(new IPEndPoint(IPAddress.Parse(from), 0));
                await socket.ConnectAsync(page, token);
                return new NetworkStream(socket, ownsSocket: true);
            },
        })
        {
            BaseAddress = new($"http://{page}"), Timeout = Deadline.Usual,
        };
    }

    /// <summary>The origin of the pages.</summary>
    public string Origin => $"http://{_page}";

    public Task<HttpResponseMessage> Get(string path, params (string Name, string Value)[] headers) => Send(HttpMethod.Get, path, null, headers);

    /// <summary>The text of a page that is shown.</summary>
    public async Task<string> Page(string path)
    {
        using var reply = await Get(path);
        Assert.Equal(HttpStatusCode.OK, reply.StatusCode);
        return await reply.Content.ReadAsStringAsync();
    }

    /// <summary>The token in the form of a page.</summary>
    public async Task<string> Token(string path) => TokenIn(await Page(path));

    public static string TokenIn(string page) => FormToken().Match(page) is { Success: true } m ? m.Groups[1].Value : throw new InvalidDataException(page);

    /// <summary>Sends a form as a browser does, from the page itself.</summary>
    public Task<HttpResponseMessage> Post(string path, params (string Name, string Value)[] fields) => PostFrom(Origin, path, fields);

    /// <summary>Sends a form from a page of some origin; null: it says nothing of where it comes from.</summary>
    public Task<HttpResponseMessage> PostFrom(string? origin, string path, params (string Name, string Value)[] fields) => Send(
        HttpMethod.Post, path, new FormUrlEncodedContent(fields.Select(f => KeyValuePair.Create(f.Name, f.Value))), origin is null ? [] : [("Origin", origin)]);

    public Task<HttpResponseMessage> Send(HttpMethod method, string path, HttpContent? content, params (string Name, string Value)[] headers)
    {
        var request = new HttpRequestMessage(method, path) { Content = content };
        foreach (var (name, value) in headers)
        {
            request.Headers.TryAddWithoutValidation(name, value);
        }

        return _http.SendAsync(request).Within($"{method} {path}");
    }

    public void Dispose() => _http.Dispose();

    [GeneratedRegex("name=\"form\" value=\"([^\"]+)\"")]
    private static partial Regex FormToken();
}
