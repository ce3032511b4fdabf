using System.Globalization;
using System.Net;
using Stockseat.Fixtures.Adoption;
using Stockseat.Fixtures.Files;
using Stockseat.Fixtures.Reading;

namespace Stockseat.Service.Configuration;

/// <summary>Reads the configuration: command line over environment over file over defaults; all faults at once; unknown keys are faults.</summary>
public sealed class SettingsReader
{
    /// <summary>How the environment's names begin: STOCKSEAT_DATA, STOCKSEAT_LISTEN_GRPC and so on.</summary>
    public const string EnvironmentPrefix = "STOCKSEAT_";

    /// <summary>1,000 clients with 100 forms and 100 reading ports have less than 1 MB.</summary>
    private const int LongestFile = 16 << 20;

    /// <summary>Never "c": it takes "8" for 8 days.</summary>
    private static readonly string[] Spans = [@"hh\:mm\:ss", @"d\.hh\:mm\:ss"];

    private readonly Overrides _overrides;
    private readonly Dictionary<string, string> _environment;
    private readonly List<SettingSource> _sources = [];
    private readonly Faults _faults;
    private readonly string _folder;

    private SettingsReader(Overrides overrides, IReadOnlyDictionary<string, string> environment)
    {
        _overrides = overrides;
        _environment = environment.Where(p => p.Key.StartsWith(EnvironmentPrefix, StringComparison.Ordinal)).ToDictionary(p => p.Key, p => p.Value);
        _faults = new(overrides.File ?? "settings");
        _folder = overrides.File is null ? Directory.GetCurrentDirectory() : Path.GetDirectoryName(Path.GetFullPath(overrides.File))!;
    }

    /// <summary>Reads.</summary>
    /// <param name="overrides">What the command line says.</param>
    /// <param name="environment">The environment's variables.</param>
    public static SettingsReading Read(Overrides overrides, IReadOnlyDictionary<string, string> environment) =>
        new SettingsReader(overrides, environment).Read();

    private SettingsReading Read()
    {
        var root = Open();
        if (root is null && !_faults.None)
        {
            return new(null, _faults.All);
        }

        var listen = root?.Object("Listen", required: false);
        var grpc = Endpoint(listen, "Grpc", "Listen:Grpc", "127.0.0.1:28610", _overrides.Grpc);
        var line = Endpoint(listen, "Line", "Listen:Line", "127.0.0.1:28611", _overrides.Line, beyondLoopback: true);
        listen?.Finish();
        var fixtures = Folder(root, "Fixtures", "fixtures", null);
        var data = Folder(root, "Data", "data", _overrides.Data);
        var first = Adoption(root);
        var refuseAfterMiss = Flag(root, "RefuseAfterMiss");
        var freshness = Span(root, "Freshness", TimeSpan.FromHours(8));
        var gauges = new GaugesReader(_sources, freshness, ParseSpan).Read(root?.Object("Gauges", required: false));
        var lots = new LotsReader(_sources).Read(root?.Object("Lots", required: false));
        var forms = new FormsReader(_sources).Read(root?.Object("Forms", required: false));
        var clients = new ClientsReader(forms, _sources).Read(root?.Objects("Clients", required: false, 1, 1000));
        var limits = Limits(root?.Object("Limits", required: false));
        var ports = new ReadingPortsReader(gauges, clients, _sources, ParseSpan).Read(root?.Objects("ReadingPorts", required: false, 1, 100));
        var ledger = Ledger(root?.Object("Ledger", required: false));
        root?.Finish("$schema");
        foreach (var name in _environment.Keys)
        {
            _faults.Add(name, "is no variable of this service; mend its name or unset it");
        }

        return !_faults.None ? new(null, _faults.All) : new(
            new()
            {
                Grpc = grpc!,
                Line = line!,
                Fixtures = fixtures,
                Data = data,
                FirstAdoption = first,
                RefuseAfterMiss = refuseAfterMiss,
                Freshness = freshness,
                Clients = clients,
                Forms = forms,
                Limits = limits,
                Gauges = gauges,
                Lots = lots,
                ReadingPorts = ports,
                Ledger = ledger,
                Sources = _sources,
            },
            []);
    }

    private Section? Open()
    {
        if (_overrides.File is null)
        {
            return null;
        }

        try
        {
            return Section.Parse(RegularFile.Read(_overrides.File, LongestFile), _faults);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            _faults.Add("", $"{RegularFile.What(_overrides.File, e)}; name the file with --config");
            return null;
        }
    }

    /// <summary>One text by the order of precedence.</summary>
    private (string Text, string Source) Text(Section? section, string key, string name, string usual, string? commandLine)
    {
        var file = section is not null && section.Has(key) ? section.Text(key) : null;
        var variable = EnvironmentPrefix + name.ToUpperInvariant().Replace(':', '_');
        _environment.Remove(variable, out var environment);
        var (text, source) = commandLine is not null ? (commandLine, "command line")
            : environment is not null ? (environment, "environment")
            : file is not null ? (file, "file")
            : (usual, "default");
        _sources.Add(new(name, text, source));
        return (text, source);
    }

    private IPEndPoint? Endpoint(Section? section, string key, string name, string usual, string? commandLine, bool beyondLoopback = false)
    {
        var (text, _) = Text(section, key, name, usual, commandLine);
        if (AddressText.Endpoint(text, out var fault) is not { } endpoint)
        {
            _faults.Add(name, $"is \"{text}\"; an address and a port such as 127.0.0.1:28610 was expected, port 0 takes a free one; {fault}");
            return null;
        }

        // Until clients can prove who they are, nobody outside this machine may call; lines have their list of addresses.
        if (!beyondLoopback && !IPAddress.IsLoopback(endpoint.Address))
        {
            _faults.Add(name, $"is \"{text}\"; a loopback address (127.0.0.0/8 or [::1]) was expected: without certificates gRPC is for its own machine only; lines may listen elsewhere");
            return null;
        }

        return endpoint;
    }

    private string Folder(Section? root, string key, string usual, string? commandLine)
    {
        var (text, source) = Text(root, key, key, usual, commandLine);
        return Resolve(key, text, source, "folder");
    }

    /// <summary>A path in the file is relative to the file.</summary>
    private string Resolve(string name, string text, string source, string what)
    {
        if (text.Length == 0 || text.Contains('\0', StringComparison.Ordinal))
        {
            _faults.Add(name, $"is \"{text}\"; the path of a {what} was expected");
            return "";
        }

        var path = Path.GetFullPath(text, source is "command line" or "environment" ? Directory.GetCurrentDirectory() : _folder);
        _sources[^1] = new(name, path, source);
        return path;
    }

    private LedgerSettings Ledger(Section? section)
    {
        var usual = LedgerSettings.Usual;
        var (key, source) = Text(section, "SealKey", "Ledger:SealKey", "none: the ledger is not sealed", null);
        var file = source == "default" ? null : Resolve("Ledger:SealKey", key, source, "file");
        var every = Every(section, "SealEvery", 1, usual.SealEvery);
        var snapshots = Every(section, "SnapshotEvery", LedgerSettings.LeastSnapshotEvery, usual.SnapshotEvery);
        var (after, _) = Text(section, "SealAfter", "Ledger:SealAfter", usual.SealAfter.ToString("c", CultureInfo.InvariantCulture), null);
        var span = ParseSpan("Ledger:SealAfter", after);
        if (span > LedgerSettings.LongestAfter)
        {
            _faults.Add("Ledger:SealAfter", $"is \"{after}\"; a day (\"1.00:00:00\") at most was expected");
        }

        var rollAt = Size(section, "RollAt", "Ledger:RollAt");
        section?.Finish();
        return new(file, every, span, rollAt, snapshots);
    }

    /// <summary>A number of entries after which the ledger gets one of its own.</summary>
    private int Every(Section? section, string key, int least, int usual)
    {
        var name = $"Ledger:{key}";
        _environment.Remove($"{EnvironmentPrefix}LEDGER_{key.ToUpperInvariant()}", out var environment);
        var stated = section?.Whole(key, least, LedgerSettings.MostEvery, required: false);
        var every = stated ?? usual;
        if (environment is not null
            && !(int.TryParse(environment, NumberStyles.None, CultureInfo.InvariantCulture, out every) && every >= least && every <= LedgerSettings.MostEvery))
        {
            _faults.Add(name, $"is \"{environment}\"; a whole number from {least} to {LedgerSettings.MostEvery} was expected");
        }

        _sources.Add(new(name, every.ToString(CultureInfo.InvariantCulture), environment is not null ? "environment" : stated is null ? "default" : "file"));
        return every;
    }

    private FirstAdoption Adoption(Section? root)
    {
        var (text, _) = Text(root, "FirstAdoption", "FirstAdoption", "manual", null);
        if (text is not ("manual" or "automatic"))
        {
            _faults.Add("FirstAdoption", $"is \"{text}\"; \"manual\" or \"automatic\" was expected");
        }

        return text == "automatic" ? FirstAdoption.Automatic : FirstAdoption.Manual;
    }

    /// <summary>Yes or no; no unless stated.</summary>
    private bool Flag(Section? root, string key)
    {
        var file = root?.Flag(key);
        _environment.Remove(EnvironmentPrefix + key.ToUpperInvariant(), out var environment);
        var (text, source) = environment is not null ? (environment, "environment")
            : file is { } stated ? (stated ? "true" : "false", "file")
            : ("false", "default");
        if (text is not ("true" or "false"))
        {
            _faults.Add(key, $"is \"{text}\"; true or false was expected");
        }

        _sources.Add(new(key, text, source));
        return text == "true";
    }

    /// <summary>A size, or none.</summary>
    private long? Size(Section? section, string key, string name)
    {
        var (text, _) = Text(section, key, name, SizeText.Never, null);
        if (!SizeText.TryRead(text, out var bytes))
        {
            _faults.Add(name, $"is \"{text}\"; {SizeText.Expected} was expected");
        }

        return bytes;
    }

    private TimeSpan Span(Section? section, string key, TimeSpan usual)
    {
        var (text, _) = Text(section, key, key, usual.ToString("c", CultureInfo.InvariantCulture), null);
        return ParseSpan(key, text);
    }

    private TimeSpan ParseSpan(string path, string text)
    {
        if (TimeSpan.TryParseExact(text, Spans, CultureInfo.InvariantCulture, out var span) && span > TimeSpan.Zero && span <= TimeSpan.FromDays(366))
        {
            return span;
        }

        _faults.Add(path, $"is \"{text}\"; a time such as \"08:00:00\", above 0 and up to 366 days, was expected");
        return TimeSpan.FromHours(1);
    }

    private DoorLimits Limits(Section? section)
    {
        var usual = new DoorLimits();
        int Count(string key, int otherwise)
        {
            var count = section?.Whole(key, 1, 100_000, required: false);
            _sources.Add(new($"Limits:{key}", (count ?? otherwise).ToString(CultureInfo.InvariantCulture), count is null ? "default" : "file"));
            return count ?? otherwise;
        }

        TimeSpan Time(string key, TimeSpan otherwise)
        {
            var text = section is not null && section.Has(key) ? section.Text(key) : null;
            _sources.Add(new($"Limits:{key}", text ?? otherwise.ToString("c", CultureInfo.InvariantCulture), text is null ? "default" : "file"));
            return text is null ? otherwise : ParseSpan(section!.At(key), text);
        }

        var limits = new DoorLimits
        {
            Connections = Count("Connections", usual.Connections),
            Pipelined = Count("Pipelined", usual.Pipelined),
            FirstLine = Time("FirstLine", usual.FirstLine),
            Line = Time("Line", usual.Line),
            Idle = Time("Idle", usual.Idle),
            Reply = Time("Reply", usual.Reply),
        };
        section?.Finish();
        return limits;
    }
}
