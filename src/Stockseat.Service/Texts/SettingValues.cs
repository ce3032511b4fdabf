using System.Globalization;
using System.Net;
using Stockseat.Fixtures.Reading;

namespace Stockseat.Service.Texts;

/// <summary>
/// Single settings by the order of precedence: command line over environment over file over default. It keeps where each comes from, and all faults.
/// </summary>
internal sealed class SettingValues
{
    /// <summary>The prefix of names in the environment.</summary>
    public const string EnvironmentPrefix = "STOCKSEAT_";

    /// <summary>What is stated for a listener that is not wanted.</summary>
    public const string None = "none";

    /// <summary>Variables of the commands that call a service: they say nothing about a service itself.</summary>
    private static readonly string[] OfCallers =
        [.. new[] { "SERVER", "AUTHORITY", "CERTIFICATE", "KEY" }.Select(name => EnvironmentPrefix + name)];

    /// <summary>Never "c", which reads "8" as 8 days.</summary>
    private static readonly string[] Spans = [@"hh\:mm\:ss", @"d\.hh\:mm\:ss"];

    private readonly Dictionary<string, string> _environment;
    private readonly string _folder;

    /// <param name="file">The configuration file; null: none.</param>
    /// <param name="environment">The environment's variables.</param>
    public SettingValues(string? file, IReadOnlyDictionary<string, string> environment)
    {
        _environment = environment.Where(p => p.Key.StartsWith(EnvironmentPrefix, StringComparison.Ordinal) && !OfCallers.Contains(p.Key))
            .ToDictionary(p => p.Key, p => p.Value);
        Faults = new(file ?? "settings");
        _folder = file is null ? Directory.GetCurrentDirectory() : System.IO.Path.GetDirectoryName(System.IO.Path.GetFullPath(file))!;
    }

    /// <summary>Where each setting comes from, in the order in which they were read.</summary>
    public List<SettingSource> Sources { get; } = [];

    /// <summary>What is wrong.</summary>
    public Faults Faults { get; }

    /// <summary>One text.</summary>
    /// <param name="section">Where the file states it.</param>
    /// <param name="key">Its key there.</param>
    /// <param name="name">Its whole name, with colons between levels.</param>
    /// <param name="usual">The default.</param>
    /// <param name="commandLine">What the command line states.</param>
    public (string Text, string Source) Text(Section? section, string key, string name, string usual, string? commandLine = null)
    {
        var stated = Stated(section, key, name);
        return Kept(name, commandLine is not null ? (commandLine, "command line") : stated ?? (usual, "default"));
    }

    /// <summary>What environment or file state; null: neither states it.</summary>
    private (string Text, string Source)? Stated(Section? section, string key, string name)
    {
        var file = section is not null && section.Has(key) ? section.Text(key) : null;
        return Environment(name) is { } environment ? (environment, "environment") : file is null ? null : (file, "file");
    }

    /// <summary>Keeps a setting for those who look where it comes from.</summary>
    private (string Text, string Source) Kept(string name, (string Text, string Source) stated)
    {
        Sources.Add(new(name, stated.Text, stated.Source));
        return stated;
    }

    /// <summary>What the environment says about a setting; null: nothing.</summary>
    public string? Environment(string name)
    {
        _environment.Remove(EnvironmentPrefix + name.ToUpperInvariant().Replace(':', '_'), out var stated);
        return stated;
    }

    /// <summary>Any other name in the environment is a fault: a misspelled name would change nothing, and nobody would notice.</summary>
    public void RefuseUnknown()
    {
        foreach (var name in _environment.Keys)
        {
            Faults.Add(name, "is not a variable of this service; correct its name or unset it");
        }
    }

    /// <summary>An address and a port to listen at.</summary>
    /// <param name="section">Where the file states it.</param>
    /// <param name="key">Its key there.</param>
    /// <param name="name">Its whole name.</param>
    /// <param name="usual">The default.</param>
    /// <param name="commandLine">What the command line states.</param>
    /// <param name="here">Why only this machine may reach it, and what to do about that; null: others may, too.</param>
    public IPEndPoint? Endpoint(Section? section, string key, string name, string usual, string? commandLine, string? here = null)
    {
        var (text, _) = Text(section, key, name, usual, commandLine);
        return Endpoint(name, text, here);
    }

    /// <summary>The same for a listener that there is only when something states it.</summary>
    public IPEndPoint? OtherEndpoint(Section? section, string key, string name) =>
        Stated(section, key, name) is { } stated ? Endpoint(name, Kept(name, stated).Text, here: null) : null;

    /// <summary>The same for a listener that can be left out.</summary>
    public IPEndPoint? EndpointOrNone(Section? section, string key, string name, string usual)
    {
        var (text, _) = Text(section, key, name, usual);
        return text == None ? null : Endpoint(name, text, here: null);
    }

    private IPEndPoint? Endpoint(string name, string text, string? here)
    {
        if (AddressText.Endpoint(text, out var fault) is not { } endpoint)
        {
            Faults.Add(name, $"is \"{text}\"; an address and a port such as 127.0.0.1:28610 was expected, port 0 takes a free one; {fault}");
            return null;
        }

        if (here is not null && !IPAddress.IsLoopback(endpoint.Address))
        {
            Faults.Add(name, $"is \"{text}\"; a loopback address (127.0.0.0/8 or [::1]) was expected: {here}");
            return null;
        }

        return endpoint;
    }

    /// <summary>A text; null when nothing states it.</summary>
    public string? TextOrNull(Section? section, string key, string name) =>
        Stated(section, key, name) is { } stated ? Kept(name, stated).Text : null;

    /// <summary>The path of a file; null when nothing states it.</summary>
    public string? Path(Section? section, string key, string name, string what)
    {
        if (Stated(section, key, name) is not { } stated)
        {
            return null;
        }

        var (text, source) = Kept(name, stated);
        return Resolve(name, text, source, what);
    }

    /// <summary>Keeps what was stated out of what is printed.</summary>
    public void Conceal(string name)
    {
        var at = Sources.FindLastIndex(s => s.Key == name);
        Sources[at] = Sources[at] with { Value = "(not shown)" };
    }

    /// <summary>A folder at the file's root.</summary>
    public string Folder(Section? root, string key, string usual, string? commandLine = null)
    {
        var (text, source) = Text(root, key, key, usual, commandLine);
        return Resolve(key, text, source, "folder");
    }

    /// <summary>Names of hosts at the file's root.</summary>
    public IReadOnlyList<string> Hosts(Section? root)
    {
        const string Key = "AllowedHosts";
        if (root is null || !root.Has(Key))
        {
            return [];
        }

        var names = root.Texts(Key, 1, 100);
        for (var i = 0; i < names.Count; i++)
        {
            if (Uri.CheckHostName(names[i]) is UriHostNameType.Unknown)
            {
                Faults.Add($"{Key}[{i}]", $"is \"{names[i]}\"; the name of a host without a port was expected, such as stockseat.example");
            }
        }

        Sources.Add(new(Key, string.Join(", ", names), "file"));
        return names;
    }

    /// <summary>A path in the file is relative to the file. It is shown as an absolute path.</summary>
    public string Resolve(string name, string text, string source, string what)
    {
        if (text.Length == 0 || text.Contains('\0', StringComparison.Ordinal))
        {
            Faults.Add(name, $"is \"{text}\"; the path of a {what} was expected");
            return "";
        }

        var path = System.IO.Path.GetFullPath(text, source is "command line" or "environment" ? Directory.GetCurrentDirectory() : _folder);
        Sources[^1] = new(name, path, source);
        return path;
    }

    /// <summary>Yes or no at the file's root; no unless stated.</summary>
    public bool Flag(Section? root, string key, bool unstated = false)
    {
        var file = root?.Flag(key);
        var environment = Environment(key);
        var (text, source) = environment is not null ? (environment, "environment")
            : file is { } stated ? (stated ? "true" : "false", "file")
            : (unstated ? "true" : "false", "default");
        if (text is not ("true" or "false"))
        {
            Faults.Add(key, $"is \"{text}\"; true or false was expected");
        }

        Sources.Add(new(key, text, source));
        return text == "true";
    }

    /// <summary>A whole number, from 1 unless stated.</summary>
    public int Whole(Section? section, string key, string name, int usual, int most, int least = 1)
    {
        var environment = Environment(name);
        var stated = section?.Whole(key, least, most, required: false);
        var value = stated ?? usual;
        if (environment is not null
            && !(int.TryParse(environment, NumberStyles.None, CultureInfo.InvariantCulture, out value) && value >= least && value <= most))
        {
            Faults.Add(name, $"is \"{environment}\"; a whole number from {least} to {most} was expected");
        }

        var source = environment is not null ? "environment" : stated is null ? "default" : "file";
        Sources.Add(new(name, value.ToString(CultureInfo.InvariantCulture), source));
        return value;
    }

    /// <summary>A time.</summary>
    public TimeSpan Span(Section? section, string key, string name, TimeSpan usual)
    {
        var (text, _) = Text(section, key, name, usual.ToString("c", CultureInfo.InvariantCulture));
        return Span(name, text);
    }

    /// <summary>A time that was read as text at a path.</summary>
    public TimeSpan Span(string path, string text)
    {
        if (TimeSpan.TryParseExact(text, Spans, CultureInfo.InvariantCulture, out var span) && span > TimeSpan.Zero && span <= TimeSpan.FromDays(366))
        {
            return span;
        }

        Faults.Add(path, $"is \"{text}\"; a time such as \"08:00:00\", above 0 and up to 366 days, was expected");
        return TimeSpan.FromHours(1);
    }
}
