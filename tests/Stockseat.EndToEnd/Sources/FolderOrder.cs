namespace Stockseat.EndToEnd.Sources;

/// <summary>Which folders of a project may use which: those of a step may use the folders of the steps before it, and no others.</summary>
internal sealed class FolderOrder
{
    /// <summary>The name for the project's own folder.</summary>
    private const string Own = "(root)";

    private readonly string _project;
    private readonly IReadOnlyList<string[]> _steps;

    private FolderOrder(string project, IReadOnlyList<string[]> steps) => (_project, _steps) = (project, steps);

    /// <summary>Reads the orders: <c>project: folder, folder &lt; folder</c>, one project a line.</summary>
    public static Dictionary<string, FolderOrder> Read(IEnumerable<string> lines) =>
        lines.Where(l => !l.StartsWith('#') && l.Contains(':', StringComparison.Ordinal)).Select(l => l.Split(':')).ToDictionary(
        l => l[0].Trim(),
        l => new FolderOrder(l[0].Trim(), [.. l[1].Split('<').Select(step => step.Split(',', StringSplitOptions.TrimEntries))]),
        StringComparer.Ordinal);

    /// <summary>Every violation of the order.</summary>
    public IEnumerable<string> Faults(SourceProject project)
    {
        var (there, known) = (project.Folders.Select(Named).ToHashSet(StringComparer.Ordinal), _steps.SelectMany(s => s).ToList());
        return project.Arrows().Where(a => Step(a.To) < 0 || Step(a.From) <= Step(a.To))
            .Select(a => $"{_project}/{a.File}:{a.Line}: {Named(a.From)} uses {a.Type} of {Named(a.To)}, which the order does not allow")
            .Concat(there.Except(known).Select(f => $"{_project}: the folder {f} is not in its order"))
            .Concat(known.Except(there).Select(f => $"{_project}: the folder {f} of its order does not exist"))
            .Concat(known.GroupBy(f => f).Where(f => f.Count() > 1).Select(f => $"{_project}: the folder {f.Key} appears in its order twice"));
    }

    /// <summary>A possible order for a project, as a line; null when its folders form a circle.</summary>
    public static string? Of(SourceProject project)
    {
        var (left, steps) = (project.Folders.ToHashSet(StringComparer.Ordinal), new List<string>());
        var arrows = project.Arrows().Select(a => (a.From, a.To)).Distinct().ToList();
        while (left.Count > 0)
        {
            var next = left.Where(f => !arrows.Any(a => a.From == f && left.Contains(a.To))).Order(StringComparer.Ordinal).ToList();
            if (next.Count == 0)
            {
                return null;
            }

            steps.Add(string.Join(", ", next.Select(Named)));
            left.ExceptWith(next);
        }

        return $"{project.Name}: {string.Join(" < ", steps)}";
    }

    private static string Named(string folder) => folder.Length == 0 ? Own : folder;

    private int Step(string folder) => _steps.ToList().FindIndex(s => s.Contains(Named(folder)));
}
