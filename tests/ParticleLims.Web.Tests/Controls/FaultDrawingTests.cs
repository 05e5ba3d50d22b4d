using Bunit;
using ParticleLims.Laboratory.Sieves;
using ParticleLims.Web.Equipment;
using Shouldly;
using Xunit;

namespace ParticleLims.Web.Tests.Controls;

/// <summary>Each fault of the list has a drawing of its own, with words for those who do not see it.</summary>
public sealed class FaultDrawingTests : BunitContext
{
    [Fact]
    public void Each_fault_has_a_drawing_of_its_own_that_says_in_words_what_it_shows()
    {
        var drawings = SieveFaultList.All.Select(fault => Render<FaultDrawing>(sheet => sheet.Add(one => one.Fault, fault)).Find("svg")).ToList();
        drawings.ShouldAllBe(drawing => drawing.GetAttribute("role") == "img" && drawing.GetAttribute("aria-label")!.StartsWith("Drawing: ", StringComparison.Ordinal));
        drawings.Select(drawing => drawing.GetAttribute("aria-label")).ShouldBeUnique();
        drawings.Select(drawing => drawing.InnerHtml).ShouldBeUnique();
        drawings.ShouldAllBe(drawing => drawing.QuerySelector(".wrong, .grain, .stain") != null, "what is wrong is drawn, not only the cloth");
        Should.Throw<ArgumentOutOfRangeException>(() => FaultDrawing.AltOf(SieveFaults.None));
    }
}
