using System.Text.Json;

namespace ParticleLims.PowerCuts;

/// <summary>What the server has to know of the laboratory after each start, kept in a file beside the database.</summary>
/// <param name="BalanceId">The balance of all runs.</param>
/// <param name="ProductId">Pea starch.</param>
/// <param name="MethodVersionId">Its method: two sieves, separate portions, one second on each.</param>
/// <param name="SpecificationVersionId">Its specification.</param>
/// <param name="Technicians">Who stands at each terminal.</param>
/// <param name="Sieves">The sieves of each terminal, the finest first.</param>
public sealed record CutBench(Guid BalanceId, Guid ProductId, Guid MethodVersionId, Guid SpecificationVersionId, IReadOnlyList<Guid> Technicians, IReadOnlyList<IReadOnlyList<Guid>> Sieves)
{
    private const string FileName = "bench.json";

    /// <summary>Reads it from a folder.</summary>
    public static CutBench Read(string folder) => JsonSerializer.Deserialize<CutBench>(File.ReadAllText(Path.Combine(folder, FileName)))!;

    /// <summary>Writes it into a folder.</summary>
    public void Write(string folder) => File.WriteAllText(Path.Combine(folder, FileName), JsonSerializer.Serialize(this));
}
