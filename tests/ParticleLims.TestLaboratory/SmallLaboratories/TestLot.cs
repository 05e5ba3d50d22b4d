using ParticleLims.Laboratory.Samples;

namespace ParticleLims.TestLaboratory.SmallLaboratories;

/// <summary>A lot with its one sample.</summary>
public sealed record TestLot(SmallLaboratory Laboratory, TestMethod Method, Guid Id, SampleBookedIn Sample)
{
    /// <summary>The first replicate's run.</summary>
    public Guid RunId => Sample.RunIds[0];

    /// <summary>Books in a lot and its sample.</summary>
    public static async Task<TestLot> BookInAsync(SmallLaboratory laboratory, TestMethod method, Guid? customer = null)
    {
        ArgumentNullException.ThrowIfNull(laboratory);
        var id = await laboratory.BookInLotAsync(method, customer);
        return new TestLot(laboratory, method, id, await laboratory.BookInSampleAsync(id, method));
    }

    /// <summary>The technician carries out and submits every planned run.</summary>
    public async Task<TestLot> SubmitAsync(Powder powder)
    {
        foreach (var run in Sample.RunIds)
        {
            await Laboratory.Bench().CarryOutAsync(run, Method, powder);
        }

        return this;
    }

    /// <summary>The reviewer accepts every planned run.</summary>
    public async Task<TestLot> AcceptAsync()
    {
        foreach (var run in Sample.RunIds)
        {
            await Laboratory.Desk.AcceptAsync(run);
        }

        return this;
    }

    /// <summary>Carried out, accepted, released.</summary>
    public async Task<TestLot> ReleaseAsync(Powder powder)
    {
        await SubmitAsync(powder);
        await AcceptAsync();
        await Laboratory.Desk.ReleaseAsync(Id);
        return this;
    }
}
