using System.Data.Common;
using Microsoft.EntityFrameworkCore.Diagnostics;

namespace ParticleLims.Benchmarks.Weighings;

/// <summary>Notes the statements that Entity Framework sends.</summary>
internal sealed class StatementLog : DbCommandInterceptor
{
    private readonly List<(string Text, TimeSpan Took)> seen = [];

    /// <summary>What was sent since the last time this was asked.</summary>
    public IReadOnlyList<(string Text, TimeSpan Took)> Take()
    {
        var taken = seen.ToArray();
        seen.Clear();
        return taken;
    }

    /// <inheritdoc />
    public override DbDataReader ReaderExecuted(DbCommand command, CommandExecutedEventData eventData, DbDataReader result)
    {
        Note(command, eventData);
        return result;
    }

    /// <inheritdoc />
    public override ValueTask<DbDataReader> ReaderExecutedAsync(DbCommand command, CommandExecutedEventData eventData, DbDataReader result, CancellationToken cancellationToken = default)
    {
        Note(command, eventData);
        return new(result);
    }

    /// <inheritdoc />
    public override ValueTask<int> NonQueryExecutedAsync(DbCommand command, CommandExecutedEventData eventData, int result, CancellationToken cancellationToken = default)
    {
        Note(command, eventData);
        return new(result);
    }

    private void Note(DbCommand command, CommandExecutedEventData eventData) => seen.Add((command.CommandText, eventData.Duration));
}
