using System.Globalization;
using Stockseat.Baseline;

// The program that Stockseat is compared with, as one native program. The load program starts it.
switch (args)
{
    case ["echo"]:
        await EchoServer.Run();
        return 0;
    case ["scan", var folder, var cores]:
        await Console.Out.WriteLineAsync((await BareScan.Run(folder, int.Parse(cores, CultureInfo.InvariantCulture))).ToString(CultureInfo.InvariantCulture));
        return 0;
    default:
        await Console.Error.WriteLineAsync("use: baseline echo | baseline scan DIR CORES");
        return 64;
}
