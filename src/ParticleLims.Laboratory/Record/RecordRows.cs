using System.Data.Common;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Storage.ValueConversion;
using ParticleLims.Laboratory.Storage;

namespace ParticleLims.Laboratory.Record;

/// <summary>
/// Reads the events of the record in their order, column by column: checking the whole record is bound by reading it, and the general way takes several times as long for each row.
/// </summary>
internal sealed class RecordRows : IDisposable
{
    private readonly DbCommand command;
    private readonly DbDataReader reader;
    private readonly ValueConverter instants;
    private readonly int sequence, at, personId, personName, terminal, code, subjectKind, subjectId, subjectLabel, reason, changes, searchText, previousHash, hash;

    public RecordRows(LaboratoryContext data)
    {
        var type = data.Model.FindEntityType(typeof(RecordEvent))!;
        instants = type.FindProperty(nameof(RecordEvent.At))!.GetTypeMapping().Converter!;
        command = data.Events.AsNoTracking().OrderBy(one => one.Sequence).CreateDbCommand();
        data.Database.OpenConnection();
        reader = command.ExecuteReader();
        sequence = Column(nameof(RecordEvent.Sequence));
        at = Column(nameof(RecordEvent.At));
        personId = Column(nameof(RecordEvent.PersonId));
        personName = Column(nameof(RecordEvent.PersonName));
        terminal = Column(nameof(RecordEvent.Terminal));
        code = Column(nameof(RecordEvent.Code));
        subjectKind = Column(nameof(RecordEvent.SubjectKind));
        subjectId = Column(nameof(RecordEvent.SubjectId));
        subjectLabel = Column(nameof(RecordEvent.SubjectLabel));
        reason = Column(nameof(RecordEvent.Reason));
        changes = Column(nameof(RecordEvent.Changes));
        searchText = Column(nameof(RecordEvent.SearchText));
        previousHash = Column(nameof(RecordEvent.PreviousHash));
        hash = Column(nameof(RecordEvent.Hash));

        int Column(string property) => reader.GetOrdinal(type.FindProperty(property)!.GetColumnName());
    }

    /// <summary>What is wrong with the event after those that were read, where it holds something that no event can hold; nothing is read after it.</summary>
    public string? Unreadable { get; private set; }

    /// <summary>So many of the next events; fewer at the end.</summary>
    public List<RecordEvent> Next(int count)
    {
        var page = new List<RecordEvent>(count);
        while (page.Count < count && Unreadable is null && reader.Read())
        {
            try
            {
                page.Add(Current());
            }
            catch (Exception fault) when (fault is FormatException or InvalidCastException or InvalidOperationException or ArgumentException or OverflowException)
            {
                Unreadable = fault.Message;
            }
        }

        return page;
    }

    public void Dispose()
    {
        reader.Dispose();
        command.Dispose();
    }

    private RecordEvent Current() => new()
    {
        Sequence = reader.GetInt64(sequence), At = (DateTimeOffset)instants.ConvertFromProvider(reader.GetValue(at))!, PersonId = reader.IsDBNull(personId) ? null : reader.GetGuid(personId),
        PersonName = reader.GetString(personName), Terminal = reader.GetString(terminal), Code = reader.GetString(code), SubjectKind = reader.GetString(subjectKind), SubjectId = reader.GetGuid(subjectId),
        SubjectLabel = reader.GetString(subjectLabel), Reason = reader.IsDBNull(reason) ? null : reader.GetString(reason), Changes = reader.GetString(changes), SearchText = reader.GetString(searchText),
        PreviousHash = reader.GetString(previousHash), Hash = reader.GetString(hash),
    };
}
