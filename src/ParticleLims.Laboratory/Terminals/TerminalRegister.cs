using System.Security.Cryptography;
using Microsoft.EntityFrameworkCore;
using ParticleLims.Laboratory.Record;

namespace ParticleLims.Laboratory.Terminals;

/// <summary>A terminal as the administrator's list shows it; its secret is nowhere.</summary>
public sealed record TerminalRow(Guid Id, string Name, string Place, bool HasScanner, DateTimeOffset? EnrolledAt, DateTimeOffset? CodeExpiresAt, DateTimeOffset? WithdrawnAt, long Version);

/// <summary>Enrols browsers as shared terminals, knows them again, withdraws them.</summary>
public sealed class TerminalRegister(WritePath writing, ReadPath reading)
{
    /// <summary>How long a one-time code can be used.</summary>
    public static readonly TimeSpan CodeLasts = TimeSpan.FromMinutes(15);

    private const int CodeLetters = 10;

    private static readonly DeedKind EnrolDeed = new("terminals.enrol", "Terminal enrolled", Permission.KeepTerminals);
    private static readonly DeedKind CodeDeed = new("terminals.make-code", "Code for enrolling a terminal made", Permission.KeepTerminals);
    private static readonly DeedKind UseCodeDeed = new("terminals.enrol-by-code", "Terminal enrolled by its code", null);
    private static readonly DeedKind ChangeDeed = new("terminals.change", "Terminal renamed or moved", Permission.KeepTerminals, ReasonRequired: true);
    private static readonly DeedKind WithdrawDeed = new("terminals.withdraw", "Terminal withdrawn", Permission.KeepTerminals, ReasonRequired: true);

    /// <summary>Enrols the browser at which the administrator stands, and answers the secret that it keeps. The secret is stored as a hash.</summary>
    public Task<string> EnrolAsync(Actor actor, TerminalCard card, CancellationToken cancellation) =>
        writing.CarryOutAsync(new Deed(EnrolDeed, actor), async (scope, token) =>
        {
            var terminal = await AddAsync(scope, card, token);
            return Enrol(scope, terminal);
        }, cancellation);

    /// <summary>Makes a code that enrols the browser at which it is typed within <see cref="CodeLasts"/>; answers it once, in clear.</summary>
    public Task<string> MakeCodeAsync(Actor actor, TerminalCard card, CancellationToken cancellation) =>
        writing.CarryOutAsync(new Deed(CodeDeed, actor), async (scope, token) =>
        {
            var code = ShortCode.Random(CodeLetters);
            var terminal = await AddAsync(scope, card, token);
            (terminal.CodeHash, terminal.CodeExpiresAt) = (RecordChain.HashOf(code), scope.Now + CodeLasts);
            return code;
        }, cancellation);

    /// <summary>Uses a code: enrols the browser at which it was typed, and answers the secret that it keeps.</summary>
    /// <exception cref="RefusedException">The code is unknown, used or expired.</exception>
    public Task<string> EnrolByCodeAsync(string code, TerminalSeen at, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(at);
        return writing.CarryOutAsync(new Deed(UseCodeDeed, Actor.Unknown(at.Name)), async (scope, token) =>
        {
            var hash = RecordChain.HashOf(ShortCode.Normal(code));
            var terminal = await scope.Data.Set<Terminal>().FirstOrDefaultAsync(terminal => terminal.CodeHash == hash, token);
            if (terminal is not { WithdrawnAt: null } || terminal.CodeExpiresAt <= scope.Now)
            {
                throw new RefusedException("terminal-code", "This code is unknown, was used already or has expired. The administrator makes a new one under Terminals.", "code");
            }

            scope.About("Terminal", terminal.Id, terminal.Name);
            return Enrol(scope, terminal);
        }, cancellation);
    }

    /// <summary>Renames a terminal or moves it. What was done there before keeps the name of then.</summary>
    public Task<bool> ChangeAsync(Actor actor, Guid id, TerminalCard card, string reason, long version, CancellationToken cancellation) =>
        writing.CarryOutAsync(new Deed(ChangeDeed, actor, Reason: reason), async (scope, token) =>
        {
            var terminal = await FindAsync(scope, id, version, token);
            card.Check();
            await RequireFreeNameAsync(scope, card.Name.Trim(), id, token);
            (terminal.Name, terminal.Place, terminal.HasScanner) = (card.Name.Trim(), card.Place.Trim(), card.HasScanner);
            return true;
        }, cancellation);

    /// <summary>Withdraws a terminal: the session there is over at once, and the browser is like any other.</summary>
    public Task<bool> WithdrawAsync(Actor actor, Guid id, string reason, long version, CancellationToken cancellation) =>
        writing.CarryOutAsync(new Deed(WithdrawDeed, actor, Reason: reason), async (scope, token) =>
        {
            var terminal = await FindAsync(scope, id, version, token);
            (terminal.WithdrawnAt, terminal.CodeHash, terminal.CodeExpiresAt) = (scope.Now, null, null);
            return true;
        }, cancellation);

    /// <summary>All terminals by name, those in use first.</summary>
    public Task<List<TerminalRow>> AllAsync(Actor actor, CancellationToken cancellation) =>
        reading.ReadAsync(actor, Permission.KeepTerminals, (data, _, token) => data.Set<Terminal>().OrderBy(terminal => terminal.WithdrawnAt != null).ThenBy(terminal => terminal.Name)
            .Select(terminal => new TerminalRow(terminal.Id, terminal.Name, terminal.Place, terminal.HasScanner, terminal.EnrolledAt, terminal.CodeExpiresAt, terminal.WithdrawnAt, terminal.Version)).ToListAsync(token), cancellation);

    /// <summary>Which terminal keeps this secret, or kept it until it was withdrawn; null when none ever did.</summary>
    public Task<TerminalRow?> RecogniseAsync(string secret, CancellationToken cancellation)
    {
        var hash = RecordChain.HashOf(secret);
        return reading.ReadOpenlyAsync((data, token) => data.Set<Terminal>().Where(terminal => terminal.SecretHash == hash)
            .Select(terminal => new TerminalRow(terminal.Id, terminal.Name, terminal.Place, terminal.HasScanner, terminal.EnrolledAt, terminal.CodeExpiresAt, terminal.WithdrawnAt, terminal.Version)).FirstOrDefaultAsync(token), cancellation);
    }

    private static async Task<Terminal> AddAsync(DeedScope scope, TerminalCard card, CancellationToken cancellation)
    {
        card.Check();
        await RequireFreeNameAsync(scope, card.Name.Trim(), null, cancellation);
        var terminal = new Terminal { Id = scope.NewId(), Name = card.Name.Trim(), Place = card.Place.Trim(), HasScanner = card.HasScanner };
        scope.Data.Add(terminal);
        scope.About("Terminal", terminal.Id, terminal.Name);
        return terminal;
    }

    private static string Enrol(DeedScope scope, Terminal terminal)
    {
        var secret = Convert.ToHexStringLower(RandomNumberGenerator.GetBytes(32));
        (terminal.SecretHash, terminal.EnrolledAt) = (RecordChain.HashOf(secret), scope.Now);
        (terminal.CodeHash, terminal.CodeExpiresAt) = (null, null);
        return secret;
    }

    // The name of a withdrawn terminal is free again: the next machine at that bench is called the same. A code that expired keeps no name either.
    private static async Task RequireFreeNameAsync(DeedScope scope, string name, Guid? own, CancellationToken cancellation)
    {
        var now = scope.Now;
        var used = await scope.Data.Set<Terminal>().Where(other => other.Id != own && other.WithdrawnAt == null && (other.EnrolledAt != null || other.CodeExpiresAt > now)).Select(other => other.Name).ToListAsync(cancellation);
        if (used.Contains(name, StringComparer.OrdinalIgnoreCase))
        {
            throw new RefusedException("terminal-name-used", $"There is a terminal “{name}” already. Choose another name, or withdraw that one first.", "name");
        }
    }

    private static async Task<Terminal> FindAsync(DeedScope scope, Guid id, long version, CancellationToken cancellation)
    {
        var terminal = await scope.FindAsync<Terminal>(id, "terminal", cancellation);
        DeedScope.RequireVersion(terminal, version, $"The terminal “{terminal.Name}”");
        if (terminal.WithdrawnAt is not null)
        {
            throw new RefusedException("terminal-withdrawn", $"The terminal “{terminal.Name}” was withdrawn. Enrol it anew.");
        }

        scope.About("Terminal", terminal.Id, terminal.Name);
        return terminal;
    }
}
