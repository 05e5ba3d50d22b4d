using Microsoft.EntityFrameworkCore;

namespace ParticleLims.Laboratory.Record;

/// <summary>Leaves in the record that something was taken out of the laboratory as a file: who, what, when.</summary>
public sealed class RecordExporting(WritePath writing)
{
    private const int MostLabel = 200;
    private static readonly DeedKind TrailDeed = new("record.export", "Audit trail exported", Permission.ReadRecord);
    private static readonly DeedKind RegisterDeed = new("record.export-register", "Equipment register exported", Permission.SeeLaboratory);

    /// <summary>Notes an export of the audit trail; answers the number up to which it goes, the event before this one.</summary>
    /// <param name="actor">Who takes it.</param>
    /// <param name="form">As what: CSV, JSON, PDF.</param>
    /// <param name="question">What was asked, in words.</param>
    /// <param name="cancellation">Ends it.</param>
    public Task<long> NoteTrailAsync(Actor actor, string form, string question, CancellationToken cancellation) => NoteAsync(TrailDeed, actor, "Record", $"{form}: {question}", cancellation);

    /// <summary>Notes an export of the equipment register.</summary>
    public Task<long> NoteRegisterAsync(Actor actor, string file, CancellationToken cancellation) => NoteAsync(RegisterDeed, actor, "EquipmentRegister", file, cancellation);

    private Task<long> NoteAsync(DeedKind kind, Actor actor, string thing, string label, CancellationToken cancellation) =>
        writing.CarryOutAsync(new Deed(kind, actor), async (scope, token) =>
        {
            var plain = string.Concat(label.Select(letter => char.IsControl(letter) ? ' ' : letter));
            scope.About(thing, Guid.Empty, plain.Length <= MostLabel ? plain : plain[..(char.IsHighSurrogate(plain[MostLabel - 2]) ? MostLabel - 2 : MostLabel - 1)] + "…");
            return await scope.Data.Events.MaxAsync(one => (long?)one.Sequence, token) ?? 0;
        }, cancellation);
}
