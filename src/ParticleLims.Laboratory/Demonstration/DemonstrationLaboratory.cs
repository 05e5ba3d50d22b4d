using Microsoft.AspNetCore.Identity;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using ParticleLims.Laboratory.Certificates;
using ParticleLims.Laboratory.Demonstration.Time;
using ParticleLims.Laboratory.People;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Settings;
using ParticleLims.Laboratory.Storage;

namespace ParticleLims.Laboratory.Demonstration;

/// <summary>
/// The demonstration laboratory Tarnfell Milling: a history that a seeded model makes through the same services that the pages use. It is
/// made in one transaction: a program killed meanwhile leaves an empty database, and the next start begins anew.
/// </summary>
public sealed class DemonstrationLaboratory(
    IDbContextFactory<LaboratoryContext> contexts, IDatabaseEngine engine, IPasswordHasher<Person> hasher, ICertificateDrawing drawing, LaboratorySetUp setUp, TimeProvider clock)
{
    private (IReadOnlyList<DemonstrationPerson> Cards, RememberedSecrets Secrets)? ready;

    /// <summary>Begins what takes long and needs no database: the hashes of all secrets. Worth calling before the database is opened; otherwise <see cref="OpenAsync"/> does it.</summary>
    public void GetReady()
    {
        var (cards, secrets) = (Crew.NewCards(), new RememberedSecrets(hasher));
        secrets.Begin(cards.SelectMany(card => new[] { card.Password, card.Pin }));
        ready = (cards, secrets);
    }

    /// <summary>Makes the demonstration in an empty, migrated database; answers null when there is a laboratory already.</summary>
    /// <param name="options">How.</param>
    /// <param name="progress">Told the month that is being made, for people.</param>
    /// <param name="cancellation">Ends it; nothing is kept then.</param>
    public async Task<DemonstrationAccess?> OpenAsync(DemonstrationOptions options, IProgress<string>? progress, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(options);
        if (options.Days is < 30 or > 730)
        {
            throw new ArgumentOutOfRangeException(nameof(options), options.Days, "The history has 30 to 730 days.");
        }

        if (await setUp.IsDoneAsync(cancellation))
        {
            return null;
        }

        if (ready is null)
        {
            GetReady();
        }

        var (cards, secrets) = ready!.Value;
        ready = null;
        await using var whole = await OneTransaction.BeginAsync(contexts, engine, cancellation);
        await using var services = Inside(whole, options, secrets);
        if (await services.GetRequiredService<LaboratorySetUp>().IsDoneAsync(cancellation))
        {
            return null; // Another program was quicker.
        }

        var access = await MakeAsync(services, options, cards, progress, cancellation);
        if (options.AccessFile is { } path)
        {
            await DemonstrationAccessFile.WriteAsync(path, access, cancellation);
        }

        await whole.KeepAsync(cancellation);
        return access;
    }

    private async Task<DemonstrationAccess> MakeAsync(ServiceProvider services, DemonstrationOptions options, IReadOnlyList<DemonstrationPerson> cards, IProgress<string>? progress, CancellationToken cancellation)
    {
        var (crew, time) = (services.GetRequiredService<Crew>(), services.GetRequiredService<HistoryClock>());
        var timeline = services.GetRequiredService<Timeline>();
        progress?.Report("Accounts");
        await crew.TakeOnAsync(cards, options.PublicAddress, cancellation);
        progress?.Report("Products, methods, specifications");
        var catalogue = services.GetRequiredService<Catalogue>();
        await catalogue.WriteAsync(cancellation);
        await catalogue.AuthoriseAsync(time.End, cancellation);
        await crew.InviteAsync(cards, catalogue.Customers, cancellation);
        progress?.Report("Sieves and balances");
        await services.GetRequiredService<EquipmentRoom>().FurnishAsync(timeline, cancellation);
        services.GetRequiredService<YearPlan>().Write(timeline, cancellation);
        await timeline.PlayAsync(Months(progress), cancellation);
        await catalogue.AddContactsAsync(cancellation);
        await catalogue.AddVeldtTemplateAsync(cancellation);
        time.MoveTo(time.End);
        return new DemonstrationAccess(clock.GetUtcNow(), cards, await crew.IssueTokenAsync(cancellation), crew.LaboratoryManager.Card.SignOnName);
    }

    private static Action<DateTimeOffset> Months(IProgress<string>? progress)
    {
        var told = string.Empty;
        return now =>
        {
            var month = now.UtcDateTime.ToString("MMMM yyyy", System.Globalization.CultureInfo.InvariantCulture);
            if (month != told)
            {
                progress?.Report(told = month);
            }
        };
    }

    /// <summary>The laboratory's services once more, on the one transaction and with a clock that is moved along.</summary>
    private ServiceProvider Inside(OneTransaction whole, DemonstrationOptions options, RememberedSecrets secrets)
    {
        var end = options.End ?? clock.GetUtcNow();
        var start = WorkingTime.At(WorkingTime.DayOf(end.AddDays(-options.Days)), 8);
        var time = new HistoryClock(start, end);
        return new ServiceCollection()
            .AddSingleton(options).AddSingleton(drawing)
            .AddSingleton<IDbContextFactory<LaboratoryContext>>(whole).AddSingleton<IDatabaseEngine>(whole)
            .AddSingleton(time).AddSingleton<TimeProvider>(time)
            .AddSingleton<IPasswordHasher<Person>>(secrets)
            .AddLaboratory().AddSingleton<IAuthority, RememberedStandings>()
            .AddSingleton(new History(start, end)).AddSingleton<Timeline>()
            .AddSingleton<Crew>().AddSingleton<Catalogue>().AddSingleton<ReferenceBench>().AddSingleton<DocumentBench>().AddSingleton<UnitBench>().AddSingleton<EquipmentRoom>()
            .AddSingleton<BenchWork>().AddSingleton<LotLife>().AddSingleton<LotStories>().AddSingleton<OpenEnd>().AddSingleton<YearPlan>()
            .BuildServiceProvider();
    }
}
