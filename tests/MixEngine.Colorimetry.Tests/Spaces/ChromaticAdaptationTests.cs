using CsCheck;

namespace MixEngine.Colorimetry.Tests;

public class ChromaticAdaptationTests
{
    private static readonly Gen<Xyz> AnyXyz = Gen.Select(Gen.Double[0, 110], Gen.Double[0, 100], Gen.Double[0, 120], (x, y, z) => new Xyz(x, y, z));

    [Fact]
    public void Bradford_has_the_whole_matrix_of_a_general_library()
    {
        foreach (var row in PublishedTable.Load("adaptation-matrices.csv").Rows)
        {
            var from = new Xyz(100 * row["Xw"], 100 * row["Yw"], 100 * row["Zw"]);
            var to = new Xyz(100 * row["Xwr"], 100 * row["Ywr"], 100 * row["Zwr"]);
            Xyz[] columns = [.. new Xyz[] { new(1, 0, 0), new(0, 1, 0), new(0, 0, 1) }.Select(xyz => ChromaticAdaptation.Bradford.Adapt(xyz, from, to))];
            double[] actual = [.. columns.Select(xyz => row["row"] switch { 0 => xyz.X, 1 => xyz.Y, _ => xyz.Z })];

            // Eight decimals; the library inverts a cone matrix that it keeps to seven.
            Assert.Equal(row["m0"], actual[0], 1e-7);
            Assert.Equal(row["m1"], actual[1], 1e-7);
            Assert.Equal(row["m2"], actual[2], 1e-7);
        }
    }

    [Fact]
    public void Cone_responses_are_those_of_the_published_matrices()
    {
        // A stimulus that excites one published cone only keeps its shape: it is scaled by the ratio of that cone's whites.
        var (from, to) = (Arbitrary.White(ViewingCondition.Default), Arbitrary.White(new ViewingCondition(Illuminant.A, Observer.Degree2)));
        foreach (var (name, transform) in new[] { ("BRADFORD", ChromaticAdaptation.Bradford), ("CAT16", ChromaticAdaptation.Cat16) })
        {
            var rows = PublishedTable.Load("cone-matrices.csv").Rows.Where(row => row.Text("transform") == name).ToArray();
            AnyXyz.Sample(xyz =>
            {
                var adapted = transform.Adapt(xyz, from, to);
                foreach (var row in rows)
                {
                    double Cone(Xyz c) => row["m0"] * c.X + row["m1"] * c.Y + row["m2"] * c.Z;
                    Assert.Equal(Cone(xyz) * Cone(to) / Cone(from), Cone(adapted), 1e-9);
                }
            });
        }
    }

    [Fact]
    public void White_becomes_white_and_the_way_back_is_the_inverse() =>
        Gen.Select(AnyXyz, Arbitrary.View, Arbitrary.View).Sample((xyz, first, second) =>
        {
            var (from, to) = (Arbitrary.White(first), Arbitrary.White(second));
            foreach (var transform in new[] { ChromaticAdaptation.Cat16, ChromaticAdaptation.Bradford })
            {
                Arbitrary.AssertNear(to, transform.Adapt(from, from, to), 1e-10);
                Arbitrary.AssertNear(xyz, transform.Adapt(transform.Adapt(xyz, from, to), to, from), 1e-9);
                Assert.Equal(xyz, transform.Adapt(xyz, from, from));
            }
        });
}
