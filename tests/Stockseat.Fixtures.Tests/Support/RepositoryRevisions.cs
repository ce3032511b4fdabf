using System.Text;
using Stockseat.Fixtures.Revisions;

namespace Stockseat.Fixtures.Tests.Support;

/// <summary>Reads the revisions in the repository.</summary>
internal static class RepositoryRevisions
{
    extension(Repository)
    {
        public static RevisionReading Read(string text, string file = "r.json", string? fixture = null, int? number = null) =>
            RevisionReader.Read(Encoding.UTF8.GetBytes(text), file, fixture, number);

        /// <summary>Reads a text that is free of faults.</summary>
        public static Revision Good(string text)
        {
            var reading = Repository.Read(text);
            Assert.Empty(reading.Faults);
            return reading.Revision!;
        }
    }
}
