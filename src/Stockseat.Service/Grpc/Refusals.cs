using Google.Protobuf.WellKnownTypes;
using Google.Rpc;
using Grpc.Core;
using Stockseat.Answers.Reasons;

namespace Stockseat.Service.Grpc;

/// <summary>Refusals as statuses with google.rpc.ErrorInfo.</summary>
internal static class Refusals
{
    public const string Domain = "stockseat";

    public static RefusedCall ToRpc(this Refusal refusal)
    {
        var info = new ErrorInfo { Domain = Domain, Reason = refusal.Info.GrpcName };
        foreach (var (name, value) in refusal.Limits ?? new Dictionary<string, string>())
        {
            info.Metadata.Add(name, value);
        }

        var told = new Google.Rpc.Status { Code = refusal.Info.GrpcStatus, Message = refusal.Text, Details = { Any.Pack(info) } }.ToRpcException();
        return new(refusal, told);
    }
}

/// <summary>A refusal on its way out of a call.</summary>
internal sealed class RefusedCall(Refusal refusal, RpcException told) : RpcException(told.Status, told.Trailers, told.Message)
{
    public Refusal Refusal => refusal;
}
