using System.Text.Json;
using System.Text.Json.Nodes;
using Json.Schema;
using Stockseat.Fixtures.Tests.Support;

namespace Stockseat.Fixtures.Tests.Revisions;

/// <summary>The schema that editors use and the reader agree wherever a schema can find a fault.</summary>
public sealed class SchemaTests
{
    private static readonly JsonSchema Schema = JsonSchema.FromText(Repository.Schema);

    public static TheoryData<string> Demo => Repository.DemoRows;

    public static TheoryData<int> BadRows => [.. Enumerable.Range(0, Mutation.Bad.Length)];

    public static TheoryData<int> GoodRows => [.. Enumerable.Range(0, Mutation.Good.Length)];

    [Theory]
    [MemberData(nameof(Demo))]
    public void A_demo_revision_passes(string demo) => Assert.True(Passes(Repository.Text(demo)));

    [Theory]
    [MemberData(nameof(BadRows))]
    public void A_wrong_value_fails_where_a_schema_can_find_it(int row)
    {
        var m = Mutation.Bad[row];
        Assert.Equal(!m.SchemaSees, Passes(Repository.Edit(Repository.Text(m.Demo), m.Old, m.New)));
    }

    [Theory]
    [MemberData(nameof(GoodRows))]
    public void The_same_value_written_in_another_way_passes(int row)
    {
        var (demo, old, @new) = Mutation.Good[row];
        Assert.True(Passes(Repository.Edit(Repository.Text(demo), old, @new)));
    }

    [Theory]
    [MemberData(nameof(Demo))]
    public void The_reader_and_the_schema_agree_on_every_key_left_out(string demo)
    {
        var count = Tree.Places(Tree.Parse(Repository.Text(demo))).Count;
        var required = 0;
        for (var i = 0; i < count; i++)
        {
            var root = Tree.Parse(Repository.Text(demo));
            var place = Tree.Places(root)[i];
            if (place.Key is null)
            {
                continue;
            }

            place.Parent.AsObject().Remove(place.Key);
            var text = root.ToJsonString();
            var reads = Repository.Read(text).Revision is not null;
            required += reads ? 0 : 1;
            Assert.True(reads == Passes(text), $"without {place.Path} the reader says {reads}");
        }

        Assert.InRange(required, 20, count - 5);
    }

    [Fact]
    public void Every_object_of_the_schema_is_closed()
    {
        var open = Objects(JsonNode.Parse(Repository.Schema)).Where(o => o["additionalProperties"]?.GetValueKind() != JsonValueKind.False);

        Assert.Empty(open.Select(o => o.GetPath()));
    }

    [Fact]
    public void Every_key_of_the_schema_has_a_description()
    {
        var root = JsonNode.Parse(Repository.Schema)!;
        var keys = Objects(root).SelectMany(o => o["properties"]!.AsObject()).ToArray();

        Assert.True(keys.Length > 60, $"only {keys.Length} keys");
        Assert.Empty(keys.Where(k => Described(k.Value!.AsObject()).Length == 0).Select(k => k.Value!.GetPath()));

        string Described(JsonObject o) =>
            o["description"]?.GetValue<string>() ?? root["$defs"]![o["$ref"]?.GetValue<string>()[8..] ?? ""]?["description"]?.GetValue<string>() ?? "";
    }

    private static IEnumerable<JsonObject> Objects(JsonNode? node) => node switch
    {
        JsonObject o =>
            (o["type"] is JsonValue t && t.GetValueKind() == JsonValueKind.String && t.GetValue<string>() == "object" ? [o] : Array.Empty<JsonObject>())
            .Concat(o.SelectMany(m => Objects(m.Value))),
        JsonArray a => a.SelectMany(Objects),
        _ => [],
    };

    private static bool Passes(string text)
    {
        using var file = JsonDocument.Parse(text, new() { CommentHandling = JsonCommentHandling.Skip });
        return Schema.Evaluate(file.RootElement).IsValid;
    }
}
