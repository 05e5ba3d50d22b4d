using ParticleLims.Laboratory.Methods;
using ParticleLims.Laboratory.Specifications;

namespace ParticleLims.TestLaboratory.SmallLaboratories;

/// <summary>A product of the small laboratory with its one approved method, its one approved specification and a sieve for each aperture.</summary>
/// <param name="ProductId">The product.</param>
/// <param name="ProductCode">Its code.</param>
/// <param name="MethodId">The method.</param>
/// <param name="MethodVersionId">Its version in force.</param>
/// <param name="SpecificationId">The specification.</param>
/// <param name="SpecificationVersionId">Its version in force.</param>
/// <param name="Draft">What the method says.</param>
/// <param name="Limits">What the specification says.</param>
/// <param name="SieveIds">The sieves in service, the finest first.</param>
public sealed record TestMethod(
    Guid ProductId, string ProductCode, Guid MethodId, Guid MethodVersionId, Guid SpecificationId, Guid SpecificationVersionId,
    MethodDraft Draft, SpecificationDraft Limits, IReadOnlyList<Guid> SieveIds);
