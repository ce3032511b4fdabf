using Google.Protobuf.WellKnownTypes;
using Google.Rpc;
using Grpc.Core;
using Stockseat.Answers.Reasons;

namespace Stockseat.Service.Grpc;

/// <summary>Refusals as statuses with google.rpc.ErrorInfo.</summary>
internal static class Refusals
{
    public const string Domain = "stockseat";

    public static RpcException ToRpc(this Refusal refusal)
    {
        var info = new ErrorInfo { Domain = Domain, Reason = refusal.Info.GrpcName };
        foreach (var (name, value) in refusal.Limits ?? new Dictionary<string, string>())
        {
            info.Metadata.Add(name, value);
        }

        return new Google.Rpc.Status { Code = refusal.Info.GrpcStatus, Message = refusal.Text, Details = { Any.Pack(info) } }.ToRpcException();
    }
}
