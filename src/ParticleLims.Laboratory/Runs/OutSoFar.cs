using Microsoft.EntityFrameworkCore;
using ParticleLims.Analysis;
using ParticleLims.Laboratory.Balances;
using ParticleLims.Laboratory.Products;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Specifications;

namespace ParticleLims.Laboratory.Runs;

/// <summary>What the finished sieves of a run show to be out of specification, before it is submitted: whoever gives the run up has seen it.</summary>
internal static class OutSoFar
{
    /// <summary>In words; null where nothing is known to be out.</summary>
    public static async Task<string?> WordsAsync(DeedScope scope, Run run, CancellationToken cancellation)
    {
        if (run.BalanceId is not { } balanceId)
        {
            return null;
        }

        var method = await scope.MethodOfAsync(run);
        var balance = await scope.FindAsync<Balance>(balanceId, "balance", cancellation);
        var product = await scope.FindAsync<Product>(run.ProductId, "product", cancellation);
        var specification = await scope.Data.SpecificationVersions.Include(version => version.Limits).SingleAsync(version => version.Id == run.SpecificationVersionId, cancellation);
        if (RunRequest.Of(run, method, product, balance, specification.Limits) is not { } request || Engine.Evaluate(request) is not Evaluated evaluated)
        {
            return null;
        }

        var outside = specification.Limits.OrderBy(limit => limit.Position).Zip(evaluated.Result.Verdicts, (limit, verdict) => new JudgedLimit(limit, verdict)).Where(judged => judged.IsOut).Select(RunSubmission.Words);
        return string.Join("; ", outside) is { Length: > 0 } words ? words : null;
    }
}
