using System.Collections.Frozen;
using System.Reflection;
using Microsoft.AspNetCore.Http;

namespace Stockseat.Service.Pages;

/// <summary>The files that pages use: they are in the program.</summary>
internal static class PageFiles
{
    /// <summary>The first part of their paths.</summary>
    public const string Name = "files";

    private static readonly FrozenDictionary<string, (string Type, byte[] Content)> All = new[]
    {
        ("style.css", "text/css; charset=utf-8"), ("board.js", "text/javascript; charset=utf-8"), ("icon.svg", "image/svg+xml"),
    }.ToFrozenDictionary(f => f.Item1, f => (f.Item2, Read(f.Item1)), StringComparer.Ordinal);

    /// <summary>Sends a file; false when there is none of that name.</summary>
    public static async Task<bool> Send(string name, HttpContext context)
    {
        if (!All.TryGetValue(name, out var file))
        {
            return false;
        }

        (context.Response.ContentType, context.Response.ContentLength) = (file.Type, file.Content.Length);
        await context.Response.Body.WriteAsync(file.Content, context.RequestAborted);
        return true;
    }

    private static byte[] Read(string name)
    {
        using var stream = Assembly.GetExecutingAssembly().GetManifestResourceStream($"pages/{name}")
            ?? throw new InvalidOperationException($"the program lacks its file {name}");
        var content = new byte[stream.Length];
        stream.ReadExactly(content);
        return content;
    }
}
