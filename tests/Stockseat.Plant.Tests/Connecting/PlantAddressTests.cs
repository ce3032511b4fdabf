using Stockseat.Plant.Connecting;

namespace Stockseat.Plant.Tests.Connecting;

public class PlantAddressTests
{
    [Theory]
    [InlineData("Host=/run/postgresql;Username=cell_4")]
    [InlineData("Host=localhost;Port=5433;Database=plant;Username=cell_4")]
    [InlineData("Host=127.0.0.1,[::1]:5433;Database=plant;Username=cell_4;SSL Mode=Disable")]
    [InlineData("Host=plant-a,plant-b;Database=plant;Username=cell_4;SSL Mode=VerifyCA;Root Certificate=/etc/plant.pem")]
    public void Connection_is_read(string connection)
    {
        Assert.NotNull(PlantAddress.Read(connection, null, out var fault));
        Assert.Null(fault);
    }

    [Theory]
    [InlineData("Host=plant-db;Username=u;Password=secret", "states a password; write it into a file")]
    [InlineData("Host=plant-db;Username=u;Passfile=/x", "states a password; write it into a file")]
    [InlineData("Host=plant-db;Username=u;Pooling=false", "states pooling, which is not for this connection; it may have Host, Port")]
    [InlineData("Host=plant-db;Username=u;Persist Security Info=true", "states persist security info, which is not for this connection")]
    [InlineData("Host=plant-db;Username=u;SSL Mode=Require", "states SSL Mode=Require, by which anybody on the network could pose as the server")]
    [InlineData("Host=localhost,plant-db;Username=u;SSL Mode=Prefer", "states SSL Mode=Prefer, by which anybody")]
    [InlineData("Database=plant;Username=u", "names no Host")]
    [InlineData("Host=plant-db", "names no Username")]
    [InlineData("Host=plant-db;Username=u;Colour=red", "can't be read; keys and values such as")]
    [InlineData("secret", "can't be read; keys and values such as")]
    [InlineData("", "names no Host")]
    public void Fault_names_what_to_do_and_never_the_password(string connection, string expected)
    {
        Assert.Null(PlantAddress.Read(connection, null, out var fault));

        Assert.StartsWith(expected, fault, StringComparison.Ordinal);
        Assert.DoesNotContain("secret", fault, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("Host=plant-db;Username=u", "VerifyFull")]
    [InlineData("Host=10.0.0.7;Username=u", "VerifyFull")]
    [InlineData("Host=127.0.0.1,plant-db;Username=u", "VerifyFull")]
    [InlineData("Host=127.0.0.1;Username=u", "Disable")]
    [InlineData("Host=/run/postgresql;Username=u", "Disable")]
    [InlineData("Host=plant-db;Username=u;SSL Mode=VerifyCA", "VerifyCA")]
    public void Server_on_another_machine_is_verified_unless_stated(string connection, string mode) =>
        Assert.Equal(mode, PlantAddress.Read(connection, null, out _)!.Now().SslMode.ToString());

    [Fact]
    public void Password_is_read_from_its_file_each_time()
    {
        var path = Path.GetTempFileName();
        try
        {
            var address = PlantAddress.Read("Host=plant-db;Username=u", path, out _)!;

            var empty = Assert.Throws<IOException>(() => address.Now());
            File.WriteAllText(path, "first\n");
            Assert.Equal("first", address.Now().Password);
            File.WriteAllText(path, "second ß;'\r\n");
            Assert.Equal("second ß;'", address.Now().Password);
            Assert.Equal($"the password file {path} is empty; write the password into it", empty.Message);
            Assert.DoesNotContain("second", address.Name, StringComparison.Ordinal);
        }
        finally
        {
            File.Delete(path);
        }
    }
}
