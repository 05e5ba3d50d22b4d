using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;

namespace ParticleLims.Architecture.Tests.Canaries;

// Each speaks to the database where it may not; nobody calls them.
internal sealed class AskingPageCanary(DbContext data)
{
    public Task<int> Count(CancellationToken cancellation) => data.Set<KnowingEntityCanary>().CountAsync(cancellation);
}

[PrimaryKey(nameof(Id))]
internal sealed class KnowingEntityCanary
{
    public int Id { get; init; }
}

internal sealed class KnowingEntityTable : IEntityTypeConfiguration<KnowingEntityCanary>
{
    public void Configure(EntityTypeBuilder<KnowingEntityCanary> builder) => builder.HasKey(one => one.Id);
}
