using CsCheck;

namespace MixEngine.Colorimetry.Tests;

public class MetamerismIndexTests
{
    private static readonly ViewingCondition InA = new(Illuminant.A, Observer.Degree2);

    private static readonly Gen<Reflectance> Any = Gen.Double[0.01, 0.99].Array[SpectralGrid.Bands].Select(values => new Reflectance(values));

    [Fact]
    public void Samples_of_the_same_or_of_proportional_reflectance_have_none() =>
        Gen.Select(Any, Gen.Double[0.1, 1]).Sample((reflectance, scale) =>
        {
            Assert.Equal(0, MetamerismIndex.Of(reflectance, reflectance, ViewingCondition.Default, InA), 1e-9);

            // A rest of difference under the reference light is taken out.
            var darker = new Reflectance([.. reflectance.Values.ToArray().Select(value => value * scale)]);
            Assert.Equal(0, MetamerismIndex.Of(reflectance, darker, ViewingCondition.Default, InA), 1e-6);
        });

    [Fact]
    public void Under_the_light_of_reference_there_is_none() =>
        Gen.Select(Any, Any).Sample((one, other) =>
            Assert.Equal(0, MetamerismIndex.Of(one, other, ViewingCondition.Default, ViewingCondition.Default), 1e-6));

    [Fact]
    public void A_metameric_pair_comes_apart_by_its_plain_difference()
    {
        // The smoothest reflectance with the colour of a wavy one matches it under D65 exactly; then the index is the difference under A.
        var wavy = new Reflectance([.. Enumerable.Range(0, SpectralGrid.Bands).Select(band => 0.5 + 0.45 * Math.Sin(0.6 * band))]);
        var smooth = ReflectanceFromColor.Reconstruct(TristimulusWeights.For(ViewingCondition.Default).ToXyz(wavy), ViewingCondition.Default).Reflectance;
        Lab In(ViewingCondition condition, Reflectance reflectance) => Lab.FromXyz(TristimulusWeights.For(condition).ToXyz(reflectance), TristimulusWeights.For(condition).White);
        Assert.Equal(0, DeltaE2000.Between(In(ViewingCondition.Default, wavy), In(ViewingCondition.Default, smooth)), 1e-3);
        var plain = DeltaE2000.Between(In(InA, wavy), In(InA, smooth));
        Assert.True(plain > 1);
        Assert.Equal(plain, MetamerismIndex.Of(wavy, smooth, ViewingCondition.Default, InA), 1e-2);
    }

    [Fact]
    public void Black_is_answered()
    {
        Assert.True(double.IsFinite(MetamerismIndex.Of(Reflectance.Constant(0), Reflectance.Constant(0), ViewingCondition.Default, InA)));
        Assert.True(double.IsFinite(MetamerismIndex.Of(Reflectance.Constant(0.5), Reflectance.Constant(0), ViewingCondition.Default, InA)));
    }
}
