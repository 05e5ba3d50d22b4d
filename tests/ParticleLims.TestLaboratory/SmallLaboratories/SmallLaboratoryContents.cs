namespace ParticleLims.TestLaboratory.SmallLaboratories;

/// <summary>The keys of everything in a small laboratory; they hold in each copy of its database.</summary>
internal sealed record SmallLaboratoryContents(
    TestPeople People, Guid Customer, Guid OtherCustomer, Guid BalanceId, TestMethod Calcite, TestMethod Starch, TestMethod Spice);
