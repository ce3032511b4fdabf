using System.Text.RegularExpressions;

namespace Stockseat.EndToEnd.Sources;

/// <summary>The sources of a project, and which of its folders use which.</summary>
internal sealed partial class SourceProject
{
    private readonly string _root;
    private readonly Dictionary<(string Namespace, string Name), string> _types = [];
    private readonly HashSet<string> _namespaces = new(StringComparer.Ordinal);

    /// <param name="name">The project's name.</param>
    /// <param name="rootNamespace">The namespace of the files beside the project file.</param>
    /// <param name="files">The paths of its sources in the project, with slashes, and their texts.</param>
    public SourceProject(string name, string rootNamespace, IEnumerable<(string Path, string Text)> files)
    {
        (Name, _root) = (name, rootNamespace);
        Files = [.. files.Select(f => new SourceFile(f.Path, f.Path[..Math.Max(0, f.Path.LastIndexOf('/'))], f.Text))];
        foreach (var file in Files)
        {
            foreach (var type in file.Types)
            {
                _types[(file.Namespace, type)] = file.Folder;
            }

            _namespaces.UnionWith(Around(file.Namespace));
        }
    }

    public string Name { get; }

    public IReadOnlyList<SourceFile> Files { get; }

    /// <summary>The folders that contain sources.</summary>
    public IEnumerable<string> Folders => Files.Select(f => f.Folder).Distinct();

    /// <summary>Reads a project from the disk.</summary>
    public static SourceProject Read(string folder)
    {
        var file = Directory.EnumerateFiles(folder, "*.csproj").Single();
        var (name, stated) = (Path.GetFileNameWithoutExtension(file), RootNamespace().Match(File.ReadAllText(file)));
        return new(
            name, stated.Success ? stated.Groups[1].Value : name,
            Sources(folder).Select(f => (Path.GetRelativePath(folder, f).Replace('\\', '/'), File.ReadAllText(f))));
    }

    /// <summary>The project's sources, without files that a build generates.</summary>
    public static IEnumerable<string> Sources(string folder) => Directory.EnumerateFiles(folder, "*.cs")
        .Concat(Directory.EnumerateDirectories(folder).Where(d => Path.GetFileName(d) is not ("bin" or "obj" or "node_modules")).SelectMany(Sources));

    /// <summary>The namespace that a file should have.</summary>
    public string NamespaceOf(SourceFile file) => file.Folder.Length == 0 ? _root : $"{_root}.{file.Folder.Replace('/', '.')}";

    /// <summary>Each use of a type of another folder. A namespace that is used without naming a type serves its extension methods: it counts too.</summary>
    public IEnumerable<FolderArrow> Arrows()
    {
        foreach (var file in Files)
        {
            var named = new HashSet<string>(StringComparer.Ordinal) { file.Folder };
            foreach (var (parts, line) in file.Names)
            {
                if (Find(file, parts) is var (type, folder) && folder != file.Folder)
                {
                    named.Add(folder);
                    yield return new(file.Path, line, type, file.Folder, folder);
                }
            }

            foreach (var (used, line) in file.Usings)
            {
                if (FolderOf(used) is { } folder && named.Add(folder))
                {
                    yield return new(file.Path, line, used, file.Folder, folder);
                }
            }
        }
    }

    /// <summary>The folder of a namespace, or of a type whose members are used.</summary>
    private string? FolderOf(string used)
    {
        var dot = used.LastIndexOf('.');
        return _types.Where(t => t.Key.Namespace == used || (dot > 0 && t.Key == (used[..dot], used[(dot + 1)..]))).Select(t => t.Value).FirstOrDefault();
    }

    /// <summary>
    /// The type that a name means, found as the compiler does it: from the file's own namespace outwards, and at last in the namespaces that it uses.
    /// </summary>
    private (string Type, string Folder)? Find(SourceFile file, string[] parts)
    {
        if (file.Aliases.TryGetValue(parts[0], out var alias))
        {
            return In("", alias);
        }

        return Around(file.Namespace).Select(scope => In(scope, parts)).FirstOrDefault(found => found is not null)
            ?? In("", parts)
            ?? file.Usings.Select(u => Type(u.Namespace, parts[0])).FirstOrDefault(found => found is not null);
    }

    /// <summary>What a name means in a namespace; names of inner namespaces may come before it.</summary>
    private (string Type, string Folder)? In(string scope, string[] parts)
    {
        for (var i = 0; i < parts.Length; i++)
        {
            if (Type(scope, parts[i]) is { } found)
            {
                return found;
            }

            scope = scope.Length == 0 ? parts[i] : $"{scope}.{parts[i]}";
            if (!_namespaces.Contains(scope))
            {
                break;
            }
        }

        return null;
    }

    private (string Type, string Folder)? Type(string scope, string name) => _types.TryGetValue((scope, name), out var folder) ? (name, folder) : null;

    /// <summary>A namespace and those around it, from the inside out.</summary>
    private static IEnumerable<string> Around(string name)
    {
        for (; name.Length > 0; name = name[..Math.Max(0, name.LastIndexOf('.'))])
        {
            yield return name;
        }
    }

    [GeneratedRegex("<RootNamespace>([^<]*)</RootNamespace>")]
    private static partial Regex RootNamespace();
}
