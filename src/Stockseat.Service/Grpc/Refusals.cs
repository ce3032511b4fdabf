using System.Globalization;
using Google.Protobuf;
using Google.Protobuf.WellKnownTypes;
using Google.Rpc;
using Grpc.Core;
using Stockseat.Answers.Reasons;

namespace Stockseat.Service.Grpc;

/// <summary>Refusals as statuses with google.rpc.ErrorInfo.</summary>
internal static class Refusals
{
    public const string Domain = "stockseat";

    private const string DetailsTrailer = "grpc-status-details-bin";

    public static RefusedCall ToRpc(this Refusal refusal) => new(refusal, refusal.ToStatus().ToRpcException());

    /// <summary>Answers a call with only the refusal, in the headers: the form for a call that none of our methods has begun.</summary>
    public static void WriteTo(this Refusal refusal, Microsoft.AspNetCore.Http.HttpResponse response)
    {
        foreach (var (name, value) in refusal.Headers())
        {
            response.Headers[name] = value;
        }
    }

    /// <summary>The fields of such an answer.</summary>
    public static IEnumerable<(string Name, string Value)> Headers(this Refusal refusal)
    {
        var status = refusal.ToStatus();
        yield return ("content-type", "application/grpc");
        yield return ("grpc-status", status.Code.ToString(CultureInfo.InvariantCulture));
        yield return ("grpc-message", Uri.EscapeDataString(status.Message));
        yield return (DetailsTrailer, Convert.ToBase64String(status.ToByteArray()));
    }

    private static Google.Rpc.Status ToStatus(this Refusal refusal)
    {
        var info = new ErrorInfo { Domain = Domain, Reason = refusal.Info.GrpcName };
        foreach (var (name, value) in refusal.Limits ?? new Dictionary<string, string>())
        {
            info.Metadata.Add(name, value);
        }

        return new Google.Rpc.Status { Code = refusal.Info.GrpcStatus, Message = refusal.Text, Details = { Any.Pack(info) } };
    }
}

/// <summary>A refusal on its way out of a call.</summary>
internal sealed class RefusedCall(Refusal refusal, RpcException told) : RpcException(told.Status, told.Trailers, told.Message)
{
    public Refusal Refusal => refusal;
}
