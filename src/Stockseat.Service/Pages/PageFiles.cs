using System.Collections.Frozen;
using System.Reflection;
using System.Text;
using Microsoft.AspNetCore.Http;
using Stockseat.Audit.Showing;
using Stockseat.Sheets.Reports;

namespace Stockseat.Service.Pages;

/// <summary>The files that pages use: they are in the program.</summary>
internal static class PageFiles
{
    /// <summary>The first part of their paths.</summary>
    public const string Name = "files";

    private const string Css = "text/css; charset=utf-8";

    private static readonly FrozenDictionary<string, (string Type, byte[] Content)> All = new[]
    {
        ("style.css", Css, Read("style.css")),
        ("board.js", "text/javascript; charset=utf-8", Read("board.js")), ("icon.svg", "image/svg+xml", Read("icon.svg")),
        (ReportStyle(PaperSize.A4), Css, Encoding.UTF8.GetBytes(ReviewReport.Style(PaperSize.A4))),
        (ReportStyle(PaperSize.Letter), Css, Encoding.UTF8.GetBytes(ReviewReport.Style(PaperSize.Letter))),
    }.ToFrozenDictionary(f => f.Item1, f => (f.Item2, f.Item3), StringComparer.Ordinal);

    /// <summary>The name of the style sheet of reports on a paper.</summary>
    public static string ReportStyle(PaperSize paper) => $"report-{paper.Name.ToLowerInvariant()}.css";

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
