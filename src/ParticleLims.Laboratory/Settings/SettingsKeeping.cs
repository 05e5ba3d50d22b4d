using System.Text.Json;
using Microsoft.EntityFrameworkCore;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Storage;

namespace ParticleLims.Laboratory.Settings;

/// <summary>Reads and changes the laboratory's settings.</summary>
public sealed class SettingsKeeping(WritePath writing, ReadPath reading)
{
    private static readonly DeedKind IdentityDeed = new("settings.change-identity", "Laboratory's name or address changed", Permission.KeepSettings, ReasonRequired: true);
    private static readonly DeedKind TerminalsDeed = new("settings.terminals", "Rules for shared terminals changed", Permission.KeepSettings, ReasonRequired: true);
    private static readonly DeedKind OnePersonDeed = new("settings.one-person", "One-person laboratory switched", Permission.KeepSettings, ReasonRequired: true);
    private static readonly DeedKind InvestigationsDeed = new("settings.investigations", "Time for investigations changed", Permission.KeepSettings, ReasonRequired: true);
    private static readonly DeedKind KeyingDeed = new("settings.keying", "Keying of masses by hand switched", Permission.KeepSettings, ReasonRequired: true);
    private static readonly DeedKind AccessDeed = new("settings.access-review", "Interval of access reviews changed", Permission.KeepSettings, ReasonRequired: true);

    /// <summary>The settings; null before set-up. Anybody may read them: name, time zone and banner stand on the sign-on page.</summary>
    public Task<LaboratorySettings?> FindAsync(CancellationToken cancellation) =>
        reading.ReadOpenlyAsync((data, token) => data.Set<LaboratorySettings>().FirstOrDefaultAsync(settings => settings.Id == LaboratorySettings.OnlyId, token), cancellation);

    /// <summary>Changes name, address, contact and time zone.</summary>
    public Task<bool> ChangeIdentityAsync(Actor actor, LaboratoryIdentity identity, string reason, long version, CancellationToken cancellation) =>
        writing.CarryOutAsync(new Deed(IdentityDeed, actor, Reason: reason), async (scope, token) =>
        {
            var settings = await FindAsync(scope, version, token);
            identity.Check();
            (settings.Name, settings.Address, settings.Contact, settings.TimeZone) = (identity.Name.Trim(), identity.Address.Trim(), identity.Contact.Trim(), identity.TimeZone);
            settings.PublicAddress = identity.PublicAddress.TrimEnd('/');
            return true;
        }, cancellation);

    /// <summary>Changes where weighings may be taken and when a terminal locks.</summary>
    public Task<bool> ChangeTerminalRulesAsync(Actor actor, TerminalRules rules, string reason, long version, CancellationToken cancellation) =>
        writing.CarryOutAsync(new Deed(TerminalsDeed, actor, Reason: reason), async (scope, token) =>
        {
            var settings = await FindAsync(scope, version, token);
            rules.Check();
            (settings.WeighOnlyAtEnrolledTerminals, settings.LockAfterMinutes) = (rules.WeighOnlyAtEnrolled, rules.LockAfterMinutes);
            return true;
        }, cancellation);

    /// <summary>Lets one person do everything, or ends that, over a signature.</summary>
    /// <param name="actor">The administrator.</param>
    /// <param name="onePerson">Whether one person may do everything from now on.</param>
    /// <param name="reason">Why.</param>
    /// <param name="proof">The password given again.</param>
    /// <param name="version">The settings' version as they were read.</param>
    /// <param name="cancellation">Ends the deed before it is written.</param>
    public Task<bool> SwitchOnePersonAsync(Actor actor, bool onePerson, string reason, SecretProof proof, long version, CancellationToken cancellation) =>
        writing.CarryOutAsync(new Deed(OnePersonDeed, actor, Reason: reason), async (scope, token) =>
        {
            var settings = await FindAsync(scope, version, token);
            settings.OnePersonLaboratory = onePerson;
            scope.Sign(proof, onePerson ? "one person does everything" : "a second person is needed again", ("Laboratory", settings.Id), JsonSerializer.Serialize(new { settings.Name, settings.OnePersonLaboratory, reason }));
            return true;
        }, cancellation);

    /// <summary>Lets masses be keyed by hand when a balance does not answer, or ends that.</summary>
    public Task<bool> SwitchKeyingAsync(Actor actor, bool allowed, string reason, long version, CancellationToken cancellation) =>
        writing.CarryOutAsync(new Deed(KeyingDeed, actor, Reason: reason), async (scope, token) =>
        {
            (await FindAsync(scope, version, token)).KeyingAllowed = allowed;
            return true;
        }, cancellation);

    /// <summary>Changes within how many working days an investigation should be closed; those that are open keep their day.</summary>
    public Task<bool> ChangeInvestigationDaysAsync(Actor actor, int workingDays, string reason, long version, CancellationToken cancellation) =>
        writing.CarryOutAsync(new Deed(InvestigationsDeed, actor, Reason: reason), async (scope, token) =>
        {
            var settings = await FindAsync(scope, version, token);
            settings.InvestigationWorkingDays = workingDays is >= 1 and <= 250 ? workingDays : throw new RefusedException("investigation-days", "An investigation is given 1 to 250 working days.", "investigationDays");
            return true;
        }, cancellation);

    /// <summary>Changes after how many days accounts and roles are reviewed again.</summary>
    /// <exception cref="RefusedException">Not from 1 to <see cref="LaboratorySettings.LongestAccessReviewDays"/> days.</exception>
    public Task<bool> ChangeAccessReviewAsync(Actor actor, int everyDays, string reason, long version, CancellationToken cancellation) =>
        writing.CarryOutAsync(new Deed(AccessDeed, actor, Reason: reason), async (scope, token) =>
        {
            var settings = await FindAsync(scope, version, token);
            if (everyDays is < 1 or > LaboratorySettings.LongestAccessReviewDays)
            {
                throw new RefusedException("access-review-days", FormattableString.Invariant($"Accounts and roles are reviewed every 1 to {LaboratorySettings.LongestAccessReviewDays} days, not every {everyDays}."), "accessReviewDays");
            }

            settings.AccessReviewEveryDays = everyDays;
            return true;
        }, cancellation);

    /// <summary>The settings within a running deed.</summary>
    internal static async Task<LaboratorySettings> OfAsync(LaboratoryContext data, CancellationToken cancellation) =>
        await RowById<LaboratorySettings>.AskAsync(data, LaboratorySettings.OnlyId, cancellation) ?? throw new RefusedException("not-set-up", "The laboratory has not been set up yet.");

    private static async Task<LaboratorySettings> FindAsync(DeedScope scope, long version, CancellationToken cancellation)
    {
        var settings = await OfAsync(scope.Data, cancellation);
        DeedScope.RequireVersion(settings, version, "The laboratory's settings");
        scope.About("Laboratory", settings.Id, settings.Name);
        return settings;
    }
}
