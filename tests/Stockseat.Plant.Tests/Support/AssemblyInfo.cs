using Stockseat.Plant.Tests.Support;

[assembly: AssemblyFixture(typeof(Server))]
