using System.Text;
using Microsoft.AspNetCore.Http;
using Microsoft.Extensions.Logging;
using RazorSlices;
using Stockseat.Answers.Reasons;
using Stockseat.Service.Clients;
using Stockseat.Sheets.Html;

namespace Stockseat.Service.Pages;

/// <summary>
/// What every request at the listener of the pages passes: its headers, the name of the host, where it comes from, its client's rate. Then its page is asked,
/// and a form only when it is fresh.
/// </summary>
internal sealed class PageServer(
    IEnumerable<IPage> pages, PageFrames frames, FormTokens tokens, HostNames hosts, Door door, ILogger<PageServer> logger)
{
    private const string TooOld =
        "Nothing was recorded: this form was open for too long, or the service has been started again since. Look at it once more, and send it again.";

    private readonly Dictionary<string, IPage> _pages = pages.ToDictionary(p => p.Name, StringComparer.Ordinal);

    public async Task Serve(HttpContext context)
    {
        foreach (var (name, value) in PageSecurity.Headers)
        {
            context.Response.Headers[name] = value;
        }

        var visit = context.Features.Get<Visit>()!; // The door has checked it before.
        if (hosts.Unknown(context.Request) is { } host)
        {
            door.Count(TurnedAway.Host);
            await Say(context, PageReply.StatusOf(host.Reason), host.Text);
            return;
        }

        if (PageSecurity.Foreign(context.Request) is { } foreign)
        {
            door.Count(TurnedAway.Host);
            await Say(context, PageReply.StatusOf(foreign.Reason), foreign.Text);
            return;
        }

        if ((door.Ask(visit.Client) ?? door.Begin(visit.Client)) is { } busy)
        {
            context.Response.Headers.RetryAfter = "1";
            await Say(context, PageReply.StatusOf(busy.Reason), busy.Text);
            return;
        }

        try
        {
            await Reply(context, visit);
        }
        catch (Exception e) when (e is OperationCanceledException or IOException || context.RequestAborted.IsCancellationRequested)
        {
            // The caller has gone.
        }
        catch (Exception e)
        {
            Log.PageFailed(logger, e, context.Request.Path.Value ?? "");
            if (!context.Response.HasStarted)
            {
                await Say(context, StatusCodes.Status500InternalServerError, "The page could not be made; the service's log says why.");
            }
        }
        finally
        {
            door.End(visit.Client);
        }
    }

    private async Task Reply(HttpContext context, Visit visit)
    {
        var parts = (context.Request.Path.Value ?? "/")[1..].Split('/');
        var isGet = HttpMethods.IsGet(context.Request.Method);
        if (isGet && parts is [PageFiles.Name, var file] && await PageFiles.Send(file, context))
        {
            return;
        }

        var request = new PageRequest(context, visit, parts[1..], frames, tokens);
        var reply = !_pages.TryGetValue(parts[0], out var page) ? PageReply.NoPage
            : isGet ? await page.Get(request)
            : HttpMethods.IsPost(context.Request.Method) ? await Post(context, page, request)
            : PageReply.Problem(StatusCodes.Status405MethodNotAllowed, "Only GET and POST are answered", "Nothing was recorded.");
        context.Response.StatusCode = reply.Status;
        if (reply.Next is { } next)
        {
            context.Response.Headers.Location = next;
            return;
        }

        if (reply.Writer is { } writer)
        {
            await writer(context);
            return;
        }

        if (reply.Document is { } document)
        {
            await Send(context, document);
            return;
        }

        await Show(context, reply.Slice ?? Problem.Create(new(request.Frame(reply.Trouble!.Value.Heading), reply.Trouble.Value.Text)));
    }

    private async Task<PageReply> Post(HttpContext context, IPage page, PageRequest request)
    {
        var (form, token, fault) = await FormReader.Read(context);
        return form is null ? PageReply.Problem(StatusCodes.Status400BadRequest, "The form can't be read", $"Nothing was recorded: {fault}.")
            : tokens.IsGood(token, request.Client.Name, request.Whole) ? await page.Post(request, form)
            : await page.Again(request, form, TooOld);
    }

    /// <summary>A page is made completely before its first byte is sent.</summary>
    private static async Task Show(HttpContext context, RazorSlice slice)
    {
        using var made = slice;
        await Send(context, await made.RenderAsync(PageEncoder.Instance, context.RequestAborted));
    }

    private static async Task Send(HttpContext context, string page)
    {
        var text = Encoding.UTF8.GetBytes(page);
        (context.Response.ContentType, context.Response.ContentLength) = ("text/html; charset=utf-8", text.Length);
        await context.Response.Body.WriteAsync(text, context.RequestAborted);
    }

    private static async Task Say(HttpContext context, int status, string text)
    {
        (context.Response.StatusCode, context.Response.ContentType) = (status, "text/plain; charset=utf-8");
        await context.Response.WriteAsync(PlainText.Clean(text) + "\n", context.RequestAborted);
    }
}

/// <summary>A page that says why the wanted one is not shown.</summary>
/// <param name="Frame">What is around it.</param>
/// <param name="Text">What is wrong, and what to do.</param>
public sealed record ProblemModel(PageFrame Frame, string Text);
