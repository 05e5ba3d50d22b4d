namespace ParticleLims.Laboratory.Specifications;

/// <summary>Which of the specifications in force a lot may be held against.</summary>
public static class SpecificationChoices
{
    /// <summary>The customer's own where there are any; else those that are for everybody.</summary>
    public static List<SpecificationChoice> For(this IReadOnlyList<SpecificationChoice> inForce, Guid? customerId)
    {
        ArgumentNullException.ThrowIfNull(inForce);
        List<SpecificationChoice> own = customerId is null ? [] : [.. inForce.Where(one => one.CustomerId == customerId)];
        return own.Count > 0 ? own : [.. inForce.Where(one => one.CustomerId is null)];
    }
}
