using System.Globalization;
using System.Text.RegularExpressions;
using Stockseat.Service.Clients;
using Stockseat.Service.Configuration;
using Stockseat.Service.Hosting;

namespace Stockseat.Service.Tests.Hosting;

public class ConnectionBudgetTests
{
    private const int Open = 100;

    [Theory]
    [InlineData(null)]
    [InlineData(65536L)]
    public void When_all_connections_fit_all_are_let_in(long? limit) => Assert.Equal((4000, 4128), Fits(4000, limit));

    [Fact]
    public void When_fewer_fit_that_many_are_let_in_and_the_limit_needed_for_all_is_reported()
    {
        var budget = ConnectionBudget.Of(4000, ports: 3, Open, 1024);

        Assert.Equal(1024 - budget.Needed + 4000, budget.Admitted);
        Assert.InRange(budget.Admitted, 16, 1024 - Open - 256);
        Assert.Equal(4000, ConnectionBudget.Of(4000, ports: 3, Open, budget.Needed).Admitted);
        Assert.Equal(3999, ConnectionBudget.Of(4000, ports: 3, Open, budget.Needed - 1).Admitted);
    }

    [Fact]
    public void When_nobody_could_be_served_it_is_a_fault()
    {
        var fault = Assert.Throws<ConfigurationException>(() => Fits(4000, 256));

        Assert.Equal(
            "Limits:Connections: this process may have 256 files open, but the service needs at least 596 with 16 connections; the 4000 connections stated "
                + "need 4580: "
            + "raise the limit (LimitNOFILE in the unit, ulimit -n in a shell)",
            fault.Message);
        Assert.Equal((16, 144), Fits(4000, 596));
        Assert.Throws<ConfigurationException>(() => Fits(4000, 595));
        Assert.Equal((1, 129), Fits(1, 595));
    }

    [Fact]
    public void The_unit_s_limit_is_enough_for_the_usual_number_of_connections()
    {
        var unit = File.ReadAllText(Path.Combine(Repository.Root, "install", "linux", "stockseat.service"));
        var limit = long.Parse(Regex.Match(unit, @"^LimitNOFILE=(\d+)$", RegexOptions.Multiline).Groups[1].Value, CultureInfo.InvariantCulture);
        var usual = new DoorLimits().Connections;

        Assert.Equal(usual, ConnectionBudget.Of(usual, ports: 100, open: 300, limit).Admitted);
    }

    private static (int, int) Fits(int stated, long? limit) =>
        ConnectionBudget.Of(stated, 0, Open, limit) is var budget ? (budget.Admitted, budget.Accepted) : default;
}
