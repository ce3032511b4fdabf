using Npgsql;
using Stockseat.Plant.Connecting;
using Stockseat.Plant.Schema;
using Stockseat.Plant.Tests.Support;

namespace Stockseat.Plant.Tests.Schema;

public class PreparationTests(Server server)
{
    [Fact]
    public async Task Empty_database_gets_all_tables_and_a_second_time_changes_nothing()
    {
        var database = await server.Empty();

        Assert.Equal(0, await Preparation.Run(database.Address(), default));
        var made = await Objects(database);
        Assert.Equal(PlantSchema.Newest, await Preparation.Run(database.Address(), default));

        Assert.Equal(made, await Objects(database));
        Assert.Equal(["1", "2"], await database.Sql("SELECT version FROM stockseat.schema_version ORDER BY 1"));
        Assert.Equal(["16"], await database.Sql("SELECT count(*) FROM pg_inherits WHERE inhparent = 'stockseat.entry'::regclass"));
    }

    [Fact]
    public async Task Two_at_the_same_time_prepare_it_once()
    {
        var database = await server.Empty();

        var found = await Task.WhenAll(Preparation.Run(database.Address(), default), Preparation.Run(database.Address(), default));

        Assert.Equal([0, PlantSchema.Newest], found.Order());
    }

    [Fact]
    public async Task Shown_text_makes_the_same_as_prepare()
    {
        var (shown, prepared) = (await server.Empty(), await server.Prepared());

        await shown.Sql(PlantSchema.Text);

        Assert.Equal(await Objects(prepared), await Objects(shown));
        Assert.Equal(PlantSchema.Newest, await Preparation.Run(shown.Address(), default));
    }

    [Fact]
    public async Task Every_table_view_and_column_of_a_view_is_explained()
    {
        var database = await server.Prepared();
        string[] keys = ["ledger", "serial", "at", "cell", "client", "tag", "fixture", "revision"]; // explained with the table entry

        var without = await database.Sql(
            "SELECT c.relname, a.attname FROM pg_class c JOIN pg_attribute a ON a.attrelid = c.oid LEFT JOIN pg_description d ON d.objoid = c.oid"
            + " AND d.objsubid = a.attnum WHERE c.relnamespace = 'stockseat'::regnamespace AND a.attnum > 0 AND d.description IS NULL"
            + " AND c.relkind IN ('v', 'p', 'r') AND c.relname !~ '_[0-9]+$' AND c.relname <> 'schema_version'");

        Assert.Equal([], without.Where(w => !keys.Contains(w.Split(',')[1]) || w.StartsWith("entry,", StringComparison.Ordinal)));
    }

    [Fact]
    public async Task Writer_may_add_and_read_and_change_nothing_and_reader_may_only_read()
    {
        var database = await server.Prepared();
        await database.Sql($"CREATE ROLE w_{database.Name} LOGIN IN ROLE stockseat_writer; CREATE ROLE r_{database.Name} LOGIN IN ROLE stockseat_reader");
        const string Row = "INSERT INTO stockseat.entry (ledger, serial, at, kind, body, hash) VALUES (gen_random_uuid(), 1, now(), 'note', '{}', '')";

        await database.Sql(Row, $"w_{database.Name}");

        Assert.Equal(["1"], await database.Sql("SELECT count(*) FROM stockseat.entry", $"w_{database.Name}"));
        Assert.Equal(["1"], await database.Sql("SELECT count(*) FROM stockseat.cells", $"r_{database.Name}"));
        foreach (var (login, sql) in new[] { ("w", "DELETE FROM stockseat.entry"), ("w", "UPDATE stockseat.entry SET body = ''"), ("r", Row) })
        {
            Assert.Equal("42501", (await Assert.ThrowsAsync<PostgresException>(() => database.Sql(sql, $"{login}_{database.Name}"))).SqlState);
        }
    }

    [Fact]
    public async Task Later_tables_and_another_encoding_are_refused_with_what_to_do()
    {
        var later = await server.Prepared();
        await later.Sql("INSERT INTO stockseat.schema_version (version) VALUES (99)");
        var latin = await server.Empty("ENCODING 'LATIN1' TEMPLATE template0");

        Assert.Contains("has tables of version 99; this program knows them up to 2: use the program that prepared it",
            (await Assert.ThrowsAsync<PlantException>(() => Preparation.Run(later.Address(), default))).Message, StringComparison.Ordinal);
        Assert.Contains("is encoded in LATIN1, which can't hold every text; create it with ENCODING 'UTF8'",
            (await Assert.ThrowsAsync<PlantException>(() => Preparation.Run(latin.Address(), default))).Message, StringComparison.Ordinal);
        Assert.Equal(["0"], await latin.Sql("SELECT count(*) FROM pg_namespace WHERE nspname = 'stockseat'"));
    }

    private static Task<List<string>> Objects(Database database) => database.Sql(
        "SELECT c.relname || ' ' || c.relkind::text || ' '"
        + " || coalesce(string_agg(a.attname || ' ' || format_type(a.atttypid, a.atttypmod), ', ' ORDER BY a.attnum), '')"
        + " || ' ' || coalesce(c.relacl::text, '') FROM pg_class c LEFT JOIN pg_attribute a ON a.attrelid = c.oid AND a.attnum > 0"
        + " WHERE c.relnamespace = 'stockseat'::regnamespace GROUP BY c.oid, c.relname, c.relkind, c.relacl ORDER BY 1");
}
