using System.Globalization;
using System.Text.Json;
using ParticleLims.Laboratory.Record;

namespace ParticleLims.Laboratory.Tests.Record;

/// <summary>Somebody with the database in hand changes the record, ten thousand times, each time in another way; every time it is found, and where. The rows are copies in memory.</summary>
public sealed class TamperTrialTests
{
    private const int Trials = 10_000;
    private const int Events = 120;
    private const int Seed = 20_261_126;

    private static readonly string[] Ways = ["edit", "edit and hash again", "delete", "insert", "insert and number again", "swap", "swap and number again", "truncate", "rewrite from there on", "rewrite all"];

    [Fact]
    public void Every_one_of_ten_thousand_changes_of_the_record_is_found_and_where()
    {
        var random = new Random(Seed);
        var record = Chain(Events);
        var outside = (Events, record[^1].Hash);
        var found = Ways.ToDictionary(way => way, _ => 0);
        for (var trial = 0; trial < Trials; trial++)
        {
            var way = Ways[trial % Ways.Length];
            var (tampered, place) = Tamper(record, way, random);
            var verification = RecordVerifier.Verify(tampered, outside);
            verification.Fault.ShouldNotBeNull($"{way}, trial {trial}");
            Located(verification, way, place, tampered.Count).ShouldBeTrue($"{way} at event {place}, trial {trial}: {verification.Fault}");
            found[way]++;
        }

        found.Values.ShouldAllBe(count => count == Trials / Ways.Length);
        RecordVerifier.Verify(record, outside).Fault.ShouldBeNull("the record itself holds");
    }

    [Fact]
    public void Without_a_head_kept_outside_a_cut_off_end_and_a_rewritten_record_look_whole()
    {
        var random = new Random(Seed);
        var record = Chain(Events);
        foreach (var way in new[] { "truncate", "rewrite from there on", "rewrite all" })
        {
            RecordVerifier.Verify(Tamper(record, way, random).Record, null).Fault.ShouldBeNull(way);
        }
    }

    [Fact]
    public void The_hash_is_that_of_the_canonical_text_as_another_writer_of_json_makes_it()
    {
        var one = new RecordEvent
        {
            Sequence = 7, At = RunningLaboratory.FirstMorning, PersonName = "Åsa “the sieve” O'Hara\u2028", Terminal = "<T1>", Code = "lots.book-in", SubjectKind = "Lot", SubjectId = Guid.Empty, SubjectLabel = "é\u0001\t\"\\/ 🙂",
            Changes = "[]", SearchText = string.Empty, PreviousHash = RecordChain.Origin, Hash = string.Empty,
        };
        string?[] members = ["7", "2026-03-02T08:00:00.000000Z", null, one.PersonName, "<T1>", "lots.book-in", "Lot", Guid.Empty.ToString("D"), one.SubjectLabel, null, "[]", RecordChain.Origin];
        RecordChain.HashOf(one).ShouldBe(RecordChain.HashOf(JsonSerializer.Serialize(members)));
    }

    /// <summary>Whether the fault is said at the first event that is not what it was.</summary>
    private static bool Located(RecordVerification verification, string way, int place, int count) => way switch
    {
        "truncate" => verification.Fault == $"The record ends at event {count.ToString(CultureInfo.InvariantCulture)}, but event {Events.ToString(CultureInfo.InvariantCulture)} was seen outside: its end was cut off.",
        "rewrite from there on" or "rewrite all" => verification.Fault!.StartsWith($"Event {Events.ToString(CultureInfo.InvariantCulture)} is not the one whose hash was kept outside", StringComparison.Ordinal),
        _ => verification.Events == place - 1 && verification.Fault!.Contains($"vent {place.ToString(CultureInfo.InvariantCulture)}", StringComparison.Ordinal),
    };

    private static (List<RecordEvent> Record, int Place) Tamper(IReadOnlyList<RecordEvent> record, string way, Random random)
    {
        var rows = record.ToList();
        var at = random.Next(rows.Count);
        switch (way)
        {
            case "edit":
                rows[at] = Edited(rows[at], random);
                return (rows, at + 1);
            case "edit and hash again":
                at = Math.Min(at, rows.Count - 2);
                rows[at] = Sealed(Edited(rows[at], random), rows[at].Sequence, rows[at].PreviousHash);
                return (rows, at + 2);
            case "delete":
                at = Math.Min(at, rows.Count - 2);
                rows.RemoveAt(at);
                return (rows, at + 1);
            case "insert":
                at = Math.Min(at, rows.Count - 2);
                rows.Insert(at, Sealed(Edited(rows[at], random), rows[at].Sequence, rows[at].PreviousHash));
                return (rows, at + 2);
            case "insert and number again":
                at = Math.Min(at, rows.Count - 2);
                rows.Insert(at, Sealed(Edited(rows[at], random), rows[at].Sequence, rows[at].PreviousHash));
                NumberAgain(rows, at + 1);
                return (rows, at + 2);
            case "swap" or "swap and number again":
                return Swapped(rows, random, way != "swap");
            case "truncate":
                rows.RemoveRange(at, rows.Count - at);
                return (rows, at);
            case "rewrite from there on":
                Rewrite(rows, at, random);
                return (rows, at + 1);
            default:
                Rewrite(rows, 0, random);
                return (rows, 1);
        }
    }

    private static (List<RecordEvent> Record, int Place) Swapped(List<RecordEvent> rows, Random random, bool numberAgain)
    {
        var first = random.Next(rows.Count - 1);
        var second = random.Next(first + 1, rows.Count);
        (rows[first], rows[second]) = (rows[second], rows[first]);
        if (numberAgain)
        {
            NumberAgain(rows, 0);
        }

        return (rows, first + 1);
    }

    private static void NumberAgain(List<RecordEvent> rows, int from)
    {
        for (var at = from; at < rows.Count; at++)
        {
            rows[at] = With(rows[at], sequence: at + 1);
        }
    }

    private static void Rewrite(List<RecordEvent> rows, int from, Random random)
    {
        for (var at = from; at < rows.Count; at++)
        {
            rows[at] = Sealed(at == from ? Edited(rows[at], random) : rows[at], at + 1, at == 0 ? RecordChain.Origin : rows[at - 1].Hash);
        }
    }

    // One letter of one column, as a hand in the database changes it.
    private static RecordEvent Edited(RecordEvent one, Random random) => random.Next(9) switch
    {
        0 => With(one, at: one.At.AddMicroseconds(random.Next(1, 1_000))),
        1 => With(one, personId: Guid.Parse(FormattableString.Invariant($"{random.Next(1, int.MaxValue):x8}-0000-7000-8000-000000000000"))),
        2 => With(one, personName: Letter(one.PersonName, random)),
        3 => With(one, terminal: Letter(one.Terminal, random)),
        4 => With(one, code: Letter(one.Code, random)),
        5 => With(one, label: Letter(one.SubjectLabel, random)),
        6 => With(one, reason: Letter(one.Reason ?? "none", random)),
        7 => With(one, kind: Letter(one.SubjectKind, random)),
        _ => With(one, changes: Letter(one.Changes, random)),
    };

    private static string Letter(string text, Random random)
    {
        var at = random.Next(text.Length);
        var other = (char)('a' + random.Next(26));
        return text[..at] + (text[at] == other ? 'Z' : other) + text[(at + 1)..];
    }

    private static RecordEvent Sealed(RecordEvent one, long sequence, string previous)
    {
        var open = With(one, sequence: sequence, previous: previous);
        return With(open, hash: RecordChain.HashOf(open));
    }

    private static List<RecordEvent> Chain(int count)
    {
        var rows = new List<RecordEvent>();
        for (var number = 1; number <= count; number++)
        {
            var changes = FormattableString.Invariant($$$"""[{"thing":"Weighing","id":"{{{number}}}","change":"added","values":{"Mass":[null,"{{{number * 1_237}}} µg"]}}]""");
            rows.Add(Sealed(
                new RecordEvent
                {
                    Sequence = number, At = RunningLaboratory.FirstMorning.AddSeconds(number), PersonId = Guid.Empty, PersonName = "Tove Brandt", Terminal = "Bench 1", Code = "runs.weigh", SubjectKind = "Run", SubjectId = Guid.Empty,
                    SubjectLabel = FormattableString.Invariant($"R-26-{number:00000}"), Reason = number % 3 == 0 ? "Dust on the frame" : null, Changes = changes, SearchText = string.Empty, PreviousHash = RecordChain.Origin, Hash = string.Empty,
                },
                number, rows.Count == 0 ? RecordChain.Origin : rows[^1].Hash));
        }

        return rows;
    }

    // The attacker keeps what is searched in step, which makes it harder.
    private static RecordEvent With(
        RecordEvent one, long? sequence = null, DateTimeOffset? at = null, Guid? personId = null, string? personName = null, string? terminal = null, string? code = null, string? kind = null, string? label = null, string? reason = null,
        string? changes = null, string? previous = null, string? hash = null) => new()
    {
        Sequence = sequence ?? one.Sequence, At = at ?? one.At, PersonId = personId ?? one.PersonId, PersonName = personName ?? one.PersonName, Terminal = terminal ?? one.Terminal, Code = code ?? one.Code, SubjectKind = kind ?? one.SubjectKind,
        SubjectId = one.SubjectId, SubjectLabel = label ?? one.SubjectLabel, Reason = reason ?? one.Reason, Changes = changes ?? one.Changes, PreviousHash = previous ?? one.PreviousHash, Hash = hash ?? one.Hash,
        SearchText = RecordEvent.SearchTextOf(label ?? one.SubjectLabel, personName ?? one.PersonName, code ?? one.Code),
    };
}
