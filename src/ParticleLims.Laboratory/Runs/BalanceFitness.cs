using System.Globalization;
using Microsoft.EntityFrameworkCore;
using ParticleLims.Analysis.Balances;
using ParticleLims.Analysis.Quantities;
using ParticleLims.Laboratory.Balances;
using ParticleLims.Laboratory.Equipment;
using ParticleLims.Laboratory.Methods;
using ParticleLims.Laboratory.Settings;
using ParticleLims.Laboratory.Storage;

namespace ParticleLims.Laboratory.Runs;

/// <summary>Whether a balance may be used by a method, computed at the moment of use from its state, its calibration, its repeatability test, its check of the day and its minimum weight.</summary>
/// <param name="Unfit">What is wrong, what to do and who may; null when it may be used.</param>
/// <param name="Checked">Whether it passed its check on this day.</param>
/// <param name="Minimum">The smallest net mass that it weighs well enough (USP &lt;41&gt;).</param>
/// <param name="Snapshot">What a run keeps of it.</param>
internal sealed record BalanceFitness(string? Unfit, bool Checked, Mass Minimum, string Snapshot)
{
    /// <summary>Whether it would be fit if it were checked today.</summary>
    public bool OnlyCheckMissing { get; private init; }

    /// <summary>So many of the method's last accepted runs say what residue is expected.</summary>
    private const int RunsAsked = 10;

    /// <summary>The fitness of a balance at an instant for a method.</summary>
    public static async Task<BalanceFitness> OfAsync(LaboratoryContext data, Balance balance, MethodVersion method, DateTimeOffset now, CancellationToken cancellation)
    {
        var today = (await SettingsKeeping.OfAsync(data, cancellation)).LocalDay(now);
        var check = await data.BalanceChecks.AsNoTracking().Where(one => one.BalanceId == balance.Id && one.Day == today && one.Passed).OrderByDescending(one => one.At).FirstOrDefaultAsync(cancellation);
        var minimum = MinimumWeight.Of(balance.Repeatability, balance.Readability);
        var repeatability = await RepeatabilityDue.OfAsync(data, balance, cancellation);
        var standing = balance.UnfitReason(today) ?? repeatability?.Unfit(balance, today);
        var unfit = standing
            ?? (check is null && method.UncheckedBalance == UncheckedBalance.Refused ? BalanceRegister.NotCheckedToday(balance) : null)
            ?? (method.SmallResidue == SmallResidue.Refused ? await TooCoarseAsync(data, balance, method, minimum, cancellation) : null);
        var kept = Kept(balance, check, minimum) + (repeatability is null ? string.Empty : $"; {repeatability.Words(today)}");
        return new BalanceFitness(unfit, check is not null, minimum, kept) { OnlyCheckMissing = unfit is not null && check is null && standing is null };
    }

    private static async Task<string?> TooCoarseAsync(LaboratoryContext data, Balance balance, MethodVersion method, Mass minimum, CancellationToken cancellation)
    {
        if (minimum > method.PortionLeast)
        {
            return $"The {balance.Label} weighs well enough from {minimum} on; the method asks for test portions from {method.PortionLeast} on. Take a finer balance.";
        }

        return await ExpectedAsync(data, method, cancellation) is { } expected && expected < minimum
            ? $"The {balance.Label} weighs well enough from {minimum} on; by the last runs of this method the smallest residue is near {expected}. Take a finer balance; the quality manager can allow this one for one run."
            : null;
    }

    /// <summary>The median of the smallest residues of the method's last accepted runs; null where there is none.</summary>
    private static async Task<Mass?> ExpectedAsync(LaboratoryContext data, MethodVersion method, CancellationToken cancellation)
    {
        var runs = await data.Runs.AsNoTracking().Include(run => run.Weighings).Include(run => run.Sieves).AsSplitQuery().Where(run => run.MethodVersionId == method.Id && run.State == RunState.Accepted).OrderByDescending(run => run.SubmittedAt).Take(RunsAsked).ToListAsync(cancellation);
        var smallest = runs.ConvertAll(run => run.Sieves.Min(sieve => run.Residue(sieve.Position))).FindAll(residue => residue is not null);
        smallest.Sort((one, other) => one!.Value.CompareTo(other!.Value));
        return smallest.Count == 0 ? null : smallest[(smallest.Count - 1) / 2];
    }

    private static string Kept(Balance balance, BalanceCheck? check, Mass minimum) => string.Create(
        CultureInfo.InvariantCulture,
        $"{balance.State.Words()}; inspected {balance.InspectedAt?.UtcDateTime:yyyy-MM-dd}, due {balance.InspectionDueOn:yyyy-MM-dd}; {(check is null ? "not checked on this day" : $"checked {check.At.UtcDateTime:yyyy-MM-dd HH:mm} UTC: {check.Shown - check.Nominal} off {check.Nominal}{(check.WeightSerial is { } weight ? $" by check weight {weight}" : string.Empty)}")}; s {balance.Repeatability}, minimum weight {minimum}");
}
