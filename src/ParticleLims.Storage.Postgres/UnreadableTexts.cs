using System.Data.Common;
using Microsoft.EntityFrameworkCore.Diagnostics;
using ParticleLims.Laboratory.Record;

namespace ParticleLims.Storage.Postgres;

/// <summary>Refuses in words, before the server would with an error of its own, to ask for a text that PostgreSQL cannot hold.</summary>
internal sealed class UnreadableTexts : DbCommandInterceptor
{
    public static UnreadableTexts Refused { get; } = new();

    public override ValueTask<InterceptionResult<DbDataReader>> ReaderExecutingAsync(
        DbCommand command, CommandEventData eventData, InterceptionResult<DbDataReader> result, CancellationToken cancellationToken = default)
    {
        foreach (DbParameter parameter in command.Parameters)
        {
            if (parameter.Value is string text)
            {
                StorableText.Require(text);
            }
        }

        return ValueTask.FromResult(result);
    }
}
