using Bunit;
using Microsoft.AspNetCore.Components;
using MudBlazor.Services;
using ParticleLims.Laboratory.Record;
using ParticleLims.Web.Controls;
using Shouldly;
using Xunit;

namespace ParticleLims.Web.Tests.Controls;

public sealed class NumberFieldTests : BunitContext
{
    public NumberFieldTests()
    {
        JSInterop.Mode = JSRuntimeMode.Loose;
        Services.AddMudServices();
    }

    [Fact]
    public void A_comma_stays_as_typed_and_the_words_stand_beside_it()
    {
        decimal? value = 7m;
        var field = Render<NumberField>(with => with.Add(one => one.Label, "Quantity").Add(one => one.Value, 7m).Add(one => one.ValueChanged, typed => value = typed));
        field.Find("input").Input("10,5");
        value.ShouldBeNull();
        field.Find("input").GetAttribute("value").ShouldBe("10,5");
        field.WaitForAssertion(() => field.Markup.ShouldContain("type 10.5."));
    }

    [Fact]
    public void A_number_with_a_point_is_handed_on()
    {
        decimal? value = null;
        var field = Render<NumberField>(with => with.Add(one => one.Label, "Quantity").Add(one => one.ValueChanged, typed => value = typed));
        field.Find("input").Input("10.50");
        value.ShouldBe(10.5m);
        field.Find("input").GetAttribute("value").ShouldBe("10.50");
    }

    [Fact]
    public void The_laboratory_s_refusal_stands_beside_the_field_it_is_about_until_it_is_typed_anew()
    {
        var form = Form();
        form.Markup.ShouldNotContain("A lot weighs more than 0 kg.");
        form.Render(With(new RefusedException("lot-quantity", "A lot weighs more than 0 kg.", "quantityKilograms")));
        form.Markup.ShouldContain("A lot weighs more than 0 kg.");
        form.Find("input").Input("12");
        form.Markup.ShouldNotContain("A lot weighs more than 0 kg.");
    }

    [Fact]
    public void A_refusal_about_something_else_is_not_shown_here()
    {
        var form = Form();
        form.Render(With(new RefusedException("lot-number-used", "The number is used.", "number")));
        form.Markup.ShouldNotContain("The number is used.");
    }

    private IRenderedComponent<CascadingValue<RefusedException?>> Form() => Render(With(null));

    private static Action<ComponentParameterCollectionBuilder<CascadingValue<RefusedException?>>> With(RefusedException? refusal) => with => with.Add(one => one.Value, refusal)
        .AddChildContent<NumberField>(field => field.Add(one => one.Label, "Quantity").Add(one => one.Member, "quantityKilograms"));
}
