using CsCheck;
using ParticleLims.Analysis.ModelFits;

namespace ParticleLims.Analysis.Tests.ModelFits;

public sealed class FitCautionTests
{
    /// <summary>Counted out: every sequence of tosses is made.</summary>
    [Fact]
    public void The_chance_of_a_run_is_what_counting_gives() =>
        Gen.Select(Gen.Int[1, 10], Gen.Int[2, 10]).Sample((tosses, length) =>
        {
            var with = Enumerable.Range(0, 1 << tosses).Count(sequence => Longest(sequence, tosses) >= length);
            FitCautions.ChanceOfRun(tosses, length).ShouldBe(with / (double)(1 << tosses), 1e-12);
        });

    /// <summary>Counted out as well: every mixture is made.</summary>
    [Fact]
    public void The_chance_of_few_runs_is_what_counting_gives() =>
        Gen.Select(Gen.Int[1, 6], Gen.Int[1, 5], Gen.Int[2, 11]).Sample((above, below, runs) =>
        {
            var tosses = above + below;
            var mixtures = Enumerable.Range(0, 1 << tosses).Where(sequence => int.PopCount(sequence) == above).ToList();
            var few = mixtures.Count(sequence => Enumerable.Range(1, tosses - 1).Count(i => ((sequence >> i) & 1) != ((sequence >> (i - 1)) & 1)) < runs);
            FitCautions.ChanceOfRuns(above, below, runs).ShouldBe(few / (double)mixtures.Count, 1e-12);
        });

    [Fact]
    public void Points_on_an_arc_are_told_from_a_model()
    {
        // A Gates-Gaudin-Schuhmann line through points of a Rosin-Rammler distribution bends away at both ends.
        var points = new[] { 10, 14, 20, 28, 40, 56, 80, 112, 160, 224 }.Select(x => ((decimal)x, Math.Round((decimal)(100 * (1 - Math.Exp(-Math.Pow(x / 80.0, 1.2)))), 6))).ToArray();
        var models = Requests.Given(points).Result().Models;
        models.Single(model => model is { Model: Model.RosinRammler, Method: FitMethod.WeightedLeastSquares }).Caution.ShouldBeNull();
        models.Single(model => model is { Model: Model.GatesGaudinSchuhmann, Method: FitMethod.StraightLine }).Caution.ShouldNotBeNull().ShouldContain("in a row");
    }

    [Fact]
    public void A_position_outside_the_apertures_is_told() =>
        Requests.Given((20m, 80m), (32m, 90m), (45m, 95m), (63m, 98m)).Result().Models[0].Caution.ShouldNotBeNull().ShouldContain("outside the measured apertures");

    [Fact]
    public void Fewer_than_four_points_are_told() =>
        Requests.Given((20m, 30m), (32m, 60m), (45m, 80m)).Result().Models.ShouldAllBe(model => model.Caution!.Contains("Only 3 points"));

    private static int Longest(int sequence, int tosses)
    {
        var (longest, current, last) = (0, 0, -1);
        for (var i = 0; i < tosses; i++)
        {
            var side = (sequence >> i) & 1;
            current = side == last ? current + 1 : 1;
            (longest, last) = (Math.Max(longest, current), side);
        }

        return longest;
    }
}
