using System.Net;
using Stockseat.Answers.Adopt;
using Stockseat.Answers.Asking;
using Stockseat.Answers.Hold;
using Stockseat.Answers.Reasons;
using Stockseat.Answers.Roll;
using Stockseat.Service.Certificates;
using Stockseat.Service.Tests.Support;

namespace Stockseat.Service.Tests.Clients;

/// <summary>What changes what everybody is served needs more than an address when it comes from elsewhere.</summary>
public sealed class ProvenRoleTests
{
    private static readonly CallerProof Proof = new("sha256:0", []);

    public static TheoryData<string, bool, bool, bool> Cases
    {
        get
        {
            var cases = new TheoryData<string, bool, bool, bool>();
            foreach (var verb in (string[])["adopt", "release", "roll"])
            {
                cases.Add(verb, false, false, false);
                cases.Add(verb, false, true, true);
                cases.Add(verb, true, false, true);
                cases.Add(verb, true, true, true);
            }

            cases.Add("hold", false, false, true); // Holding a fixture back is safe.
            return cases;
        }
    }

    [Theory]
    [MemberData(nameof(Cases))]
    public void An_address_alone_is_enough_only_on_the_service_s_own_machine(string verb, bool here, bool proven, bool permitted)
    {
        foreach (var address in here ? (string[])["127.0.0.1", "127.9.9.9", "::1"] : ["10.20.0.7", "fd00::7"])
        {
            var caller = Bench.Client.At(new(IPAddress.Parse(address), 5), proven ? Proof : null);
            Ask ask = verb switch
            {
                "adopt" => new AdoptAsk(caller, "pinbed-1", 4) { By = "a", Why = "b", Folder = null, Digest = null },
                "release" => new ReleaseAsk(caller, "pinbed-1") { By = "a", Why = "b", Of = "a" },
                "roll" => new RollAsk(caller) { By = "a", Why = "b", Next = "" },
                _ => new HoldAsk(caller, "pinbed-1") { By = "a", Why = "b" },
            };

            var denied = Bench.Client.Permit(ask).Denied;

            Assert.Equal(permitted ? null : Reason.NotPermitted, denied?.Reason);
            if (denied is not null)
            {
                Assert.StartsWith($"{ask.Verb} from {address} needs a certificate: client bench came by its address alone", denied.Text,
                    StringComparison.Ordinal);
            }
        }
    }
}
